#pragma once
// The colour after the lift: for a canvas (as a lift option leaves it, or the hair as it is) and a
// target, the grams of a few shades of one class, what every zone then looks like, how sure that
// is, and what washing leaves of it.
#include <optional>
#include <string>
#include <vector>

#include "huewright/plan/course.h"
#include "huewright/plan/formula.h"
#include "huewright/plan/lift_plan.h"
#include "huewright/plan/target.h"
#include "huewright/process/deposit.h"
#include "huewright/process/fade.h"

namespace hw::plan {

/// One thing to pour into the colour bowl.
struct ColourItem {
  std::string product;  ///< id on the shelf
  double grams = 0;
};

/// A zone after the colour.
struct ColouredZone {
  std::string zone;
  colour::HairLab lab;       ///< of the member nearest the median L*
  colour::HairLab lab_low;   ///< mean of the members nearest the 10 % of L*
  colour::HairLab lab_high;  ///< mean of the members nearest the 90 % of L*
  Band level;
  double expected_de00 = 0;  ///< to the target's middle
  double within_3 = 0;       ///< share of members within CIEDE2000 3 of it, 0–1
};

/// A colour bowl on all zones, and its result.
struct ColourStep {
  process::DyeClass dye_class = process::DyeClass::demi;
  std::vector<ColourItem> items;  ///< shades, clear, developer
  double peroxide_percent = 0;    ///< of the ready mix
  double minutes = 0;
  double cost = 0;  ///< of what is poured, in the salon's currency
  std::vector<ColouredZone> zones;
  std::vector<FadedZone> fade;  ///< at washes 10, 20 and 30
  std::vector<process::Refusal> refusals;
  std::vector<process::Refusal> cautions;
  double expected_de00 = 0;  ///< over the zones, by hair
  double within_3 = 0;       ///< of the least likely zone
};

/// A lift and the colour that follows, or colour alone.
struct ColourCourse {
  std::optional<LiftOption> lift;
  ColourStep colour;
  [[nodiscard]] double wear_high() const;  ///< 90 % edge of the most worn zone
  std::vector<double> zone_wear_high;
};

/// "soap cap 1 : 2 : 1 with 6 % developer, then demi colour".
[[nodiscard]] std::string words_of(const ColourCourse& course);
/// Its trade-off in a sentence.
[[nodiscard]] std::string sentence_of(const ColourCourse& course);

/// The best courses to a target: each of the first lift options and no lift at all, with each class
/// of colour on the shelf; those that another course beats in colour, wear and minutes alike are
/// dropped. Lightness first: a wish lighter than the canvas cannot be deposited and shows as a
/// miss. Error: no colour on the shelf; those of find_formulas.
[[nodiscard]] Result<std::vector<ColourCourse>> plan_colour(const Case& head, const LiftPlan& lifts,
                                                            const Target& target,
                                                            Executor& executor);

}  // namespace hw::plan
