#pragma once
// The grid that strand chart and fade chart share: rows by distance, levels and their lines.
#include <vector>

#include "huewright/plan/strand_chart.h"

namespace hw::plan {

/// Rows of a chart whose course is set: shared out by length, each zone getting at least two.
void lay_rows(StrandChart& chart, std::size_t rows);

/// The distinct warmths of a zone as members, and which of them each of its rows is.
struct ZoneMembers {
  process::LiftMembers members;
  std::vector<std::size_t> of_row;
};
[[nodiscard]] ZoneMembers zone_members(const StrandChart& chart, std::size_t z);

/// Levels of the colours that are there, and the lines of equal level.
void find_levels(StrandChart& chart, const hair::Ladder& ladder);

}  // namespace hw::plan
