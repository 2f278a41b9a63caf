#include "huewright/wire/deposit.h"

#include <fmt/format.h>

#include <algorithm>
#include <thread>

#include "command.h"
#include "huewright/base/executor.h"
#include "huewright/hair/words.h"
#include "huewright/wire/json.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kLabelWidth = 9;   // terminal cells, as in the page of lift
constexpr std::size_t kSwatchWidth = 2;  // terminal cells

colour::HairLab lab_of(const wire::Triple& lab) {
  return {lab[0], lab[1], lab[2]};
}

/// Depth and tone; the number stands in its own column.
std::string words_of(const colour::HairLab& lab) {
  const auto words = hair::describe(lab);
  return fmt::format("{}, {}", words.level_name, words.tone);
}

std::string shade_text(const wire::ColourGiven& colour) {
  const std::string grams = decimal(spoken(), colour.grams, 1);
  std::string text;
  if (colour.swatch) {
    text = said(spoken(), "{0} g of a shade by its swatch", {grams});
  } else if (colour.tone == "clear") {
    text = said(spoken(), "{0} g clear", {grams});
  } else {
    text = said(spoken(), "{0} g level {1} {2}",
                {grams, decimal(spoken(), *colour.level, 1), said(spoken(), colour.tone)});
  }
  if (!colour.words.empty()) text += fmt::format(" ({})", colour.words);
  return text;
}

std::string bowl_lines(const wire::DepositRequest& request, const wire::DepositAnswer& answer) {
  const auto figure = [](double value, int places) { return decimal(spoken(), value, places); };
  std::string shades;
  for (const auto& colour : request.colours) {
    shades += (shades.empty() ? "" : ", ") + shade_text(colour);
  }
  if (request.developer) {
    shades +=
        said(spoken(), " and {0} g of {1} % developer",
             {figure(request.developer->grams, 1), figure(request.developer->peroxide_percent, 1)});
  }
  std::string text = said(
      spoken(), "{0} colour: {1}; {2} g, {3} % peroxide; {4} g per gram of hair, {5} °C, {6} min",
      {said(spoken(), process::class_facts(request.dye_class).word), shades,
       figure(answer.bowl.grams, 1), figure(answer.bowl.peroxide_percent, 2),
       figure(request.grams_per_gram_hair, 2), figure(request.temperature.value(), 1),
       figure(request.minutes.value(), 1)});
  if (!request.clean) text += said(spoken(), ", on hair that is not clean", {});
  if (request.water_held_g_per_g > 0) {
    text += said(spoken(), ", on damp hair ({0} g of water per gram)",
                 {figure(request.water_held_g_per_g, 2)});
  }
  return as_it_is(text, kLabelWidth, said(spoken(), "Bowl"));
}

std::string table(const Look& look, const std::vector<wire::DepositRow>& series) {
  std::string out =
      fmt::format("minute  level  {:<9}  {}colour\n", "between", look.swatches ? "   " : "");
  for (const auto& row : series) {
    const std::string block = swatch(look, lab_of(row.lab), kSwatchWidth);
    out += fmt::format("{:>6}  {:>5.1f}  {:<9}  {}{}{}\n", plain(row.minute, 1), row.level,
                       fmt::format("{:.1f}–{:.1f}", row.level_low, row.level_high), block,
                       block.empty() ? "" : " ", words_of(lab_of(row.lab)));
  }
  return out;
}

std::string report(const Look& look, const wire::DepositRequest& request,
                   const wire::DepositAnswer& answer) {
  std::string out = findings_text(answer.found);
  out += bowl_lines(request, answer);
  out += '\n' + table(look, answer.series) + '\n';
  const std::string rows(
      said(spoken(), "Each row is the hair as it would be if it were rinsed then. "));
  out += as_it_is(
      rows + std::string(request.members > 1
                             ? said(spoken(),
                                    "The level should lie between the two figures 8 times in 10; a "
                                    "swatch of the shade narrows them.")
                             : said(spoken(),
                                    "Reckoned once, with the most likely figures, so how sure it "
                                    "is stays unknown.")));
  return out + closing_text();
}

}  // namespace

Result<Said> run_deposit(const Asked& asked) {
  const auto request = wire::decode<wire::DepositRequest>(asked.text);
  if (!request) return tl::unexpected(request.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto answer = wire::answer(*request, *threads);
  if (!answer) return tl::unexpected(answer.error());
  return Said{asked.json ? wire::encode(*answer) + '\n' : report(asked.look, *request, *answer),
              exit_code_of(answer->found)};
}

}  // namespace hw::apps
