#include <fmt/format.h>

#include <thread>

#include "command.h"
#include "huewright/base/executor.h"
#include "huewright/hair/words.h"
#include "huewright/process/lift.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"
#include "page.h"

namespace hw::apps {
namespace {

/// Wear in words. Borders are shares of cystine: lightened hair has usually lost 0.11 to 0.25 of it
/// (bib: tate_kamath_1993); 0.25 and 0.40 are where the rules caution and stop.
std::string_view wear_word(double wear) {
  if (wear < 0.02) return "none to speak of";
  if (wear < 0.11) return "light";
  if (wear < 0.25) return "usual";
  if (wear < 0.40) return "marked";
  return "heavy";
}

std::string hair_line(const wire::LiftHair& hair, const wire::LiftRow& start) {
  std::string out = fmt::format("Hair at level {:.1f}, strand {} µm", start.level,
                                plain(hair.strand.value(), 1));
  if (hair.opened != 1) out += fmt::format(", opened {} times", plain(hair.opened, 2));
  return out + '\n';
}

std::string bowl_line(std::size_t number, const wire::LiftApplication& asked,
                      const wire::BowlAnswer& bowl) {
  std::string text = fmt::format("Bowl {}: {}; {} g per gram of hair, {} °C, {} min", number,
                                 bowl_text(bowl), plain(asked.grams_per_gram_hair, 2),
                                 plain(asked.temperature.value(), 1),
                                 plain(asked.minutes.value(), 1));
  if (asked.bowl.on_scalp) text += ", on the scalp";
  if (asked.covered) text += ", covered";
  if (asked.water_held_g_per_g > 0) {
    text += fmt::format(", on damp hair ({} g of water per gram)",
                        plain(asked.water_held_g_per_g, 2));
  }
  return wrapped(text, 2);
}

/// Words for the table: "dark blond, copper, red-orange".
std::string colour_words(const colour::HairLab& lab) {
  const auto words = hair::describe(lab);
  std::string text = fmt::format("{}, {}", words.level_name, words.tone);
  if (!words.warmth.empty()) text += ", " + words.warmth;
  return text;
}

std::string row_line(const Look& look, const wire::LiftRow& row, bool several) {
  const colour::HairLab lab{row.lab[0], row.lab[1], row.lab[2]};
  const std::string block = swatch(look, lab, 4);
  const std::string bowl = several ? fmt::format("{:>4}", row.application) : "";
  const std::string wear = fmt::format("{}, {:.0f} %", wear_word(row.wear),
                                       row.wear / process::kWearCap * 100);
  return fmt::format("{}{:>7}  {:>4.1f}  {:>4.1f} to {:>4.1f}  {}{}{:<34} {}\n", bowl,
                     plain(row.minute, 1), row.level, row.level_low, row.level_high, block,
                     block.empty() ? "" : " ", colour_words(lab), wear);
}

std::string report(const Look& look, const wire::LiftRequest& request,
                   const wire::LiftAnswer& answer) {
  std::string out = findings_text(answer.found);
  out += hair_line(request.hair, answer.series.front());
  for (std::size_t i = 0; i < request.applications.size(); ++i) {
    out += bowl_line(i + 1, request.applications[i], answer.bowls[i]);
  }
  const bool several = request.applications.size() > 1;
  out += fmt::format("\n{}{:>7}  {:>4}  {:>12}  {}{:<34} {}\n", several ? "bowl" : "", "minute",
                     "level", "band ", look.swatches ? "     " : "", "colour", "wear");
  for (const auto& row : answer.series) out += row_line(look, row, several);
  out += '\n';
  if (request.members > 1) out += "The band should hold 8 times in 10. ";
  out += "Wear is the share of what the fibre can give.\n";
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
