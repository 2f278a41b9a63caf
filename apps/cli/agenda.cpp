// huewright visit calendar: visits to come and refresh dates, for any calendar program.
#include "huewright/book/agenda.h"

#include "open_book.h"

namespace hw::apps {

Result<Said> calendar(const Asked& asked, book::Folder& book) {
  const std::string client = asked.words.size() > 1 ? asked.words[1] : "";
  const process::Moment at = now();
  // From the start of this day on the wall.
  const auto day = std::chrono::floor<std::chrono::days>(at.utc + at.offset);
  const process::Moment start{std::chrono::sys_seconds(day) - at.offset, std::chrono::minutes(0)};
  const std::string utc = process::iso_text(start);
  const auto entries = book::agenda_of(book.store(), utc.substr(0, utc.find('+')) + "Z", client);
  if (!entries) return tl::unexpected(entries.error());
  return Said{wire::write_calendar(*entries, at.utc)};
}

}  // namespace hw::apps
