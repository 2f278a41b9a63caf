#include "course_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "huewright/base/random.h"
#include "huewright/plan/colour_rules.h"

namespace hw::plan {
namespace {

void say(std::vector<std::string>& notes, const std::string& sentence) {
  if (sentence.empty()) return;
  if (std::find(notes.begin(), notes.end(), sentence) == notes.end()) notes.push_back(sentence);
}

double level_of(const Case& head, const Target& target) {
  return head.ladder.level_of(target.centre.l);
}

/// Tone word and grams of what colours a bowl.
double naturals_in(const Case& head, const CourseBowl& bowl) {
  std::vector<std::string> tones;
  std::vector<double> grams;
  for (const BowlPart& part : bowl.parts) {
    const process::Product* product = product_of(head, part.id);
    if (product == nullptr || part.kind != process::PartKind::colour) continue;
    if (product->tone == "clear") continue;
    tones.push_back(product->tone);
    grams.push_back(part.parts);
  }
  return naturals_share(tones, grams);
}

}  // namespace

std::optional<CourseBowl> fill_first(const Case& head, std::span<const Target> wish,
                                     const std::vector<bool>& lifted, int visit, HeadHair& hair,
                                     Executor& executor) {
  std::vector<std::size_t> zones;
  std::vector<Target> stage(wish.begin(), wish.end());
  std::optional<FillerStep> step;
  for (std::size_t z = 0; z < hair.size(); ++z) {
    if (lifted[z]) continue;
    auto filler = filler_for(look_of(hair[z], head.ladder), wish[z], head.shelf, head.ladder);
    if (!filler || filler->ways.empty()) continue;
    zones.push_back(z);
    stage[z].centre = filler->colour;
    if (!step) step = std::move(filler);
  }
  if (zones.empty()) return {};
  const FillerWay& way = step->ways.front();
  const auto option = option_from(head, way.dye_class, way.shades, way.developer);
  if (!option) return {};
  const auto formula = solve(head, hair, zones, stage, *option, true, true, executor);
  if (!formula) return {};
  process::DepositBowl deposit = bowl_of(head, *option, true);
  deposit.minutes = step->minutes.mid;
  CourseBowl bowl = colour_bowl(head, *option, *formula, deposit, zones, visit);
  bowl.purpose = Purpose::fill;
  for (BowlZone& zone : bowl.zones) zone.stop_min = step->minutes;
  if (bowl.pours.empty()) return {};
  for (const std::size_t z : zones) {
    hair[z] = process::deposit(hair[z], deposit, bowl.pours, Draws(head.seed), executor);
  }
  return bowl;
}

Purpose purpose_of(const Case& head, const HeadHair& canvas, const std::vector<std::size_t>& zones,
                   std::span<const Target> wish, double clear_share) {
  // A bowl is named for the zone that asks most of it.
  Purpose purpose = Purpose::gloss;
  for (const std::size_t z : zones) {
    const Purpose one =
        purpose_for(look_of(canvas[z], head.ladder), level_of(head, wish[z]), clear_share);
    if (one == Purpose::deposit) return one;
    if (one == Purpose::tone) purpose = one;
  }
  return purpose;
}

std::vector<process::Refusal> judge_unlifted(const Case& head, const HeadHair& canvas,
                                             const std::vector<std::size_t>& zones,
                                             std::span<const Target> wish,
                                             process::DyeClass dye_class) {
  std::vector<std::vector<process::Refusal>> findings;
  for (const std::size_t z : zones) {
    const CanvasLook look = look_of(canvas[z], head.ladder);
    const bool untouched = !look.old_colour && !look.lightened;
    findings.push_back(check_reach(look, level_of(head, wish[z]),
                                   untouched ? std::optional(look.level) : std::nullopt, dye_class,
                                   head.settings));
  }
  return process::merged(findings);
}

void add_colour_notes(const Case& head, const HeadHair& canvas, const CourseBowl& bowl,
                      std::span<const Target> wish, const std::vector<bool>& lifted,
                      std::vector<std::string>& notes) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;  // sentence, zones
  const auto add = [&](const std::string& sentence, const std::string& zone) {
    if (sentence.empty()) return;
    auto at = std::find_if(said.begin(), said.end(),
                           [&](const auto& one) { return one.first == sentence; });
    if (at == said.end()) at = said.insert(said.end(), {sentence, {}});
    at->second.push_back(zone);
  };
  for (const BowlZone& zone : bowl.zones) {
    const CanvasLook look = look_of(canvas[zone.zone], head.ladder);
    const std::string& name = head.zones[zone.zone].name;
    const Target& target = wish[zone.zone];
    const double level = level_of(head, target);
    const FillAdvice fill = fill_advice(look, level);
    const bool asks = fill.by_gap != FillWhen::not_needed || fill.disputed();
    if (asks && !lifted[zone.zone]) add(fill.sentence, name);
    add(warmth_rule(look, target).sentence, name);
    const WhiteRule white =
        white_rule(look.white_share, bowl.deposit->dye_class, look.level, level);
    for (const std::string& sentence : white.says) add(sentence, name);
    if (look.white_share > 0) add(naturals_note(white, naturals_in(head, bowl)), name);
  }
  for (const auto& [sentence, zones] : said) {
    const bool all = zones.size() == bowl.zones.size() && zones.size() == head.zones.size();
    say(notes, all ? sentence : fmt::format("{}: {}", fmt::join(zones, ", "), sentence));
  }
}

}  // namespace hw::plan
