#pragma once
// What the terminal can show.
#include <string>

#include "huewright/colour/lab.h"

namespace hw::apps {

/// swatches: the terminal shows 24-bit colour and nobody asked for none.
struct Look {
  bool swatches = false;
};

/// Standard output as it is now: a terminal, COLORTERM "truecolor" or "24bit", and no NO_COLOR.
[[nodiscard]] Look look_of_terminal();

/// A block of the colour, `width` cells wide; nothing when the terminal cannot show it.
[[nodiscard]] std::string swatch(const Look& look, const colour::HairLab& lab, std::size_t width);

}  // namespace hw::apps
