#pragma once
// Hair colours as a page paints them.
#include <nlohmann/json.hpp>

#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"

namespace hw::server {

using Json = nlohmann::ordered_json;

/// {"srgb": "#rrggbb", "p3": [r, g, b], "in_srgb", "in_p3", "words"}: gamut-mapped last, marked
/// where the screen cannot show it. p3: encoded, 0–1, to 4 decimals.
[[nodiscard]] Json paint(const colour::HairLab& lab,
                         const hair::Ladder& ladder = hair::default_ladder());

/// Puts a paint beside every "lab" of an answer: "lab" gets "paint", "lab_low" "paint_low",
/// "lab_high" "paint_high".
void add_paints(Json& answer, const hair::Ladder& ladder);

}  // namespace hw::server
