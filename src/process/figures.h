#pragma once
// Rows "id, low, mid, high" of this floor's own tables. A fault in one is a fault of the build.
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/statistics.h"

namespace hw::process {

[[nodiscard]] inline Table embedded_table(std::string_view text, const char* name) {
  auto table = parse_table(text, name);
  HW_CHECK(table.has_value());
  return *std::move(table);
}

/// The band of one row. id: a row of the table.
[[nodiscard]] inline Band band_in(const Table& table, std::string_view id) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "id") != id) continue;
    return {*table.number(row, "low"), *table.number(row, "mid"), *table.number(row, "high")};
  }
  HW_CHECK(false);
  return {};
}

}  // namespace hw::process
