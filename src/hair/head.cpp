#include "huewright/hair/head.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "embedded.h"
#include "hair_tables.h"

namespace hw::hair {
namespace {

constexpr double kGramsPerTexCm = 1e-5;  // tex · cm = g/km · cm = 1e-5 g, exact

double constant(std::string_view name) {
  static const Table table = embedded(tables::head_constants, "hair/head_constants.csv");
  for (std::size_t i = 0; i < table.rows(); ++i) {
    if (sound(table.text(i, "name")) == name) return sound(table.number(i, "value"));
  }
  return sound(Result<double>(fail(ErrorCode::unknown_name, fmt::format("has no \"{}\"", name),
                                   "hair/head_constants.csv", "add the row")));
}

/// ∫ share of strands that reach x, from 0 to x [cm], for a strand of visible length `length`.
double reaching_cm(double x, double length, double cut_factor) {
  return x - (1 - cut_factor) * x * x / length;
}

double strands_of(const Head& head, const Section& section) {
  return head.hairs_per_cm2 * head.scalp_area_cm2 * section.area_share * section.density_factor;
}

}  // namespace

Result<Head> usual_head(double length_cm) {
  Head head;
  head.scalp_area_cm2 = constant("scalp_area");
  head.cut_factor = constant("cut_factor");
  head.shrinkage = constant("shrinkage");
  head.hairs_per_cm2 = density_choices().front().hairs_per_cm2;
  head.fibre = strand_sizes().front().fibre;
  head.growth = growth_choices().front().rate;
  const Table table = embedded(tables::sections, "hair/sections.csv");
  for (std::size_t i = 0; i < table.rows(); ++i) {
    Section section;
    section.name = sound(table.text(i, "section"));
    section.area_share = sound(table.number(i, "area_share"));
    section.density_factor = sound(table.number(i, "density_factor"));
    section.zones = {{"lengths", 0, length_cm}};
    head.sections.push_back(std::move(section));
  }
  return checked(head);
}

const std::vector<DensityChoice>& density_choices() {
  static const std::vector<DensityChoice> choices = [] {
    const Table table = embedded(tables::densities, "hair/densities.csv");
    std::vector<DensityChoice> made;
    for (std::size_t i = 0; i < table.rows(); ++i) {
      made.push_back({sound(table.text(i, "choice")), sound(table.number(i, "hairs_per_cm2")),
                      sound(table.number(i, "sd_hairs_per_cm2"))});
    }
    return made;
  }();
  return choices;
}

Result<DensityChoice> density_choice(const std::string& name) {
  for (const DensityChoice& choice : density_choices()) {
    if (choice.name == name) return choice;
  }
  return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is not a density", name), "density",
              "say not judged, low, medium or high");
}

double resting_cm(double stretched_cm, double shrinkage) {
  return stretched_cm * (1 - shrinkage);
}

double stretched_cm(double resting_cm, double shrinkage) {
  return resting_cm / (1 - shrinkage);
}

std::vector<ZoneAmount> amounts(const Head& head) {
  std::vector<ZoneAmount> all;
  const double tex_of_strand = tex(head.fibre);
  const double surface = surface_m2_per_g(head.fibre);
  for (const Section& section : head.sections) {
    const double length = section.zones.back().to_cm;
    for (const Zone& zone : section.zones) {
      const double cm = reaching_cm(zone.to_cm, length, head.cut_factor) -
                        reaching_cm(zone.from_cm, length, head.cut_factor);
      ZoneAmount amount;
      amount.section = section.name;
      amount.zone = zone.name;
      amount.strands = strands_of(head, section);
      amount.mass_g = amount.strands * tex_of_strand * kGramsPerTexCm * cm;
      amount.surface_m2 = amount.mass_g * surface;
      amount.length_cm = zone.length_cm();
      amount.resting_from_cm = resting_cm(zone.from_cm, head.shrinkage);
      amount.resting_to_cm = resting_cm(zone.to_cm, head.shrinkage);
      all.push_back(std::move(amount));
    }
  }
  return all;
}

double mass_g(const Head& head) {
  double sum = 0;
  for (const ZoneAmount& amount : amounts(head)) sum += amount.mass_g;
  return sum;
}

double strands(const Head& head) {
  double sum = 0;
  for (const Section& section : head.sections) sum += strands_of(head, section);
  return sum;
}

double grams_per_cm(const Head& head) {
  return strands(head) * tex(head.fibre) * kGramsPerTexCm;
}

std::optional<Zone> zone_after(const Zone& zone, double length_cm, double growth_cm,
                               double trim_cm) {
  const double tip = length_cm + growth_cm - trim_cm;
  Zone moved{zone.name, zone.from_cm + growth_cm, std::min(zone.to_cm + growth_cm, tip)};
  if (moved.to_cm <= moved.from_cm) return std::nullopt;
  return moved;
}

std::vector<Zone> zones_after(std::span<const Zone> zones, double growth_cm, double trim_cm,
                              const std::string& grown) {
  const double length = zones.empty() ? 0 : zones.back().to_cm;
  const double tip = length + growth_cm - trim_cm;
  std::vector<Zone> after;
  if (growth_cm > 0 && tip > 0) after.push_back({grown, 0, std::min(growth_cm, tip)});
  for (const Zone& zone : zones) {
    const auto moved = zone_after(zone, length, growth_cm, trim_cm);
    if (!moved) continue;
    const bool joins = after.size() == 1 && &zone == &zones.front() && zone.name == grown;
    if (joins) {
      after.front().to_cm = moved->to_cm;
    } else {
      after.push_back(*moved);
    }
  }
  return after;
}

}  // namespace hw::hair
