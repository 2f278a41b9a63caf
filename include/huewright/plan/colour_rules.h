#pragma once
// Which colour step a canvas and a target ask for, as the trade has it: a filler first, a toner, a
// gloss; warmth kept or taken off; white strands; old colour that new colour does not lift. Grams
// are the solver's. Figures: data/plan/colour_rules.csv. Where two teachings differ both are said.
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"
#include "huewright/plan/course.h"
#include "huewright/plan/target.h"
#include "huewright/process/lift.h"
#include "huewright/process/product.h"
#include "huewright/process/refusal.h"
#include "huewright/process/rules.h"

namespace hw::plan {

/// One row of data/plan/colour_rules.csv.
struct ColourFigure {
  std::string id;
  double low = 0, high = 0;  ///< in `unit`
  std::string unit, text, grade, source;
};
/// A row by its id. id: a row of the table.
[[nodiscard]] const ColourFigure& colour_figure(std::string_view id);

/// A canvas as the rules of colour see it.
struct CanvasLook {
  colour::HairLab lab;      ///< of its pigmented strands, the member in the middle of L*
  double level = 1;         ///< of that depth
  bool lightened = false;   ///< a good part of its pigment is gone
  bool old_colour = false;  ///< artificial colour makes it darker
  double white_share = 0;   ///< 0–1 of strands
};
/// Looks at a zone's hair as it is when the colour bowl opens. members: one or more.
[[nodiscard]] CanvasLook look_of(const process::LiftMembers& members, const hair::Ladder& ladder);

/// When the warm pigment that lightened hair lacks is put back.
enum class FillWhen { not_needed, in_formula, first };

/// Two teachings on fillers, and what the house goes by: the gap (more than 2 levels).
struct FillAdvice {
  FillWhen by_gap = FillWhen::not_needed;     ///< bib filler_how_to
  FillWhen by_target = FillWhen::not_needed;  ///< bib filler_stylist
  std::string sentence;                       ///< empty where neither wants one
  [[nodiscard]] bool disputed() const { return by_gap != by_target; }
};
/// target_level: 1–10. Only lightened hair that goes darker is filled.
/// Worked: lightened to 8, target 5: first by both. 10 to 7.5: first by the gap, in the formula by
/// the target. 7 to 6: by the target alone.
[[nodiscard]] FillAdvice fill_advice(const CanvasLook& canvas, double target_level);
/// A filler is due: lightened, and the target more than 2 levels darker (bib filler_how_to).
[[nodiscard]] bool needs_filler(const CanvasLook& canvas, double target_level);

/// One class of colour on the shelf that can fill, with what it is mixed.
struct FillerWay {
  process::DyeClass dye_class = process::DyeClass::demi;
  std::vector<std::size_t> shades;       ///< of the shelf
  std::optional<std::size_t> developer;  ///< of the shelf: 5 to 10 volume; none for direct colour
};
/// A filler before the colour.
struct FillerStep {
  FillAdvice advice;
  colour::HairLab colour;  ///< what it is to look like when filled
  double level = 5;        ///< of that
  Band minutes;            ///< 10 to 15, then wiped and not rinsed
  Band colour_minutes;     ///< of the colour over it, looked at every 5 minutes
  std::vector<FillerWay>
      ways;  ///< demi before permanent before direct; empty: nothing on the shelf
  std::string sentence;
};
/// The filler a canvas needs for a target; empty where none is due. shelf: shades of gold, copper
/// or red between the target's depth and the canvas's serve, half a level of room at either end.
[[nodiscard]] std::optional<FillerStep> filler_for(const CanvasLook& canvas, const Target& target,
                                                   std::span<const process::Product> shelf,
                                                   const hair::Ladder& ladder);
/// The warm stage that a strand lifted only to the target's depth would show, a level lighter so
/// that the colour over it has room: its hue, with the chroma of that depth. Never lighter than the
/// canvas. Guess; bib mahogany_article names gold or copper for light ends.
[[nodiscard]] colour::HairLab fill_colour(const CanvasLook& canvas, double target_level,
                                          const hair::Ladder& ladder);

/// What a colour bowl is for: gloss with at most a quarter of colour in clear; tone where lightened
/// hair keeps its depth within a level; else deposit. clear_share: 0–1 of the bowl's colour.
[[nodiscard]] Purpose purpose_for(const CanvasLook& canvas, double target_level,
                                  double clear_share);

enum class WarmthAim { none, keep, neutralise };
/// Whether the warmth of a canvas serves the target.
struct WarmthRule {
  WarmthAim aim = WarmthAim::none;
  std::string stage;                  ///< warm stage of the canvas; empty where it shows none
  std::vector<std::string> counters;  ///< tone words of shades that take it off
  std::string sentence;               ///< empty with `none`
};
/// Violet against yellow, blue against orange, green against red: bib exam_preparation_colouring.
/// Warmth is kept where the target itself is warmer than natural hair of its depth.
[[nodiscard]] WarmthRule warmth_rule(const CanvasLook& canvas, const Target& target);

/// What white strands ask of a class of colour.
struct WhiteRule {
  bool covers = false;        ///< permanent colour, on white strands
  bool blends = false;        ///< demi colour, up to 40 %
  double naturals_least = 0;  ///< share of neutral and gold among the shades, 0–1; the house's
  double naturals_other = 0;  ///< what the teaching that scales it with the white asks
  std::vector<std::string> says;  ///< a sentence each; empty without white
};
/// canvas_level: of the strands that are not white.
[[nodiscard]] WhiteRule white_rule(double white_share, process::DyeClass dye_class,
                                   double canvas_level, double target_level);
/// Share of neutral and gold shades among what is poured, by mass and clear left out [0–1]; 0 for
/// nothing. tones: a word for each pour; grams: likewise, ≥ 0.
[[nodiscard]] double naturals_share(std::span<const std::string> tones,
                                    std::span<const double> grams);
/// What the mix does against the rule of thumb, where it falls short of it; else empty.
[[nodiscard]] std::string naturals_note(const WhiteRule& rule, double share);

/// What stands against colour alone on hair as it is (permanent or not, nothing lifted before):
/// old_colour_not_lifted, colour_alone_cannot. natural_level: of untouched hair, else empty.
[[nodiscard]] std::vector<process::Refusal> check_reach(const CanvasLook& canvas,
                                                        double target_level,
                                                        std::optional<double> natural_level,
                                                        process::DyeClass dye_class,
                                                        const process::RuleSettings& settings);

}  // namespace hw::plan
