// Any bytes as a table: either a mendable error in one line, or rows that can all be read.
#include <cstdint>
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto table = hw::parse_table(text, "fuzz.csv");
  if (!table) {
    HW_CHECK(hw::one_line(table.error()).find('\n') == std::string::npos);
    HW_CHECK(!table.error().message.empty());
    return 0;
  }
  for (const auto& column : table->header()) {
    HW_CHECK(table->has(column));
    for (std::size_t row = 0; row < table->rows(); ++row) {
      HW_CHECK(table->text(row, column).has_value());
      const auto number = table->number(row, column);
      if (!number) HW_CHECK(!number.error().where.empty());
    }
    const auto numbers = table->numbers(column);
    if (numbers) HW_CHECK(numbers->size() == table->rows());
  }
  HW_CHECK(!table->numbers("no such column, ever").has_value() ||
           table->has("no such column, ever"));
  return 0;
}
