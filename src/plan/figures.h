#pragma once
// Rows "id, low, mid, high" of this floor's own tables. A fault in one is a fault of the build.
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/base/statistics.h"

namespace hw::plan {

/// A row of data/plan/work_rates.csv. id: a row of the table.
[[nodiscard]] Band work_rate(std::string_view id);

[[nodiscard]] inline Table embedded_table(std::string_view text, const char* name) {
  auto table = parse_table(text, name);
  HW_CHECK(table.has_value());
  return *std::move(table);
}

}  // namespace hw::plan
