#include "look.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <string_view>

#include "huewright/colour/screen.h"

namespace hw::apps {
namespace {

std::string_view variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view() : value;
}

}  // namespace

Look look_of_terminal() {
  const std::string_view depth = variable("COLORTERM");
  const bool deep = depth == "truecolor" || depth == "24bit";
  return {deep && variable("NO_COLOR").empty() && isatty(STDOUT_FILENO) != 0};
}

std::string swatch(const Look& look, const colour::HairLab& lab, std::size_t width) {
  if (!look.swatches) return {};
  const auto rgb = colour::eight_bit(colour::to_screen(lab, colour::ScreenSpace::srgb));
  return fmt::format("\x1b[48;2;{};{};{}m{}\x1b[0m", rgb[0], rgb[1], rgb[2],
                     std::string(width, ' '));
}

}  // namespace hw::apps
