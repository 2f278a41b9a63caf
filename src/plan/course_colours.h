#pragma once
// Colour for a head: which shades and developers could be in one bowl, and the grams that bring a
// canvas nearest to what is wished for.
#include <string>
#include <vector>

#include "huewright/plan/formula.h"
#include "visit_hair.h"

namespace hw::plan {

/// Shades that may stand in one bowl: one class, one maker's ratio, one developer.
struct ColourOption {
  process::DyeClass dye_class = process::DyeClass::demi;
  std::vector<process::Shade> shades;
  std::vector<FormulaShade> solver;  ///< likewise
  std::string clear;                 ///< id, or empty
  const process::Product* developer = nullptr;
  double developer_parts = 0;  ///< by the label
  double minutes = 0;          ///< by the label
  double mix_life_min = 0;     ///< by the label; 0: not said
  std::size_t index = 0;       ///< among all that colour_options() gave
  bool tested_only = false;    ///< holds only what a dated skin test covers
  [[nodiscard]] bool oxidative() const { return developer_parts > 0; }
};

/// Every such set of the shelf. Permanent colour with each developer, demi with the mildest; where
/// dated tests cover some of the oxidative shades, those alone as a set of their own.
/// Error: a shade whose words or swatch make none (names the product).
[[nodiscard]] Result<std::vector<ColourOption>> colour_options(const Case& head);

/// Some shades of the shelf as a set. products, developer: indices of head.shelf. Error: a shade
/// whose words or swatch make none.
[[nodiscard]] Result<ColourOption> option_from(const Case& head, process::DyeClass dye_class,
                                               const std::vector<std::size_t>& products,
                                               std::optional<std::size_t> developer);

/// The bowl of an option on hair: lifted hair is coloured towel-dry, other hair dry.
[[nodiscard]] process::DepositBowl bowl_of(const Case& head, const ColourOption& option,
                                           bool after_lift);

/// Zones that one colour bowl goes on: all but those that are there already.
[[nodiscard]] std::vector<std::size_t> zones_to_colour(const Case& head, const HeadHair& canvas,
                                                       const std::vector<bool>& lifted);

/// What the solver sees of some zones of a canvas.
[[nodiscard]] std::vector<FormulaZone> formula_zones(const Case& head, const HeadHair& canvas,
                                                     const std::vector<std::size_t>& zones,
                                                     const process::DepositBowl& bowl,
                                                     Executor& executor);

/// Rules of the solver for a bowl on some zones: its grams, the scale, clear, the price of money.
[[nodiscard]] FormulaRules formula_rules(const Case& head, const ColourOption& option,
                                         const std::vector<std::size_t>& zones);

/// Shades and shares of a formula, for deposit().
[[nodiscard]] std::vector<process::Poured> poured(const ColourOption& option,
                                                  const Formula& formula, double colour_g);

/// The colour a formula's grams make of a zone's hair.
[[nodiscard]] std::string words_of(const ColourOption& option);

}  // namespace hw::plan
