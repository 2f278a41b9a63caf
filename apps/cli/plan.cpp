#include <fmt/format.h>

#include <algorithm>
#include <thread>

#include "case_input.h"
#include "command.h"
#include "huewright/hair/words.h"
#include "huewright/plan/amounts.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift_plan.h"
#include "page.h"
#include "plan_chart.h"

namespace hw::apps {
namespace {

constexpr std::size_t kToldInFull = 3;  // options with a table; the others get a line each

/// Words of a colour without its level, which stands in a column of its own.
std::string colour_words(const colour::HairLab& lab, const hair::Ladder& ladder) {
  const auto words = hair::describe(lab, ladder);
  std::string text = fmt::format("{}, {}", words.level_name, words.tone);
  if (!words.warmth.empty() && words.warmth != words.tone) text += "; " + words.warmth + " below";
  return text;
}

std::string band_text(const Band& band) {
  return fmt::format("{:.1f} ({:.1f} to {:.1f})", band.mid, band.low, band.high);
}

colour::HairLab mean_lab(const std::vector<colour::HairLab>& labs) {
  colour::HairLab mean{};
  for (const auto& lab : labs) {
    const double share = 1.0 / static_cast<double>(labs.size());
    mean = {mean.l + lab.l * share, mean.a + lab.a * share, mean.b + lab.b * share};
  }
  return mean;
}

std::string today_text(const Look& look, const plan::Case& head, const plan::LiftPlan& plan) {
  std::string out = fmt::format("\nToday        {:<10} {:<18}{}\n", "cm", "level",
                                look.swatches ? "     colour" : "colour");
  for (std::size_t i = 0; i < plan.zones.size(); ++i) {
    const plan::ZoneBelief& zone = plan.zones[i];
    const colour::HairLab lab = mean_lab(zone.now);
    const std::string block = swatch(look, lab, 4);
    out += fmt::format(
        "  {:<10} {:<10} {:<18}{}{}{}\n", zone.name,
        fmt::format("{}-{}", plain(head.zones[i].from_cm, 1), plain(head.zones[i].to_cm, 1)),
        band_text(band_of(zone.level_now)), block, block.empty() ? "" : " ",
        colour_words(mean_lab(zone.pigmented), head.ladder) +
            (zone.white_percent > 0 ? fmt::format(", {:.0f} % white", zone.white_percent) : ""));
  }
  return out;
}

std::string zone_line(const Look& look, const plan::ZoneOutcome& zone, const hair::Ladder& ladder) {
  const std::string block = swatch(look, zone.lab, 4);
  const std::string time = zone.already_there
                               ? "leave alone"
                               : fmt::format("{:>2.0f} ({:.0f} to {:.0f})", zone.stop_min.mid,
                                             zone.stop_min.low, zone.stop_min.high);
  const std::string on = zone.already_there ? "" : fmt::format("{:.0f}", zone.start_min);
  return fmt::format("    {:<10} {:>4}  {:<15} {:<17} {:>3.0f} %  {}{}{}\n", zone.zone, on, time,
                     band_text(zone.level), 100 * zone.wear.high / plan::kWearLimit, block,
                     block.empty() ? "" : " ", colour_words(zone.pigmented, ladder));
}

std::string recipe_words(const plan::LiftOption& option) {
  return option.recipe.words + (option.applications > 1 ? ", fresh mix at half time" : "");
}

/// "53 g cream for the scalp, 106 g 6 % bottle".
std::string grams_text(const plan::Case& head, const plan::LiftOption& option) {
  const std::vector<double> grams = plan::part_grams(head, option);
  std::string out;
  for (std::size_t i = 0; i < grams.size(); ++i) {
    const plan::RecipePart& part = option.recipe.parts[i];
    const auto product = std::find_if(head.shelf.begin(), head.shelf.end(),
                                      [&](const auto& p) { return p.id == part.product; });
    const std::string name = product == head.shelf.end() ? "water"
                             : product->words.empty()    ? product->id
                                                         : product->words;
    out += fmt::format("{}{:.0f} g {}", out.empty() ? "" : ", ", grams[i], name);
  }
  return out;
}

std::string option_text(const Look& look, std::size_t number, const plan::LiftOption& option,
                        const plan::Case& head) {
  constexpr std::size_t kIndent = 4;
  std::string out = wrapped(recipe_words(option), kIndent, fmt::format("{}.", number));
  out += wrapped(
      fmt::format("{:.1f} % peroxide, {:.0f} % powder. {}", option.recipe.mix.peroxide.value(),
                  option.recipe.mix.powder.value(), option.sentence),
      kIndent, "");
  if (option.minutes > 0) out += wrapped("About " + grams_text(head, option), kIndent, "");
  out += fmt::format("    {:<10} {:>4}  {:<15} {:<17} {}  {}{}\n", "zone", "on", "off after min",
                     "level then", "spent", look.swatches ? "     " : "", "colour then");
  for (const auto& zone : option.zones) out += zone_line(look, zone, head.ladder);
  for (const auto& one : option.refusals) out += wrapped("Not until: " + one.text, kIndent, "");
  for (const auto& one : option.cautions) out += wrapped("Caution: " + one.text, kIndent, "");
  return out + '\n';
}

/// The options after those told in full: a line each.
std::string others_text(const plan::LiftPlan& plan) {
  if (plan.options.size() <= kToldInFull) return "";
  std::string out = fmt::format("Also from this shelf\n    {:>4}  {:<9} {}  {}\n", "min", "ends",
                                "spent", "bowl");
  for (std::size_t i = kToldInFull; i < plan.options.size(); ++i) {
    const auto& option = plan.options[i];
    double spent = 0;
    double miss = 0;
    for (const auto& zone : option.zones) {
      spent = std::max(spent, zone.wear.high / plan::kWearLimit);
      if (!zone.already_there) miss = std::max(miss, zone.wished_level - zone.level.mid);
    }
    const std::string ends =
        option.reaches_all() ? "there" : fmt::format("{:.1f} short", std::max(miss, 0.1));
    out += wrapped(
        recipe_words(option), 27,
        fmt::format("{:>3} {:>4.0f}  {:<9} {:>3.0f} %", i + 1, option.minutes, ends, 100 * spent));
  }
  return out + '\n';
}

/// What may not be done: each reason once, with the bowls it forbids.
std::string left_out_text(const plan::LiftPlan& plan) {
  std::vector<std::pair<std::string, std::vector<std::string>>> reasons;
  for (const auto& option : plan.left_out) {
    const std::string reason = option.refusals.empty() ? "What stands against the head, above."
                                                       : option.refusals.front().text;
    auto at = std::find_if(reasons.begin(), reasons.end(),
                           [&](const auto& known) { return known.first == reason; });
    if (at == reasons.end()) at = reasons.insert(reasons.end(), {reason, {}});
    auto& bowls = at->second;
    if (std::find(bowls.begin(), bowls.end(), option.recipe.words) == bowls.end()) {
      bowls.push_back(option.recipe.words);
    }
  }
  std::string out = reasons.empty() ? "" : "Left out\n";
  for (const auto& [reason, bowls] : reasons) {
    out += wrapped(reason, 4, "");
    for (const std::string& bowl : bowls) out += wrapped("- " + bowl, 8, "      ");
  }
  return reasons.empty() ? out : out + '\n';
}

/// The courses that end in the wished colour.
std::string colours_text(const Look& look, const plan::Case& head,
                         const std::vector<plan::ColourCourse>& courses) {
  if (courses.empty()) return "";
  std::string out = "Ways to the colour\n\n";
  constexpr std::size_t kMost = 4;
  for (std::size_t i = 0; i < courses.size() && i < kMost; ++i) {
    const plan::ColourStep& step = courses[i].colour;
    out += wrapped(plan::words_of(courses[i]), 4, fmt::format("{}.", i + 1));
    out += wrapped(plan::sentence_of(courses[i]), 4, "");
    std::string poured;
    for (const auto& item : step.items) {
      poured += fmt::format("{}{:.0f} g {}", poured.empty() ? "" : ", ", item.grams, item.product);
    }
    out += wrapped(fmt::format("Colour bowl: {}; {:.0f} min", poured, step.minutes), 4, "");
    for (const auto& zone : step.zones) {
      const std::string block = swatch(look, zone.lab, 4);
      const auto words = hair::describe(zone.lab, head.ladder);
      out += fmt::format("    {:<10} {:<18} {}{}{}, {}\n", zone.zone, band_text(zone.level), block,
                         block.empty() ? "" : " ", words.level_name, words.tone);
    }
    for (const auto& one : step.refusals) out += wrapped("Not until: " + one.text, 4, "");
    out += '\n';
  }
  return out;
}

/// What is to be acknowledged for the whole answer, said once.
wire::Findings found_of(const plan::LiftPlan& plan,
                        const std::vector<plan::ColourCourse>& courses) {
  std::vector<std::vector<process::Refusal>> cautions = {plan.cautions};
  for (const auto& course : courses) cautions.push_back(course.colour.cautions);
  return {plan.refusals, process::merged(cautions)};
}

std::string report(const Look& look, const plan::Case& head, const plan::LiftPlan& plan,
                   const std::vector<plan::ColourCourse>& colours) {
  std::string out = head.title.empty() ? "" : wrapped(head.title) + '\n';
  out += findings_text(found_of(plan, colours));
  out += fmt::format("Wish: level {}\n", plain(plan::wished_level_of(head, head.zones.front()), 1));
  out += today_text(look, head, plan) + '\n';
  out += colours_text(look, head, colours);
  if (!colours.empty()) out += "Lifts alone\n\n";
  if (plan.refused() && !plan.options.empty()) {
    out += "Drafts only, until what stands against it is met\n\n";
  }
  for (std::size_t i = 0; i < plan.options.size() && i < kToldInFull; ++i) {
    out += option_text(look, i + 1, plan.options[i], head);
  }
  out += others_text(plan);
  out += left_out_text(plan);
  out += wrapped(
      "Minutes and levels in brackets should hold 8 times in 10. 'Spent' is how much of "
      "what the fibre can give in its life is used then, on the high side. A strand test "
      "narrows all of it.");
  return out + closing_text();
}

}  // namespace

Result<Said> run_plan(const Asked& asked) {
  const auto file = read_case(asked);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto plan = plan::plan_lift(*head, *threads);
  if (!plan) return tl::unexpected(plan.error());
  for (const auto& [flag, lifted] :
       {std::pair{"--chart", false}, std::pair{"--chart-lifted", true}}) {
    const auto chart = asked.options.find(flag);
    if (chart == asked.options.end()) continue;
    const auto drawn = draw_plan(*head, *plan, chart->second, lifted, *threads);
    if (!drawn) return tl::unexpected(drawn.error());
  }
  const auto target = wire::target_of(*file);
  if (!target) return tl::unexpected(target.error());
  wire::LiftPlanAnswer answer{*head, *plan, {}};
  if (*target) {
    auto colours = plan::plan_colour(*head, *plan, **target, *threads);
    if (!colours) return tl::unexpected(colours.error());
    answer.colours = *std::move(colours);
  }
  const bool waits = std::any_of(answer.colours.begin(), answer.colours.end(),
                                 [](const auto& one) { return !one.colour.refusals.empty(); });
  Said said;
  said.exit_code = plan->refused() || waits ? kExitRefused : kExitDone;
  said.out =
      asked.json ? wire::encode(answer) + '\n' : report(asked.look, *head, *plan, answer.colours);
  return said;
}

}  // namespace hw::apps
