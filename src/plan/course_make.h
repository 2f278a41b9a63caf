#pragma once
// A course worked out over all members: lift, colour, what comes of it, what the rules say.
#include <span>
#include <vector>

#include "course_colours.h"
#include "course_lifts.h"

namespace hw::plan {

/// The chemistry of one visit.
struct Stage {
  LiftTry lift;                          ///< on the members of the visit's start
  const ColourOption* option = nullptr;  ///< none: a lift alone
};

/// A course in the making: what stands so far, and the hair as it is now.
struct Draft {
  Course course;
  HeadHair start;   ///< of the first visit
  HeadHair lifted;  ///< when the first visit's lift is rinsed
  HeadHair now;
};

/// Before anything is done.
[[nodiscard]] Draft begun(const HeadHair& hair);

/// Adds a visit. wish: what its colour aims at, one per zone. Errors: those of find_formulas.
[[nodiscard]] Result<void> add_stage(const Case& head, const Stage& stage,
                                     std::span<const LiftRecipe> recipes,
                                     std::span<const Target> wish, int visit, Draft& draft,
                                     Executor& executor);

/// Weeks between two visits: what washing takes of the colour.
void wait_between(const Case& head, double weeks, Draft& draft);

/// Colours, chances, borders and fade of what now stands.
void conclude(const Case& head, Draft& draft);

/// A formula as a bowl on some zones, to deposit; what else it is for, the caller says.
[[nodiscard]] CourseBowl colour_bowl(const Case& head, const ColourOption& option,
                                     const Formula& formula, const process::DepositBowl& deposit,
                                     const std::vector<std::size_t>& zones, int visit);

/// The formula of one bowl on some zones of a canvas. full: searched to the end; else for judging.
[[nodiscard]] Result<Formula> solve(const Case& head, const HeadHair& canvas,
                                    const std::vector<std::size_t>& zones,
                                    std::span<const Target> wish, const ColourOption& option,
                                    bool after_lift, bool full, Executor& executor);

}  // namespace hw::plan
