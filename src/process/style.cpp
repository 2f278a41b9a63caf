#include "huewright/process/style.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kTableDensity = 190;             // hairs per cm2 that partings.csv speaks of
constexpr double kUsualScalp = 580;               // cm2 that the foam of styling.csv speaks of
constexpr double kShortest = 3, kLongest = 200;   // cm stretched
constexpr double kThinnest = 50, kDensest = 400;  // hairs per cm2
constexpr double kFinestParting = 1;              // cm; guess: what fingers can hold apart
constexpr double kStep = 0.5;                     // cm; a tail comb's parting by eye

Band figure(std::string_view id) {
  static const Table table = embedded_table(tables::styling, "process/styling.csv");
  return band_in(table, id);
}

/// The table's parting at a length, along straight lines.
double parting_at(double length) {
  static const auto rows = [] {
    const Table table = embedded_table(tables::partings, "process/partings.csv");
    return std::pair(*table.numbers("stretched_cm"), *table.numbers("parting_cm"));
  }();
  const auto& [lengths, partings] = rows;
  if (length <= lengths.front()) return partings.front();
  for (std::size_t i = 1; i < lengths.size(); ++i) {
    if (length > lengths[i]) continue;
    const double share = (length - lengths[i - 1]) / (lengths[i] - lengths[i - 1]);
    return partings[i - 1] + share * (partings[i] - partings[i - 1]);
  }
  return partings.back();
}

Band times(const Band& band, double factor) {
  return {band.low * factor, band.mid * factor, band.high * factor};
}

std::string advice_of(const TwistPlan& plan, double fitting) {
  switch (plan.definition) {
    case Definition::crisp:
      return fmt::format("Partings of {:g} cm come out crisp; {:.1f} cm would do with less work.",
                         plan.parting_cm, fitting);
    case Definition::soft:
      return fmt::format("Partings of {:g} cm come out soft on this length; {:.1f} cm fits it.",
                         plan.parting_cm, fitting);
    case Definition::undefined:
      return fmt::format(
          "Partings of {:g} cm will not hold a shape on this length; part at {:.1f} cm.",
          plan.parting_cm, fitting);
    case Definition::usual:
      break;
  }
  return fmt::format("Partings of {:g} cm suit this length and density.", plan.parting_cm);
}

Result<void> checked(const TwistTask& task, double parting_cm) {
  struct Range {
    const char* key;
    double value, low, high;
  };
  const Range ranges[] = {
      {"scalp_cm2", task.scalp_cm2, 1, 1000},
      {"stretched_cm", task.stretched_cm, kShortest, kLongest},
      {"hairs_per_cm2", task.hairs_per_cm2, kThinnest, kDensest},
      {"hair_g", task.hair_g, 0.1, 1000},
      {"minutes_each", task.minutes_each.low, 0.05, 30},
      {"hands", static_cast<double>(task.hands), 1, 4},
      {"parting_cm", parting_cm == 0 ? kStep : parting_cm, kStep, 10},
  };
  for (const Range& one : ranges) {
    if (one.value >= one.low && one.value <= one.high) continue;
    return fail(ErrorCode::out_of_range,
                fmt::format("{} is outside {} to {}", one.value, one.low, one.high),
                fmt::format("twists.{}", one.key), "check the number and its unit");
  }
  return {};
}

}  // namespace

std::string_view name_of(Definition definition) {
  switch (definition) {
    case Definition::crisp:
      return "crisp";
    case Definition::usual:
      return "as usual";
    case Definition::soft:
      return "soft";
    case Definition::undefined:
      break;
  }
  return "undefined";
}

double fitting_parting_cm(double stretched_cm, double hairs_per_cm2) {
  const double length = std::clamp(stretched_cm, kShortest, kLongest);
  const double density = std::clamp(hairs_per_cm2, kThinnest, kDensest);
  return parting_at(length) * std::sqrt(kTableDensity / density);
}

Definition definition_of(double parting_cm, double stretched_cm, double hairs_per_cm2) {
  const double ratio = parting_cm / fitting_parting_cm(stretched_cm, hairs_per_cm2);
  if (ratio < figure("crisp_below").mid) return Definition::crisp;
  if (ratio > figure("undefined_above").mid) return Definition::undefined;
  return ratio > figure("soft_above").mid ? Definition::soft : Definition::usual;
}

double twists_on(double scalp_cm2, double parting_cm) {
  HW_CHECK(scalp_cm2 > 0 && parting_cm > 0);
  return std::max(1.0, std::round(scalp_cm2 / (parting_cm * parting_cm)));
}

double parting_of(double scalp_cm2, double twists) {
  HW_CHECK(scalp_cm2 > 0 && twists > 0);
  return std::sqrt(scalp_cm2 / twists);
}

Result<TwistPlan> twist_plan(const TwistTask& task, double parting_cm) {
  if (const auto sound = checked(task, parting_cm); !sound) return tl::unexpected(sound.error());
  const double fitting = fitting_parting_cm(task.stretched_cm, task.hairs_per_cm2);
  TwistPlan plan;
  plan.parting_cm =
      parting_cm > 0 ? parting_cm : std::max(kFinestParting, std::round(fitting / kStep) * kStep);
  plan.twists = twists_on(task.scalp_cm2, plan.parting_cm);
  plan.minutes = times(task.minutes_each, plan.twists / task.hands);
  plan.definition = definition_of(plan.parting_cm, task.stretched_cm, task.hairs_per_cm2);
  plan.leave_in_g = times(figure("leave_in"), task.hair_g);
  plan.foam_g = times(figure("foam"), task.scalp_cm2 / kUsualScalp);
  plan.short_for_flat_twists = task.stretched_cm < figure("shortest_flat_twist").mid;
  plan.advice = advice_of(plan, fitting);
  return plan;
}

const std::vector<std::string>& twist_out_steps() {
  static const std::vector<std::string> steps{
      "Leave-in on damp hair, about three quarters dry.",
      "Moisturising cream, section by section.",
      "Setting foam.",
      "Equal clean partings; flat twist at the scalp, rope-twisted to the end, edges loose.",
      "Shine and heat protection.",
      "Hood at a medium heat; the roots dry last.",
      "Take down only when dry and cool.",
  };
  return steps;
}

Band twists_keep_days() {
  return figure("twists_keep");
}

Band twist_out_keeps_days() {
  return figure("twist_out_keeps");
}

}  // namespace hw::process
