#include "huewright/wire/colour.h"

#include <fmt/format.h>

#include "command.h"
#include "huewright/colour/screen.h"
#include "huewright/hair/words.h"
#include "huewright/wire/json.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kSwatchWidth = 8;  // terminal cells

/// Two decimals, and no minus before a zero.
std::string hundredths(double value) {
  return fixed(spoken(), value, 2);
}

std::string lab_text(const wire::Triple& lab) {
  return fmt::format("L* {}, a* {}, b* {}", hundredths(lab[0]), hundredths(lab[1]),
                     hundredths(lab[2]));
}

/// A hair colour: block where the terminal can, words always, numbers last.
std::string hair_text(const Look& look, const wire::Triple& triple) {
  const colour::HairLab lab{triple[0], triple[1], triple[2]};
  const std::string block = swatch(look, lab, kSwatchWidth);
  return fmt::format("{}{}{}\n", block, block.empty() ? "" : "  ",
                     hair::sentence(hair::describe(lab))) +
         as_it_is(said(spoken(), "{0} in daylight, 10 degrees", {lab_text(triple)}));
}

std::string report(const Look& look, const wire::XyzAsk& ask, const wire::XyzAnswer& answer) {
  const bool daylight = !ask.own_light && ask.named == colour::Illuminant::d65 &&
                        ask.observer == colour::Observer::deg10;
  const auto& xyz = answer.xyz;
  std::string out = as_it_is(
      said(spoken(), "X {0}, Y {1}, Z {2}  (a perfect white has Y 100)",
           {fixed(spoken(), xyz[0], 3), fixed(spoken(), xyz[1], 3), fixed(spoken(), xyz[2], 3)}));
  if (daylight) return out + hair_text(look, answer.lab);
  const std::string light =
      std::string(ask.own_light ? said(spoken(), "the light given") : colour::name_of(ask.named));
  return out + as_it_is(said(spoken(), "{0} under {1}, {2} degrees",
                             {lab_text(answer.lab), light,
                              ask.observer == colour::Observer::deg2 ? "2" : "10"}));
}

/// What an eye makes of a difference (common practice, no source).
std::string_view seen_as(double difference) {
  if (difference < 1) return said(spoken(), "hardly seen");
  if (difference < 2) return said(spoken(), "seen by a trained eye, side by side");
  if (difference < 5) return said(spoken(), "seen side by side");
  return said(spoken(), "plainly another colour");
}

std::string report(const Look& look, const wire::DifferenceAsk& ask,
                   const wire::DifferenceAnswer& answer) {
  std::string out = fmt::format("{:>5}{:>9}{:>10}{:>10}{:>10}   {}\n", "pair", "by 2000", "by 1976",
                                "by 1994", "CMC 2:1", "to the eye");
  for (std::size_t i = 0; i < ask.pairs.size(); ++i) {
    const auto& [one, two] = ask.pairs[i];
    const std::string blocks =
        swatch(look, {one[0], one[1], one[2]}, 4) + swatch(look, {two[0], two[1], two[2]}, 4);
    out += fmt::format("{:>5}{:>9.4f}{:>10.4f}{:>10.4f}{:>10.4f}   {}{}{}\n", i + 1, answer.de00[i],
                       answer.de76[i], answer.de94[i], answer.cmc21[i], blocks,
                       blocks.empty() ? "" : "  ", seen_as(answer.de00[i]));
  }
  return out + as_it_is(said(spoken(),
                             "Each number is a colour difference by the formula of that year, or "
                             "CMC."));
}

std::string report(const Look& look, const wire::TressAsk&, const wire::TressAnswer& answer) {
  return hair_text(look, answer.lab);
}

std::string report(const Look& look, const wire::ScreenAsk& ask, const wire::ScreenAnswer& answer) {
  const auto eight = colour::eight_bit({answer.rgb[0], answer.rgb[1], answer.rgb[2], true});
  std::string out = hair_text(look, ask.lab);
  const auto& rgb = answer.rgb;
  out += as_it_is(
      said(spoken(), "{0} {1} {2} {3}, as whole numbers {4}",
           {ask.space == colour::ScreenSpace::srgb ? "sRGB" : "Display P3",
            fixed(spoken(), rgb[0], 4), fixed(spoken(), rgb[1], 4), fixed(spoken(), rgb[2], 4),
            fmt::format("#{:02x}{:02x}{:02x}", eight[0], eight[1], eight[2])}));
  return out +
         as_it_is(answer.in_gamut
                      ? said(spoken(), "The screen can show it.")
                      : said(spoken(), "The screen cannot show it; this is the nearest it can."));
}

}  // namespace

Result<Said> run_colour(const Asked& asked) {
  const auto request = wire::decode<wire::ColourRequest>(asked.text);
  if (!request) return tl::unexpected(request.error());
  const auto answer = wire::answer(*request);
  if (!answer) return tl::unexpected(answer.error());
  if (asked.json) return Said{wire::encode(*answer) + '\n'};
  return std::visit(
      [&](const auto& ask) -> Result<Said> {
        using Ask = std::decay_t<decltype(ask)>;
        if constexpr (std::is_same_v<Ask, wire::XyzAsk>) {
          return Said{report(asked.look, ask, std::get<wire::XyzAnswer>(*answer))};
        } else if constexpr (std::is_same_v<Ask, wire::DifferenceAsk>) {
          return Said{report(asked.look, ask, std::get<wire::DifferenceAnswer>(*answer))};
        } else if constexpr (std::is_same_v<Ask, wire::TressAsk>) {
          return Said{report(asked.look, ask, std::get<wire::TressAnswer>(*answer))};
        } else {
          return Said{report(asked.look, ask, std::get<wire::ScreenAnswer>(*answer))};
        }
      },
      *request);
}

}  // namespace hw::apps
