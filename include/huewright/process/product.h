#pragma once
// What stands on a shelf, as chemistry. The salon's own words for it are free text, never parsed.
#include <optional>
#include <string>
#include <vector>

#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/process/bowl.h"
#include "huewright/process/shade.h"

namespace hw::process {

struct Product {
  std::string id;     ///< unique on its shelf
  std::string words;  ///< as printed on the tube; free text
  std::string name;   ///< the product a skin test is of; several shades share it. Empty: its id
  PartKind kind = PartKind::water;
  std::optional<Percent> peroxide = {};  ///< developer: % by mass
  bool for_scalp = false;                ///< lightener: its label allows the scalp
  /// Maker's parts of developer to one part, 0–4. Empty: 2 for a lightener, a colour's by its
  /// class.
  std::optional<double> developer_parts = {};
  std::optional<DyeClass> dye_class = {};  ///< colour: how it holds
  double level = 5;                        ///< colour: depth on white hair, 1–10
  std::string tone = "neutral";            ///< colour: a word of shade_tones(); "clear" for clear
  std::optional<Grams> stock = {};         ///< at hand; plenty where it is not said
  double price_per_g = 0;                  ///< in the salon's currency, ≥ 0
  std::optional<Minutes> label_max = {};   ///< lightener: longest time its label allows
  std::optional<Minutes> label_min = {};   ///< colour: processing time on its label
  std::optional<Minutes> mix_life = {};    ///< how old the ready mix may get by its label
  bool test_each_use = false;        ///< colour: its maker asks for a skin test before each use
  bool label_allows_mixing = false;  ///< its label says that it may go into an oxidative bowl
  bool protein = false;              ///< treatment: with protein; never blended
  std::vector<std::string> ingredients = {};       ///< colour: its label's dye list, or empty
  std::optional<colour::HairLab> swatch_lab = {};  ///< colour: read on white hair, D65/10°
};

}  // namespace hw::process
