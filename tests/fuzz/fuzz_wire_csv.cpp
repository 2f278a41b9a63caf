// Any bytes as a table with quotes: rows that say the same when they are written and read again.
#include <algorithm>

#include "fuzz_wire.h"
#include "huewright/wire/csv.h"

namespace {

/// Rows as read_csv gives them back: without the apostrophe before what looks like a formula.
std::vector<std::vector<std::string>> plain(const std::vector<hw::wire::CsvRow>& rows) {
  std::vector<std::vector<std::string>> all;
  for (const auto& row : rows) {
    auto& cells = all.emplace_back();
    for (const auto& cell : row.cells) cells.push_back(hw::wire::plain_text(cell));
  }
  return all;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto rows = wire::read_csv(text);
  if (!rows) {
    fuzz::check_error(rows.error());
    return 0;
  }
  const auto lines = static_cast<std::size_t>(std::ranges::count(text, '\n')) + 1;
  // Every table that is written has a heading; a mark in its first cell would be passed over.
  std::string written = wire::csv_line({"one", "two"});
  std::size_t line = 0;
  for (const wire::CsvRow& row : *rows) {
    HW_CHECK(row.line > line && row.line <= lines);
    line = row.line;
    HW_CHECK(std::ranges::any_of(row.cells, [](const auto& cell) { return !cell.empty(); }));
    std::vector<std::string> cells;
    for (const std::string& cell : row.cells) cells.push_back(wire::csv_text(cell));
    written += wire::csv_line(cells);
  }
  auto again = wire::read_csv(written);
  HW_CHECK(again.has_value() && !again->empty());
  again->erase(again->begin());
  HW_CHECK(plain(*again) == plain(*rows));
  return 0;
}
