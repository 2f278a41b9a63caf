#pragma once
// Rows of the table of goals that scripts/bench prints last.
#include <string>

namespace hw::bench {

/// One row, as text with its units. A row is appended, tab-separated, to the file that the variable
/// HW_BENCH_GOALS names; without it, it is printed.
struct GoalRow {
  std::string work;
  std::string goal;
  std::string measured;
  bool met = false;
  std::string reference;  ///< the same computation on general-purpose libraries; may be empty
  std::string ratio;
};
void report_goal(const GoalRow& row);

}  // namespace hw::bench
