#include "huewright/plan/colour_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "figures.h"
#include "huewright/hair/words.h"
#include "huewright/process/care.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

using process::DyeClass;

colour::HairLab middle_lab(const process::LiftMembers& members) {
  std::vector<colour::HairLab> labs(members.size());
  const auto whites =
      members.white_share < 1 ? process::Whites::left_out : process::Whites::mixed_in;
  process::lift_colours(members, process::starting_moment(members), labs, whites);
  const auto middle = labs.begin() + static_cast<std::ptrdiff_t>(labs.size() / 2);
  std::nth_element(labs.begin(), middle, labs.end(),
                   [](const auto& a, const auto& b) { return a.l < b.l; });
  return *middle;
}

/// Colour of lifted hair at a depth, straight between the middles of the warm stages.
colour::HairLab warm_line(double lstar) {
  const auto& stages = hair::warm_stages();
  if (lstar <= stages.front().middle.l)
    return {lstar, stages.front().middle.a, stages.front().middle.b};
  for (std::size_t i = 1; i < stages.size(); ++i) {
    const colour::HairLab& dark = stages[i - 1].middle;
    const colour::HairLab& light = stages[i].middle;
    if (lstar > light.l) continue;
    const double at = (lstar - dark.l) / (light.l - dark.l);
    return {lstar, std::lerp(dark.a, light.a, at), std::lerp(dark.b, light.b, at)};
  }
  return {lstar, stages.back().middle.a, stages.back().middle.b};
}

/// What takes a stage's warmth off: bib exam_preparation_colouring, the pairs violet and yellow,
/// blue and orange, green and red; a stage between two takes both.
struct Counter {
  std::string_view stage;
  std::string_view hue;
  std::array<std::string_view, 3> tones;  // of data/process/shade_tones.csv; "" ends them
};
constexpr std::array<Counter, 8> kCounters{{
    {"red-brown", "green", {"matt", "", ""}},
    {"red", "green", {"matt", "", ""}},
    {"red-orange", "green and blue", {"matt", "ash", "blue"}},
    {"orange", "blue", {"blue", "ash", ""}},
    {"yellow-orange", "blue and violet", {"blue", "ash", "violet"}},
    {"yellow", "violet", {"violet", "pearl", ""}},
    {"pale yellow", "violet", {"violet", "pearl", ""}},
    {"palest yellow", "violet", {"violet", "pearl", ""}},
}};

/// Whether a colour stands out from natural hair of its depth towards the warm side.
bool is_warm(const colour::HairLab& colour) {
  constexpr double kWarmStrength = 1;  // neutral radii: below it hair::tone_offset calls it neutral
  constexpr double kWithinDegrees = 75;  // of the warm line's own direction: guess, red to gold
  const hair::ToneOffset tone = hair::tone_offset(colour);
  if (tone.strength < kWarmStrength) return false;
  const double warm = hair::tone_offset(warm_line(colour.l)).direction_deg;
  const double off = std::abs(std::remainder(tone.direction_deg - warm, 360.0));
  return off <= kWithinDegrees;
}

bool fills(const process::Product& product) {
  constexpr std::array<std::string_view, 3> kFillers = {"gold", "copper", "red"};  // filler_how_to
  return product.kind == process::PartKind::colour &&
         std::find(kFillers.begin(), kFillers.end(), product.tone) != kFillers.end();
}

/// The mildest developer of the shelf, when it is mild enough for a filler.
std::optional<std::size_t> filler_developer(std::span<const process::Product> shelf) {
  std::optional<std::size_t> mildest;
  for (std::size_t i = 0; i < shelf.size(); ++i) {
    if (shelf[i].kind != process::PartKind::developer || !shelf[i].peroxide) continue;
    if (*shelf[i].peroxide > Percent(colour_figure("filler_developer").high)) continue;
    if (!mildest || *shelf[i].peroxide < *shelf[*mildest].peroxide) mildest = i;
  }
  return mildest;
}

std::vector<FillerWay> filler_ways(double from_level, double to_level,
                                   std::span<const process::Product> shelf) {
  constexpr double kRoom = 0.5;  // levels: shades are made in halves or wholes
  std::vector<FillerWay> ways;
  for (const DyeClass dye_class : {DyeClass::demi, DyeClass::permanent, DyeClass::direct}) {
    FillerWay way{dye_class, {}, {}};
    if (process::class_facts(dye_class).developer_parts > 0) {
      way.developer = filler_developer(shelf);
      if (!way.developer) continue;
    }
    for (std::size_t i = 0; i < shelf.size(); ++i) {
      const bool between =
          shelf[i].level >= from_level - kRoom && shelf[i].level <= to_level + kRoom;
      if (fills(shelf[i]) && shelf[i].dye_class == dye_class && between) way.shades.push_back(i);
    }
    if (!way.shades.empty()) ways.push_back(std::move(way));
  }
  return ways;
}

Band band_of_figure(std::string_view id) {
  const ColourFigure& figure = colour_figure(id);
  return {figure.low, (figure.low + figure.high) / 2, figure.high};
}

std::string fill_sentence(const FillAdvice& advice) {
  const auto word = [](FillWhen when) {
    return when == FillWhen::first        ? "fill first"
           : when == FillWhen::in_formula ? "put the warmth into the formula"
                                          : "no filler";
  };
  if (advice.by_gap == FillWhen::not_needed && advice.by_target == FillWhen::not_needed) return {};
  if (!advice.disputed()) {
    return "Lightened hair lacks the warm pigment that this depth is made of: fill first.";
  }
  return fmt::format(
      "Teachings differ here: by the gap of more than {:g} levels {}; by the target's depth {}.",
      colour_figure("filler_gap").low, word(advice.by_gap), word(advice.by_target));
}

}  // namespace

const ColourFigure& colour_figure(std::string_view id) {
  static const std::vector<ColourFigure> all = [] {
    const Table table = embedded_table(tables::colour_rules, "plan/colour_rules.csv");
    std::vector<ColourFigure> rows;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      rows.push_back({*table.text(row, "id"), *table.number(row, "low"), *table.number(row, "high"),
                      *table.text(row, "unit"), *table.text(row, "text"), *table.text(row, "grade"),
                      *table.text(row, "source")});
    }
    return rows;
  }();
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const auto& row) { return row.id == id; });
  HW_CHECK(at != all.end());
  return *at;
}

CanvasLook look_of(const process::LiftMembers& members, const hair::Ladder& ladder) {
  CanvasLook look;
  look.lab = middle_lab(members);
  look.level = ladder.level_of(look.lab.l);
  look.lightened = quantile(members.base_share, 0.5) >= colour_figure("lightened_base").low;
  look.white_share = members.white_share;
  if (members.dyes.empty()) return look;
  process::LiftMembers bare = members;
  bare.dyes.clear();
  const double hidden = ladder.level_of(middle_lab(bare).l) - look.level;
  look.old_colour = hidden > colour_figure("old_colour_depth").low;
  return look;
}

FillAdvice fill_advice(const CanvasLook& canvas, double target_level) {
  FillAdvice advice;
  const double darker = canvas.level - target_level;
  if (!canvas.lightened || darker <= 0) return advice;
  if (darker > colour_figure("filler_gap").low) advice.by_gap = FillWhen::first;
  // Between the two levels the stylist's rule says nothing; the nearer one is taken.
  const double border =
      (colour_figure("filler_first").low + colour_figure("filler_in_formula").low) / 2;
  advice.by_target = target_level <= border ? FillWhen::first : FillWhen::in_formula;
  // A shade of toning is no going darker.
  if (darker <= colour_figure("tone_within").low) advice.by_target = FillWhen::not_needed;
  advice.sentence = fill_sentence(advice);
  return advice;
}

bool needs_filler(const CanvasLook& canvas, double target_level) {
  return fill_advice(canvas, target_level).by_gap == FillWhen::first;
}

colour::HairLab fill_colour(const CanvasLook& canvas, double target_level,
                            const hair::Ladder& ladder) {
  const double level = std::min(canvas.level, target_level + colour_figure("fill_lighter").low);
  const colour::HairLab missing = warm_line(ladder.lstar_of(target_level));
  const colour::HairLab there = warm_line(ladder.lstar_of(level));
  const double grow = std::hypot(there.a, there.b) / std::hypot(missing.a, missing.b);
  return {ladder.lstar_of(level), grow * missing.a, grow * missing.b};
}

std::optional<FillerStep> filler_for(const CanvasLook& canvas, const Target& target,
                                     std::span<const process::Product> shelf,
                                     const hair::Ladder& ladder) {
  const double target_level = ladder.level_of(target.centre.l);
  if (!needs_filler(canvas, target_level)) return std::nullopt;
  FillerStep step;
  step.advice = fill_advice(canvas, target_level);
  step.colour = fill_colour(canvas, target_level, ladder);
  step.level = ladder.level_of(step.colour.l);
  step.minutes = band_of_figure("filler_minutes");
  step.colour_minutes = band_of_figure("after_filler");
  step.ways = filler_ways(target_level, canvas.level, shelf);
  step.sentence = fmt::format(
      "{:.1f} levels darker on lightened hair: put {} back to about level {:.1f} first, {:g} to "
      "{:g} minutes, wiped and not rinsed, then the colour.",
      canvas.level - target_level, hair::warm_stage(step.colour.l).name, step.level,
      step.minutes.low, step.minutes.high);
  if (step.ways.empty()) {
    step.sentence += fmt::format(
        " The shelf has none: a gold, copper or red of level {:.0f} to {:.0f} and a developer of "
        "{:g} % or less would do.",
        target_level, canvas.level, colour_figure("filler_developer").high);
  }
  return step;
}

Purpose purpose_for(const CanvasLook& canvas, double target_level, double clear_share) {
  constexpr double kNoise = 1e-9;  // of arithmetic
  if (1 - clear_share <= colour_figure("gloss_share").low + kNoise) return Purpose::gloss;
  const bool keeps_depth =
      std::abs(target_level - canvas.level) <= colour_figure("tone_within").low + kNoise;
  return canvas.lightened && keeps_depth ? Purpose::tone : Purpose::deposit;
}

WarmthRule warmth_rule(const CanvasLook& canvas, const Target& target) {
  WarmthRule rule;
  if (!is_warm(canvas.lab)) return rule;
  rule.stage = hair::warm_stage(canvas.lab.l).name;
  if (is_warm(target.centre)) {
    rule.aim = WarmthAim::keep;
    rule.sentence = fmt::format(
        "Keep the {} that is there: the target is warm and the deposit adds to it.", rule.stage);
    return rule;
  }
  rule.aim = WarmthAim::neutralise;
  const auto at = std::find_if(kCounters.begin(), kCounters.end(),
                               [&](const Counter& row) { return row.stage == rule.stage; });
  HW_CHECK(at != kCounters.end());
  for (const std::string_view tone : at->tones) {
    if (!tone.empty()) rule.counters.emplace_back(tone);
  }
  rule.sentence = fmt::format(
      "The {} that is there is warmer than the target: {} takes it off; too little leaves warmth, "
      "too much turns it dull.",
      rule.stage, at->hue);
  return rule;
}

WhiteRule white_rule(double white_share, DyeClass dye_class, double canvas_level,
                     double target_level) {
  WhiteRule rule;
  if (white_share <= 0) return rule;
  const double percent = 100 * white_share;
  const bool oxidative = process::class_facts(dye_class).developer_parts > 0;
  if (!oxidative) {
    rule.says.push_back(fmt::format(
        "Colour without developer tints the {:.0f} % white and does not cover it.", percent));
    return rule;
  }
  const double blends_to = colour_figure("demi_white").low;
  rule.covers = dye_class == DyeClass::permanent;
  rule.blends = dye_class == DyeClass::demi && white_share <= blends_to;
  if (dye_class == DyeClass::demi) {
    rule.says.push_back(
        rule.blends
            ? fmt::format("Demi colour blends the {:.0f} % white and does not cover it.", percent)
            : fmt::format("Demi colour blends white up to {:.0f} %; {:.0f} % shows through.",
                          100 * blends_to, percent));
  }
  const double lightest = colour_figure("white_cover_level").low;
  if (rule.covers && target_level >= lightest && canvas_level < lightest) {
    rule.covers = false;
    rule.says.push_back(fmt::format(
        "Shades of level {:g} and lighter lift more than they deposit and cover no white on dark "
        "hair.",
        lightest));
  }
  if (white_share <= colour_figure("white_naturals_from").low) return rule;
  rule.naturals_least = colour_figure("white_naturals").low;
  rule.naturals_other = white_share;
  rule.says.push_back(fmt::format(
      "{:.0f} % white: half of the shades natural or gold carries the cover; another teaching "
      "scales that part with the white, to {:.0f} %.",
      percent, percent));
  if (rule.covers) {
    const ColourFigure& soften = colour_figure("white_soften");
    rule.says.push_back(
        fmt::format("If the white resists: {}, {:g} minutes.", soften.text, soften.low));
  }
  return rule;
}

double naturals_share(std::span<const std::string> tones, std::span<const double> grams) {
  double natural = 0;
  double all = 0;
  for (std::size_t i = 0; i < tones.size(); ++i) {
    if (tones[i] == "clear") continue;
    all += grams[i];
    natural += tones[i] == "neutral" || tones[i] == "gold" ? grams[i] : 0;
  }
  return all > 0 ? natural / all : 0;
}

std::string naturals_note(const WhiteRule& rule, double share) {
  constexpr double kNoise = 1e-9;  // of arithmetic
  if (share + kNoise >= rule.naturals_least) return {};
  return fmt::format(
      "{:.0f} % of the shades are natural or gold, where the rule of thumb for white asks {:.0f} "
      "%: "
      "the law of absorption was followed; try it on a white strand first.",
      100 * share, 100 * rule.naturals_least);
}

std::vector<process::Refusal> check_reach(const CanvasLook& canvas, double target_level,
                                          std::optional<double> natural_level, DyeClass dye_class,
                                          const process::RuleSettings& settings) {
  // Tenths of a level, as they are shown.
  const auto tenth = [](double level) { return std::round(10 * level) / 10; };
  process::ColourReach reach;
  reach.old_colour = canvas.old_colour;
  reach.levels_lighter = tenth(target_level - canvas.level);
  if (natural_level && dye_class == DyeClass::permanent) {
    reach.formula_level = tenth(2 * target_level - *natural_level);
  }
  return process::check_colour_reach(reach, settings);
}

}  // namespace hw::plan
