#include "huewright/wire/lift.h"

#include <fmt/format.h>

#include <algorithm>
#include <thread>

#include "command.h"
#include "huewright/base/executor.h"
#include "huewright/hair/words.h"
#include "huewright/plan/lift_recipe.h"
#include "huewright/wire/json.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kLabelWidth = 9;   // terminal cells, "Bowl 20" and two spaces
constexpr std::size_t kSwatchWidth = 2;  // terminal cells

/// Wear in words, in the language of the report. Borders are shares of cystine: lightened hair has
/// usually lost 0.11 to 0.25 of it (bib: tate_kamath_1993); 0.25 and 0.40 are where the rules
/// caution and stop.
std::string_view wear_word(double wear) {
  if (wear < 0.02) return said(spoken(), "none");
  if (wear < 0.11) return said(spoken(), "light");
  if (wear < 0.25) return said(spoken(), "moderate");
  if (wear < 0.40) return said(spoken(), "marked");
  return said(spoken(), "heavy");
}

std::string hair_line(const wire::LiftHair& hair, const wire::LiftRow& start) {
  std::string text =
      said(spoken(), "level {0}, {1}, strand {2} µm",
           {fixed(spoken(), start.level, 1), said(spoken(), hair::level_name(start.level)),
            decimal(spoken(), hair.strand.value(), 1)});
  if (hair.opened != 1) {
    text += said(spoken(), ", opened {0} times", {decimal(spoken(), hair.opened, 2)});
  }
  return as_it_is(text, kLabelWidth, said(spoken(), "Hair"));
}

std::string bowl_line(std::size_t number, const wire::LiftApplication& asked,
                      const wire::BowlAnswer& bowl) {
  const auto figure = [](double value, int places) { return decimal(spoken(), value, places); };
  std::string text = said(spoken(), "{0}; {1} g per gram of hair, {2} °C, {3} min",
                          {bowl_text(bowl), figure(asked.grams_per_gram_hair, 2),
                           figure(asked.temperature.value(), 1), figure(asked.minutes.value(), 1)});
  if (asked.bowl.on_scalp) text += said(spoken(), ", on the scalp", {});
  if (asked.covered) text += said(spoken(), ", covered", {});
  if (asked.water_held_g_per_g > 0) {
    text += said(spoken(), ", on damp hair ({0} g of water per gram)",
                 {figure(asked.water_held_g_per_g, 2)});
  }
  return as_it_is(text, kLabelWidth, said(spoken(), "Bowl {0}", {std::to_string(number)}));
}

/// Words for the table: "dark blond, copper, red-orange".
std::string colour_words(const colour::HairLab& lab) {
  const auto words = hair::describe(lab);
  std::string text = fmt::format("{}, {}", words.level_name, words.tone);
  if (!words.warmth.empty()) text += ", " + words.warmth;
  return text;
}

std::string row_line(const Look& look, const wire::LiftRow& row, bool several,
                     std::size_t words_width) {
  const colour::HairLab lab{row.lab[0], row.lab[1], row.lab[2]};
  const std::string block = swatch(look, lab, kSwatchWidth);
  return fmt::format("{}{:>6}  {:>5.1f}  {:<9}  {}{}{:<{}}  {}, {:.0f} %\n",
                     several ? fmt::format("{:>4}  ", row.application) : "", plain(row.minute, 1),
                     row.level, fmt::format("{:.1f}–{:.1f}", row.level_low, row.level_high), block,
                     block.empty() ? "" : " ", colour_words(lab), words_width, wear_word(row.wear),
                     row.wear / plan::kWearLimit * 100);
}

std::string table(const Look& look, const std::vector<wire::LiftRow>& series, bool several) {
  std::size_t words_width = 0;
  for (const auto& row : series) {
    words_width = std::max(words_width, colour_words({row.lab[0], row.lab[1], row.lab[2]}).size());
  }
  std::string out = fmt::format("{}minute  level  {:<11}{}{:<{}}  wear\n", several ? "bowl  " : "",
                                "between", look.swatches ? "   " : "", "colour", words_width);
  for (const auto& row : series) out += row_line(look, row, several, words_width);
  return out;
}

std::string report(const Look& look, const wire::LiftRequest& request,
                   const wire::LiftAnswer& answer) {
  std::string out = findings_text(answer.found);
  out += hair_line(request.hair, answer.series.front());
  for (std::size_t i = 0; i < request.applications.size(); ++i) {
    out += bowl_line(i + 1, request.applications[i], answer.bowls[i]);
  }
  out += '\n' + table(look, answer.series, request.applications.size() > 1) + '\n';
  const std::string doubt(
      request.members > 1
          ? said(spoken(), "The level should lie between the two figures 8 times in 10.")
          : said(spoken(),
                 "Reckoned once, with the most likely figures, so how sure it "
                 "is stays unknown."));
  out += as_it_is(doubt + ' ' +
                  std::string(said(spoken(),
                                   "Wear is what chemistry has used up of the fibre, from 0 to 100 "
                                   "%, the most that the house allows in its whole life.")));
  return out + closing_text();
}

}  // namespace

Result<Said> run_lift(const Asked& asked) {
  const auto request = wire::decode<wire::LiftRequest>(asked.text);
  if (!request) return tl::unexpected(request.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto answer = wire::answer(*request, *threads);
  if (!answer) return tl::unexpected(answer.error());
  return Said{asked.json ? wire::encode(*answer) + '\n' : report(asked.look, *request, *answer),
              exit_code_of(answer->found)};
}

}  // namespace hw::apps
