#include "paint.h"

#include <fmt/format.h>

#include <cmath>

#include "huewright/colour/screen.h"
#include "huewright/hair/words.h"

namespace hw::server {
namespace {

double four_decimals(double value) {
  constexpr double kParts = 1e4;
  return std::round(value * kParts) / kParts;
}

constexpr std::string_view kLab = "lab";

}  // namespace

Json paint(const colour::HairLab& lab, const hair::Ladder& ladder) {
  const auto srgb = colour::to_screen(lab, colour::ScreenSpace::srgb);
  const auto p3 = colour::to_screen(lab, colour::ScreenSpace::display_p3);
  const auto bytes = colour::eight_bit(srgb);
  Json made;
  made["srgb"] = fmt::format("#{:02x}{:02x}{:02x}", bytes[0], bytes[1], bytes[2]);
  made["p3"] = {four_decimals(p3.r), four_decimals(p3.g), four_decimals(p3.b)};
  made["in_srgb"] = srgb.in_gamut;
  made["in_p3"] = p3.in_gamut;
  made["words"] = hair::sentence(hair::describe(lab, ladder));
  return made;
}

void add_paints(Json& answer, const hair::Ladder& ladder) {
  if (answer.is_array()) {
    for (Json& entry : answer) add_paints(entry, ladder);
    return;
  }
  if (!answer.is_object()) return;
  std::vector<std::pair<std::string, Json>> paints;
  for (auto& [key, value] : answer.items()) {
    const bool is_lab = key.starts_with(kLab) && value.is_array() && value.size() == 3 &&
                        value[0].is_number() && value[1].is_number() && value[2].is_number();
    if (!is_lab) {
      add_paints(value, ladder);
      continue;
    }
    const colour::HairLab lab{value[0], value[1], value[2]};
    paints.emplace_back("paint" + key.substr(kLab.size()), paint(lab, ladder));
  }
  for (auto& [key, value] : paints) answer[key] = std::move(value);
}

}  // namespace hw::server
