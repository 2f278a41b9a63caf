#pragma once
// A plan beside the textbook's answer: where they differ, and why by the model itself.
#include <string>
#include <vector>

#include "huewright/plan/plan.h"
#include "support/textbook.h"

namespace hw::test {

struct Compared {
  bool first_choice = false;        ///< the plan's first course goes the textbook's first way
  bool agrees = false;              ///< or another way that is taught for such hair
  std::vector<std::string> why;     ///< "same" alone where nothing differs; never empty
  std::vector<std::string> faults;  ///< forbidden by the textbook, and yet in the plan
};

/// The way a course goes.
[[nodiscard]] Method method_of(const plan::Case& head, const plan::Course& course);
/// Levels that a course ends at, zone by zone, such as "4.6, 4.7".
[[nodiscard]] std::string levels_of(const plan::Course& course);
/// head: as it was planned. Plans the textbook's own way too where the plan shows no course of it.
[[nodiscard]] Compared compare(const plan::Case& head, const TextbookAnswer& book,
                               const plan::HeadPlan& plan, Executor& executor);

}  // namespace hw::test
