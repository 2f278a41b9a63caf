// Which look would narrow the doubt most. What would be seen and how the course ends are known for
// every member, so a look that is read with noise takes off, of the variance of an outcome y,
//   cov(x, y)² / (var(x) + noise²)
// (the linear update of a normal belief; bib bayes_rules_2022 ch. 5 for one quantity). The outcome
// is the finished L* of each zone, weighted by its hair.
#include "look_next.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/plan/amounts.h"
#include "huewright/process/deposit.h"
#include "zone_lift.h"

namespace hw::plan {
namespace {

constexpr double kEyeSd = 0.5;         // level: an eye; belief.h
constexpr double kInstrumentSd = 1.2;  // L*: bib scanavez_2000 Table III
constexpr double kStrandSd = 0.25;     // level: a strand read dry beside its swatch, twice; guess

/// Something that could be looked at: what each member would show, and the noise of the look.
struct Sight {
  LookNext about;
  std::vector<double> shown;
  double noise_sd = 0;
};

double variance(const std::vector<double>& values) {
  const double middle = mean(values);
  double sum = 0;
  for (const double value : values) sum += (value - middle) * (value - middle);
  return sum / static_cast<double>(values.size());
}

double covariance(const std::vector<double>& a, const std::vector<double>& b) {
  const double mean_a = mean(a);
  const double mean_b = mean(b);
  double sum = 0;
  for (std::size_t m = 0; m < a.size(); ++m) sum += (a[m] - mean_a) * (b[m] - mean_b);
  return sum / static_cast<double>(a.size());
}

/// Finished L* of every zone and member.
std::vector<std::vector<double>> finished(const HeadHair& after) {
  std::vector<std::vector<double>> lstar;
  for (const auto& zone : after) {
    std::vector<double> values;
    for (const auto& lab : colours_of(zone, process::Whites::mixed_in)) values.push_back(lab.l);
    lstar.push_back(std::move(values));
  }
  return lstar;
}

/// Share of the outcomes' spread that a look takes off.
double narrowed(const Sight& look, const std::vector<std::vector<double>>& outcomes,
                const std::vector<double>& mass) {
  const double seen = variance(look.shown) + look.noise_sd * look.noise_sd;
  double before = 0;
  double off = 0;
  for (std::size_t z = 0; z < outcomes.size(); ++z) {
    const double together = covariance(look.shown, outcomes[z]);
    before += mass[z] * variance(outcomes[z]);
    off += mass[z] * together * together / seen;
  }
  // Doubt is told as a width, so the share is that of the standard deviation.
  return before > 0 ? 1 - std::sqrt(std::max(0.0, 1 - off / before)) : 0;
}

std::vector<Sight> looks_of(const Case& head, std::span<const ZoneBelief> zones,
                            const Course& course, const LookHair& hair) {
  std::vector<Sight> looks;
  for (std::size_t z = 0; z < zones.size(); ++z) {
    const std::string& name = zones[z].name;
    looks.push_back({{name, "level", "", 0}, zones[z].level_now, kEyeSd});
    std::vector<double> lstar;
    for (const auto& lab : zones[z].now) lstar.push_back(lab.l);
    looks.push_back({{name, "instrument", "", 0}, lstar, kInstrumentSd});
    if (z < course.zones.size() && course.zones[z].after_lift) {
      const auto lifted = colours_of(hair.lifted[z], process::Whites::left_out);
      looks.push_back({{name, "strand_test", "", 0}, levels_of(head, lifted), kStrandSd});
    }
  }
  // The doubt about a shade's strength is that of all zones: a swatch reads it on white hair.
  for (const CourseBowl& bowl : course.bowls) {
    for (const process::Poured& pour : bowl.pours) {
      auto strength = process::shade_strength(pour.shade, Draws(head.seed), hair.after[0].size());
      constexpr double kSwatchSd = 0.08;  // ln: an instrument's 1.2 L* on a swatch; derived
      for (double& value : strength) value = std::log(value);
      looks.push_back({{pour.shade.id, "swatch", "", 0}, std::move(strength), kSwatchSd});
    }
  }
  return looks;
}

std::string sentence_of(const LookNext& look) {
  const std::string share = fmt::format(
      "would take off about {:.0f} % of the doubt about the result", 100 * look.narrows);
  if (look.what == "strand_test")
    return fmt::format("A strand test on the {} {}.", look.zone, share);
  if (look.what == "level") {
    return fmt::format("A second look at the depth of the {}, in daylight, {}.", look.zone, share);
  }
  if (look.what == "instrument")
    return fmt::format("An instrument on the {} {}.", look.zone, share);
  return fmt::format("A swatch of {} on white hair {}.", look.zone, share);
}

}  // namespace

std::vector<LookNext> look_next(const Case& head, std::span<const ZoneBelief> zones,
                                const Course& course, const LookHair& hair) {
  constexpr double kWorthSaying = 0.03;  // of the doubt; guess
  constexpr std::size_t kMost = 3;
  const auto outcomes = finished(hair.after);
  const auto mass = zone_mass_g(head);
  std::vector<LookNext> told;
  for (Sight& look : looks_of(head, zones, course, hair)) {
    look.about.narrows = narrowed(look, outcomes, mass);
    look.about.sentence = sentence_of(look.about);
    if (look.about.narrows >= kWorthSaying) told.push_back(std::move(look.about));
  }
  std::stable_sort(told.begin(), told.end(),
                   [](const LookNext& a, const LookNext& b) { return a.narrows > b.narrows; });
  // Of several looks at one thing the most telling is enough.
  std::vector<LookNext> shown;
  for (LookNext& look : told) {
    const bool known = std::any_of(shown.begin(), shown.end(), [&](const LookNext& other) {
      return other.zone == look.zone || other.what == look.what;
    });
    if (!known && shown.size() < kMost) shown.push_back(std::move(look));
  }
  return shown;
}

}  // namespace hw::plan
