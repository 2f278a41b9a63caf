#pragma once
// From lifts and colours to the few courses that are worked out in full.
#include <string>
#include <vector>

#include "course_colours.h"
#include "course_lifts.h"
#include "huewright/plan/plan.h"

namespace hw::plan {

/// All that a search for courses starts from.
struct Kitchen {
  std::vector<LiftRecipe> recipes;
  std::vector<ColourOption> options;  ///< those that are not forbidden
  std::vector<Target> wish;           ///< one per zone; empty without a target
};

/// What stands against whole kinds of step, and what was left out for it.
struct Standing {
  std::vector<process::Refusal> refusals;
  std::vector<LeftOut> left_out;
};

/// A course that was judged on a few members.
struct RoughCourse {
  LiftTry lift;
  std::size_t option = 0;  ///< index of Kitchen::options; its size for none
  double expected_de00 = 0;
  double score = 0;
};

struct Search {
  std::vector<RoughCourse> best;  ///< best score first
  std::size_t examined = 0;
};

/// Recipes, colours and wishes of a case; forbidden colours are told of in `standing`. Errors: a
/// target and no colour; no target and nothing to lift with.
[[nodiscard]] Result<Kitchen> stock_kitchen(const Case& head, const HeadHair& hair,
                                            Standing& standing);

/// Judges every course on some members and returns the `most` best, a few of each sort. rough: a
/// few members of each zone. only_reaching: lifts that stay too short are not coloured.
[[nodiscard]] Result<Search> search_courses(const Case& head, const HeadHair& rough,
                                            const Kitchen& kitchen, std::size_t most,
                                            Standing& standing, Executor& executor);

}  // namespace hw::plan
