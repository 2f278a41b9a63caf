// huewright visit calendar: visits to come and refresh dates, for any calendar program.
#include "huewright/book/agenda.h"

#include "open_book.h"

namespace hw::apps {

Result<Said> calendar(const Asked& asked, book::Folder& book) {
  const std::string client = asked.words.size() > 1 ? asked.words[1] : "";
  const process::Moment at = now();
  const auto entries = book::agenda_of(book.store(), at, client);
  if (!entries) return tl::unexpected(entries.error());
  return Said{.out = wire::write_calendar(*entries, at.utc), .exact = true};
}

}  // namespace hw::apps
