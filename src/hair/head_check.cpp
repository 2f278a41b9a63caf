// Whether a head read from a file can be one.
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "huewright/hair/head.h"

namespace hw::hair {
namespace {

// Ranges are wide enough for any head met; a slip of a digit or a unit falls outside. All guesses.
constexpr double kScalpLeast = 200;     // cm²
constexpr double kScalpMost = 1000;     // cm²
constexpr double kHairsLeast = 50;      // 1/cm²; loussouarn_2001 met 90
constexpr double kHairsMost = 400;      // 1/cm²
constexpr double kShrinkageMost = 0.9;  // [1]; trade pages go to 0.75
constexpr double kCutLeast = 0.5;       // [1]; below it the straight line of head.h would reach 0
constexpr double kFactorLeast = 0.1;    // [1]
constexpr double kFactorMost = 3;       // [1]
constexpr double kLongest = 200;        // cm
constexpr double kShareSlack = 1e-6;    // [1]: rounding of shares typed by hand
constexpr double kGapSlack = 1e-6;      // cm: rounding of borders

Result<void> in_range(double value, double low, double high, const std::string& where,
                      std::string_view unit) {
  if (value >= low && value <= high) return {};
  return fail(ErrorCode::out_of_range, fmt::format("{:g} is out of range", value), where,
              unit.empty() ? fmt::format("give {:g} to {:g}", low, high)
                           : fmt::format("give {:g} to {:g} {}", low, high, unit));
}

Result<void> check_name(const std::string& name, std::set<std::string>& seen,
                        const std::string& where) {
  if (name.empty()) return fail(ErrorCode::missing, "has no name", where, "give it a name");
  if (!seen.insert(name).second) {
    return fail(ErrorCode::conflict, fmt::format("\"{}\" is used twice", name), where,
                "give each its own name");
  }
  return {};
}

Result<void> check_zones(const std::vector<Zone>& zones, const std::string& where) {
  if (zones.empty()) {
    return fail(ErrorCode::missing, "has no zone", where, "give at least one zone");
  }
  std::set<std::string> seen;
  double reached = 0;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    const Zone& zone = zones[i];
    const std::string at = fmt::format("{}[{}]", where, i);
    if (auto good = check_name(zone.name, seen, at + ".name"); !good) return good;
    if (!(std::abs(zone.from_cm - reached) <= kGapSlack)) {
      return fail(ErrorCode::conflict,
                  fmt::format("{:g} cm does not start where the hair before it ends, {:g} cm",
                              zone.from_cm, reached),
                  at + ".from_cm", "let zones follow each other from the scalp outward");
    }
    if (!(zone.to_cm > zone.from_cm)) {
      return fail(
          ErrorCode::conflict,
          fmt::format("{:g} cm does not lie beyond its start, {:g} cm", zone.to_cm, zone.from_cm),
          at + ".to_cm", "give the far end, stretched, from the scalp");
    }
    if (auto good = in_range(zone.to_cm, 0, kLongest, at + ".to_cm", "cm"); !good) return good;
    reached = zone.to_cm;
  }
  return {};
}

Result<void> check_sections(const std::vector<Section>& sections, const std::string& where) {
  if (sections.empty()) {
    return fail(ErrorCode::missing, "has no section", where, "give at least one section");
  }
  std::set<std::string> seen;
  double sum = 0;
  for (std::size_t i = 0; i < sections.size(); ++i) {
    const Section& section = sections[i];
    const std::string at = fmt::format("{}[{}]", where, i);
    if (auto good = check_name(section.name, seen, at + ".name"); !good) return good;
    if (!(section.area_share > 0 && section.area_share <= 1 + kShareSlack)) {
      return fail(ErrorCode::out_of_range, fmt::format("{:g} is not a share", section.area_share),
                  at + ".area_share", "give a share of the scalp, above 0 to 1");
    }
    if (auto good =
            in_range(section.density_factor, kFactorLeast, kFactorMost, at + ".density_factor", "");
        !good) {
      return good;
    }
    if (auto good = check_zones(section.zones, at + ".zones"); !good) return good;
    sum += section.area_share;
  }
  if (std::abs(sum - 1) > kShareSlack) {
    return fail(ErrorCode::conflict, fmt::format("area shares add to {:g}, not 1", sum), where,
                "let the shares of the sections add to 1");
  }
  return {};
}

}  // namespace

Result<Head> checked(const Head& head, const std::string& where) {
  const auto at = [&where](const char* key) { return where + "." + key; };
  if (auto good =
          in_range(head.scalp_area_cm2, kScalpLeast, kScalpMost, at("scalp_area_cm2"), "cm2");
      !good) {
    return tl::unexpected(good.error());
  }
  if (auto good =
          in_range(head.hairs_per_cm2, kHairsLeast, kHairsMost, at("hairs_per_cm2"), "per cm2");
      !good) {
    return tl::unexpected(good.error());
  }
  if (auto good = checked(head.fibre, at("fibre")); !good) return tl::unexpected(good.error());
  if (auto good = in_range(head.shrinkage, 0, kShrinkageMost, at("shrinkage"), ""); !good) {
    return tl::unexpected(good.error());
  }
  if (auto good = in_range(head.cut_factor, kCutLeast, 1, at("cut_factor"), ""); !good) {
    return tl::unexpected(good.error());
  }
  if (auto good = checked(head.growth, at("growth")); !good) return tl::unexpected(good.error());
  if (auto good = check_sections(head.sections, at("sections")); !good) {
    return tl::unexpected(good.error());
  }
  return head;
}

}  // namespace hw::hair
