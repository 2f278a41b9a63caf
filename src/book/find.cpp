// Find as you type: every end of every word stands in a list in order, so a typed part is the start
// of some of its entries, and the database walks no more of them than it shows.
#include <fmt/format.h>

#include <algorithm>
#include <array>

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

/// Entries that one search walks at most. A part that more people have than this is no part to
/// choose by; whoever has another, rarer one is found all the same.
constexpr std::int64_t kMostWalked = 5000;
/// Clients who have a part are held in memory when there are no more; each is asked alone when
/// there are.
constexpr std::int64_t kMostHeld = 10000;
/// Entries out of which the first by name are shown: of a part that stands alone, or where a part
/// is left to be looked for behind them.
constexpr std::int64_t kMostSorted = 2000;
/// Parts that the database looks for at once; more are looked for one by one.
constexpr std::size_t kMostAtOnce = 4;

constexpr std::string_view kFirst =
    "SELECT id, name, phone, erased FROM client WHERE erased = 0 ORDER BY sorted, id LIMIT $1";
constexpr std::string_view kHowMany =
    "SELECT count(*) FROM (SELECT 1 FROM client_word WHERE word >= $1 AND word < $2 LIMIT $3) AS w";
constexpr std::string_view kEntry =
    "SELECT word, client FROM client_word WHERE word >= $1 AND word < $2 ORDER BY word, client"
    " LIMIT 1 OFFSET $3";
constexpr std::string_view kHasPart =
    "SELECT 1 FROM client_word WHERE client = $1 AND word >= $2 AND word < $3 LIMIT 1";

/// A typed part, and how many entries start with it, counted to one more than kMostHeld.
struct Part {
  std::string text;
  std::int64_t entries = 0;
};

/// The statement that finds clients by so many parts, the first few after the first of them held:
/// $1, $2 the range of the first, $3, $4 the entry to stop before, then the ranges of the others,
/// how many entries, how many clients.
std::string statement_for(std::size_t parts, std::size_t held) {
  // An expression has no index: so the held ones are not asked for one by one after all.
  constexpr std::string_view kHeld =
      " AND (w.client || '') IN (SELECT v.client FROM client_word v WHERE v.word >= ${}"
      " AND v.word < ${})";
  constexpr std::string_view kAsked =
      " AND EXISTS (SELECT 1 FROM client_word v WHERE v.client = w.client AND v.word >= ${}"
      " AND v.word < ${})";
  std::string others;
  std::size_t next = 5;
  for (std::size_t i = 1; i < parts; ++i, next += 2) {
    others += fmt::format(fmt::runtime(i <= held ? kHeld : kAsked), next, next + 1);
  }
  return fmt::format(
      "SELECT c.id, c.name, c.phone, c.erased FROM client c WHERE c.id IN (SELECT w.client FROM"
      " client_word w WHERE w.word >= $1 AND w.word < $2 AND (w.word, w.client) < ($3, $4){}"
      " ORDER BY w.word, w.client LIMIT ${}) ORDER BY c.sorted, c.id LIMIT ${}",
      others, next, next + 1);
}

/// parts: 1 to kMostAtOnce; held: fewer than these.
std::string_view statement_of(std::size_t parts, std::size_t held) {
  static const std::vector<std::string> kAll = [] {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < kMostAtOnce * kMostAtOnce; ++i) {
      all.push_back(statement_for(1 + i / kMostAtOnce, i % kMostAtOnce));
    }
    return all;
  }();
  return kAll.at((parts - 1) * kMostAtOnce + held);
}

/// Parts that say something of their own: whoever has "anna" has "an". Longest first.
std::vector<std::string> telling(std::vector<std::string> parts) {
  std::ranges::stable_sort(parts, std::ranges::greater{}, &std::string::size);
  std::vector<std::string> kept;
  for (std::string& part : parts) {
    const bool told = std::ranges::any_of(
        kept, [&](const std::string& longer) { return longer.starts_with(part); });
    if (!told) kept.push_back(std::move(part));
  }
  return kept;
}

/// The parts, those first that the fewest have.
Result<std::vector<Part>> by_rarity(Sql& sql, std::vector<std::string> texts) {
  std::vector<Part> parts;
  for (std::string& text : texts) {
    const auto rows = sql.run(kHowMany, std::array<Cell, 3>{text, behind(text), kMostHeld + 1});
    if (!rows) return tl::unexpected(rows.error());
    parts.push_back({std::move(text), whole_of(rows->front().front())});
  }
  std::ranges::stable_sort(parts, {}, &Part::entries);
  return parts;
}

/// Clients by some parts, the rarest first, up to kMostAtOnce. entries: that are taken; most:
/// clients.
Result<std::vector<Row>> with_parts(Sql& sql, std::span<const Part> parts, std::int64_t entries,
                                    std::int64_t most) {
  const std::string& first = parts[0].text;
  std::vector<Cell> arguments{first, behind(first), behind(first), std::string()};
  if (parts.size() > 1 && parts[0].entries > kMostWalked) {
    const auto entry = sql.run(kEntry, std::array<Cell, 3>{first, behind(first), kMostWalked});
    if (!entry) return entry;
    if (!entry->empty()) std::ranges::copy(entry->front(), arguments.begin() + 2);
  }
  std::size_t held = 0;
  for (const Part& part : parts.subspan(1)) {
    held += part.entries <= kMostHeld ? 1 : 0;
    arguments.emplace_back(part.text);
    arguments.emplace_back(behind(part.text));
  }
  arguments.emplace_back(entries);
  arguments.emplace_back(most);
  return sql.run(statement_of(parts.size(), held), arguments);
}

/// Whether a client has all of some parts.
Result<bool> has_all(Sql& sql, const Cell& client, std::span<const Part> parts) {
  for (const Part& part : parts) {
    const auto has = sql.run(kHasPart, std::array<Cell, 3>{client, part.text, behind(part.text)});
    if (!has) return tl::unexpected(has.error());
    if (has->empty()) return false;
  }
  return true;
}

}  // namespace

Result<std::vector<ClientLine>> Store::find_clients(std::string_view typed, std::size_t most) {
  const auto parts = by_rarity(*sql_, telling(search_words(typed)));
  if (!parts) return tl::unexpected(parts.error());
  const auto limit = static_cast<std::int64_t>(most);
  const std::span<const Part> all(*parts);
  const auto at_once = all.first(std::min(all.size(), kMostAtOnce));
  const auto rest = all.subspan(at_once.size());
  const std::int64_t sorted = std::max(limit, kMostSorted);
  Result<std::vector<Row>> rows;
  if (all.empty()) {
    rows = sql_->run(kFirst, std::array<Cell, 1>{limit});
  } else if (all.size() == 1) {
    rows = with_parts(*sql_, at_once, sorted, limit);
  } else if (rest.empty()) {
    // Twice as many: a client may have two words that start alike.
    rows = with_parts(*sql_, at_once, 2 * limit, limit);
  } else {
    rows = with_parts(*sql_, at_once, sorted, sorted);
  }
  if (!rows) return tl::unexpected(rows.error());
  std::vector<ClientLine> found;
  for (const Row& row : *rows) {
    if (found.size() == most) break;
    const auto has = has_all(*sql_, row[0], rest);
    if (!has) return tl::unexpected(has.error());
    if (*has) found.push_back(client_from(row));
  }
  return found;
}

}  // namespace hw::book
