// Find as you type: every end of every word stands in a list in order, so a typed part is the start
// of some of its entries, and the database walks no more of them than it shows.
#include <algorithm>

#include "huewright/book/store.h"

namespace hw::book {
namespace {

/// The first text behind every text that starts with `start`.
std::string behind(std::string start) {
  start += "\xf4\x8f\xbf\xbf";  // U+10FFFF: no word holds it
  return start;
}

ClientLine client_from(const Row& row) {
  return {text_of(row[0]), text_of(row[1]), text_of(row[2]), whole_of(row[3]) != 0};
}

/// The clients of two typed parts or more are looked for among those of the longest; more than so
/// many of them is a part too short to choose by.
constexpr std::int64_t kMostTried = 2000;

constexpr std::string_view kFirst =
    "SELECT id, name, phone, erased FROM client WHERE erased = 0 ORDER BY sorted, id LIMIT $1";
constexpr std::string_view kByOne =
    "SELECT c.id, c.name, c.phone, c.erased FROM client c WHERE c.id IN (SELECT w.client FROM"
    " client_word w WHERE w.word >= $1 AND w.word < $2 ORDER BY w.word, w.client LIMIT $3)"
    " ORDER BY c.sorted, c.id LIMIT $4";
constexpr std::string_view kHasPart =
    "SELECT 1 FROM client_word WHERE client = $1 AND word >= $2 AND word < $3 LIMIT 1";

}  // namespace

Result<std::vector<ClientLine>> Store::find_clients(std::string_view typed, std::size_t most) {
  std::vector<std::string> parts = search_words(typed);
  std::ranges::stable_sort(parts, std::ranges::greater{}, &std::string::size);
  std::vector<ClientLine> found;
  const auto limit = static_cast<std::int64_t>(most);
  Result<std::vector<Row>> rows;
  if (parts.empty()) {
    rows = sql_->run(kFirst, std::array<Cell, 1>{limit});
  } else {
    const bool alone = parts.size() == 1;
    rows = sql_->run(kByOne, std::array<Cell, 4>{parts[0], behind(parts[0]), kMostTried,
                                                 alone ? limit : kMostTried});
  }
  if (!rows) return tl::unexpected(rows.error());
  for (const Row& row : *rows) {
    bool all = true;
    for (std::size_t i = 1; all && i < parts.size(); ++i) {
      const auto has = sql_->run(kHasPart, std::array<Cell, 3>{row[0], parts[i], behind(parts[i])});
      if (!has) return tl::unexpected(has.error());
      all = !has->empty();
    }
    if (all) found.push_back(client_from(row));
    if (found.size() == most) break;
  }
  return found;
}

}  // namespace hw::book
