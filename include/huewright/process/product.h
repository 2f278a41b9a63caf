#pragma once
// What stands on a shelf, as chemistry. The salon's own words for it are free text, never parsed.
#include <optional>
#include <string>

#include "huewright/base/units.h"
#include "huewright/process/bowl.h"
#include "huewright/process/shade.h"

namespace hw::process {

struct Product {
  std::string id;     ///< unique on its shelf
  std::string words;  ///< as printed on the tube; free text
  PartKind kind = PartKind::water;
  std::optional<Percent> peroxide = {};    ///< developer: % by mass
  bool for_scalp = false;                  ///< lightener: its label allows the scalp
  double developer_parts = 2;              ///< lightener: parts of developer to one part, 0.5–4
  std::optional<DyeClass> dye_class = {};  ///< colour: how it holds
  double level = 5;                        ///< colour: depth on white hair, 1–10
  std::string tone = "neutral";            ///< colour: a word of shade_tones(); "clear" for clear
  std::optional<Grams> stock = {};         ///< at hand; plenty where it is not said
  double price_per_g = 0;                  ///< in the salon's currency, ≥ 0
  std::optional<Minutes> label_max = {};   ///< lightener: longest time its label allows
};

}  // namespace hw::process
