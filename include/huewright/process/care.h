#pragma once
// Care inside a service: what is washed when, moisture or protein, what may go into a bowl, and
// what must be true before a colour bowl is opened. Figures: data/process/care.csv.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/process/bowl.h"
#include "huewright/process/person.h"
#include "huewright/process/refusal.h"
#include "huewright/process/rules.h"
#include "huewright/process/shade.h"

namespace hw::process {

/// One row of data/process/care.csv.
struct CareFigure {
  std::string id;
  double low = 0;  ///< in `unit`
  double high = 0;
  std::string unit;
  std::string text;
  std::string grade;
  std::string source;
};
/// All rows. Read once; the same for the life of the program.
[[nodiscard]] std::span<const CareFigure> care_figures();
/// One row by its id. id: a row of the table.
[[nodiscard]] const CareFigure& care_figure(std::string_view id);

/// What a wet strand told.
enum class StretchMeaning {
  balanced,        ///< stretched far enough and came back
  lacks_moisture,  ///< snapped with hardly any stretch
  lacks_protein,   ///< stretched on and on, stayed long or felt like gum
};

/// What a strand did when it was stretched slowly and let go.
struct StretchLook {
  bool wet = true;
  double percent = 0;        ///< of its length, how far it went, 0–200
  bool springs_back = true;  ///< to its length
  bool broke = false;
  bool gummy = false;
};

/// A stretch in words of the rules. Wet hair that breaks below 35 % (40, less the 5 points an eye
/// is out by) snaps; that goes past 65 % (the widest printed 60, and 5) or does not come back stays
/// stretched; all else springs back. Dry hair: breaks below 15 % snaps.
/// Source: data/process/care.csv (wet 40–50 and back, dry 20).
/// Errors: a percentage outside its range (out_of_range, where: "stretch.percent").
[[nodiscard]] Result<WetStretch> judged(const StretchLook& look);

/// Moisture or protein by the wet stretch. Not tested counts as balanced: moisture does no harm.
/// Source: trade pages on the stretch test; common practice.
[[nodiscard]] StretchMeaning meaning_of(WetStretch stretch);

/// What to put on after a lightener by the wet stretch, as one sentence.
[[nodiscard]] std::string treatment_words(WetStretch stretch);

/// A step of washing or care in its place in the day.
struct CareStep {
  std::string id;  ///< "rinse", "shampoo", "mask", "protein", "detangle", "towel", "read_dry" …
  std::string words;  ///< one sentence
  int times = 1;
  double minutes_low = 0;  ///< 0 where no figure is known
  double minutes_high = 0;
};

/// What was, or will be, on the hair.
enum class After { nothing_yet, remover, chelator, lightener, deposit };

/// Care at a point of the service, in order. Before lightener: none. After a remover: a long
/// rinse, two shampoos, and each zone read dry; after a chelator: rinse, and dry again. After
/// lightener: rinse, two shampoos, treatment by the stretch, detangle, towel-dry, and each zone
/// read dry. After the deposit: rinse only, then an acid rinse when the colour was alkaline (demi,
/// permanent). Source: common practice, no source; each figure in data/process/care.csv.
[[nodiscard]] std::vector<CareStep> care_after(After what, WetStretch stretch,
                                               std::optional<DyeClass> deposit = {});

/// Shampoos between the last chemical step and the deposit and after it, and whether the order
/// costs colour: each wash before the deposit costs nothing of it, each after it does.
struct WashOrder {
  int before_deposit = 0;
  int after_deposit = 0;
};
/// The order by care_after: as many before and none after.
[[nodiscard]] WashOrder wash_order();

/// One thing that goes into a bowl, as the mixing rules see it.
struct Ingredient {
  PartKind kind = PartKind::water;
  bool protein = false;       ///< a protein treatment
  bool label_allows = false;  ///< a label says that it may go into such a bowl
};

/// What stands against blending these. A protein treatment with anything else; anything beside
/// colour, lightener and developer in an oxidative bowl whose label does not allow it. Shampoo and
/// water with lightener or developer alone are a soap cap, a recipe of its own; into colour they
/// too need a label.
[[nodiscard]] std::vector<Refusal> check_blend(std::span<const Ingredient> parts,
                                               const RuleSettings& settings = {});

/// One zone before a colour bowl is opened.
struct Canvas {
  std::string zone;
  bool read_dry = false;  ///< a dry reading since its last wash or chemical step
  bool cleansed = true;   ///< free of product and oil
};

/// What stands against opening a colour bowl now. Not asked of a plan, which cannot know yet.
[[nodiscard]] std::vector<Refusal> check_colour_bowl(std::span<const Canvas> zones,
                                                     DyeClass deposit,
                                                     const RuleSettings& settings = {});

/// Colour alone, on hair as it is.
struct ColourReach {
  bool old_colour = false;    ///< artificial colour makes the hair darker
  double levels_lighter = 0;  ///< of the target than the hair; below 0 darker
  /// Level of the permanent shade that 2·target − natural asks for, on untouched hair.
  std::optional<double> formula_level = {};
};
/// What stands against it: old_colour_not_lifted (bib stylists_colour_on_colour) and
/// colour_alone_cannot (bib educator_posts).
[[nodiscard]] std::vector<Refusal> check_colour_reach(const ColourReach& reach,
                                                      const RuleSettings& settings = {});

/// A question to which the trade gives two answers.
struct Dispute {
  std::string id;
  std::string question;
  std::optional<double> low = {};  ///< in `unit`; empty when it is not about a number
  std::optional<double> high = {};
  std::string unit;
  std::string one_side;
  std::string other_side;
  std::string house;  ///< what the program does
  std::string source;
};
/// All rows of data/process/disputed.csv.
[[nodiscard]] std::span<const Dispute> disputes();

/// Weeks until so many washes are done [weeks]. washes ≥ 0; per_week > 0.
/// 10 washes at three a week: 3.3 weeks.
[[nodiscard]] double weeks_of_washing(double washes, double per_week);

}  // namespace hw::process
