#include "huewright/wire/case_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "case_parts.h"
#include "huewright/process/rules.h"

namespace hw::wire {
namespace {

constexpr std::size_t kShortText = 200;  // bytes of a name or a sentence of one's own

void describe_strand(Object& object, plan::Case& head) {
  number(object.optional("strand_um", "strand thickness: diameter of the circle of equal area"),
         head.strand_um, {.low = 20, .high = 180, .unit = "µm"});
  number(object.optional("strand_sd_um", "doubt about the strand thickness"), head.strand_sd_um,
         {.low = 0, .high = 60, .unit = "µm"});
  number(object.optional("hairs_per_cm2", "density, mean over the head"), head.hairs_per_cm2,
         {.low = 50, .high = 400, .unit = "1/cm²"});
  number(object.optional("scalp_area_cm2", "hair-bearing scalp"), head.scalp_area_cm2,
         {.low = 200, .high = 1000, .unit = "cm²"});
  number(object.optional("cut_factor", "mean strand length over the longest"), head.cut_factor,
         {.low = 0.5, .high = 1});
  number(object.optional("shrinkage", "1 − resting length over stretched length"), head.shrinkage,
         {.low = 0, .high = 0.9});
}

void describe_work(Object& object, plan::Case& head) {
  number(object.optional("room_c", "temperature of the room"), head.room_c,
         {.low = 10, .high = 35, .unit = "°C"});
  number(object.optional("grams_per_gram_hair", "mix put on a gram of hair"), head.mix_per_hair,
         {.low = 0.3, .high = 10, .unit = "g/g"});
  number(object.optional("longest_min", "most minutes of lightener in this visit"),
         head.longest_min, {.low = 5, .high = 45, .unit = "min"});
}

void describe_repeat(Object& object, plan::Case& head) {
  object.optional("seed", "of the random draws; the same seed gives the same answer")
      .whole(head.seed, 0, 1000000000);
  count(object.optional("members", "hypotheses simulated side by side"), head.members, 64, 4096);
}

/// Zones with the target of each, which stands beside the case until it is worked out.
void describe_zones(Value& value, CaseFile& file) {
  std::vector<plan::ZoneCase>& zones = file.head.zones;
  std::vector<std::optional<TargetGiven>>& targets = file.zone_targets;
  targets.resize(zones.size());
  value.list(
      {1, 12}, zones.size(),
      [&](std::size_t size) {
        zones.resize(size);
        targets.resize(size);
      },
      [&](std::size_t i, Value& entry) {
        entry.object([&](Object& object) {
          describe(object, zones[i]);
          describe_target(object, "where it differs from the head's", targets[i]);
        });
      });
}

/// What stands against a zone because of the ones before it.
Result<void> check_neighbours(const plan::Case& head, std::size_t i) {
  const plan::ZoneCase& zone = head.zones[i];
  for (std::size_t j = 0; j < i; ++j) {
    const plan::ZoneCase& other = head.zones[j];
    if (zone.name == other.name) {
      return fail(ErrorCode::conflict, fmt::format("two zones are called \"{}\"", zone.name),
                  fmt::format("zones[{}].name", i), "give each zone its own name");
    }
    if (zone.section == other.section && zone.from_cm < other.to_cm) {
      return fail(ErrorCode::conflict,
                  fmt::format("starts at {:g} cm, inside \"{}\" or nearer the scalp", zone.from_cm,
                              other.name),
                  fmt::format("zones[{}].from_cm", i),
                  "list the zones of a section from the scalp outward, side by side");
    }
  }
  return {};
}

/// What a photo says of its own doubt must be a normal's covariance, neither nothing nor
/// everything.
bool is_covariance(const std::array<double, 9>& c) {
  constexpr double kLeast = 0.05 * 0.05;  // of a variance; Lab
  constexpr double kMost = 50.0 * 50.0;   // likewise
  constexpr double kRounded = 1e-6;       // two halves that were printed apart
  for (const std::size_t i : {0U, 4U, 8U}) {
    if (!(c[i] >= kLeast && c[i] <= kMost)) return false;
  }
  const auto same = [&](std::size_t i, std::size_t j) {
    return std::abs(c[i] - c[j]) <= kRounded * kMost;
  };
  if (!same(1, 3) || !same(2, 6) || !same(5, 7)) return false;
  const double two = c[0] * c[4] - c[1] * c[3];
  const double three = c[0] * (c[4] * c[8] - c[5] * c[7]) - c[1] * (c[3] * c[8] - c[5] * c[6]) +
                       c[2] * (c[3] * c[7] - c[4] * c[6]);
  return two > 0 && three > 0;
}

Result<void> check_photo(const plan::Reading& reading, const std::string& where) {
  const bool by_photo = reading.by == plan::Reader::photo;
  if (by_photo != reading.covariance.has_value() || (by_photo && !reading.lab)) {
    return fail(ErrorCode::conflict,
                "a photo gives lab and covariance, and nobody else a covariance", where,
                "copy both from what `huewright read` prints, and say by: photo");
  }
  if (by_photo && !is_covariance(*reading.covariance)) {
    return fail(ErrorCode::out_of_range,
                "these nine numbers are no covariance with sds of 0.05 to 50",
                where + ".covariance", "copy them from what `huewright read` prints");
  }
  return {};
}

Result<void> check_zones(const plan::Case& head) {
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    const plan::ZoneCase& zone = head.zones[i];
    const std::string where = fmt::format("zones[{}]", i);
    if (zone.to_cm <= zone.from_cm) {
      return fail(ErrorCode::out_of_range,
                  fmt::format("to_cm {:g} is not beyond from_cm {:g}", zone.to_cm, zone.from_cm),
                  where, "give the zone's ends in cm from the scalp, stretched");
    }
    if (auto neighbours = check_neighbours(head, i); !neighbours) return neighbours;
    for (std::size_t r = 0; r < zone.readings.size(); ++r) {
      if (zone.readings[r].level.has_value() == zone.readings[r].lab.has_value()) {
        return fail(ErrorCode::conflict, "a reading is a level or a lab, one of the two",
                    fmt::format("{}.readings[{}]", where, r), "give level, or lab");
      }
      if (zone.readings[r].by == plan::Reader::eye && zone.readings[r].lab) {
        return fail(ErrorCode::conflict, "an eye reads a level, not a lab",
                    fmt::format("{}.readings[{}]", where, r), "say by: instrument, or give level");
      }
      if (auto photo = check_photo(zone.readings[r], fmt::format("{}.readings[{}]", where, r));
          !photo) {
        return photo;
      }
    }
  }
  return {};
}

}  // namespace

void describe(Object& object, CaseFile& file) {
  plan::Case& head = file.head;
  object.optional("title", "what this case is called").text(head.title, kShortText);
  object.required("person", "who sits in the chair").object([&](Object& person) {
    describe_person(person, head.person);
  });
  describe_strand(object, head);
  describe_zones(object.required("zones", "from the scalp outward"), file);
  number(object.optional("wished_level", "depth to lift to, 1 black to 10 lightest blond"),
         head.wished_level, {.low = 1, .high = 10});
  describe_target(object, "the finished colour", file.target);
  objects(object.optional("shelf", "products at hand"), head.shelf, {0, 500});
  object.optional("shelf_file", "path of a shelf file, from this file").text(file.shelf_file, 1000);
  object.optional("looks_file", "path of the salon's own looks, a CSV table, from this file")
      .text(file.looks_file, 1000);
  describe_dates(object, head);
  describe_frame(object, head);
  describe_work(object, head);
  numbers(object.optional("ladder_lstar", "the salon's own L* of levels 1 to 10"),
          file.ladder_lstar, {0, hair::kRungs}, {.low = 0, .high = 100});
  objects(object.optional("own_limits", "rules the salon holds tighter"), file.own_limits, {0, 50});
  describe_repeat(object, head);
}

Result<plan::Case> ready(const CaseFile& file) {
  plan::Case head = file.head;
  if (!file.ladder_lstar.empty()) {
    auto ladder = hair::make_ladder(file.ladder_lstar);
    if (!ladder) return tl::unexpected(ladder.error());
    head.ladder = *std::move(ladder);
  }
  if (const auto shelf = check_shelf(head.shelf, head.ladder); !shelf) {
    return tl::unexpected(shelf.error());
  }
  if (const auto zones = check_zones(head); !zones) return tl::unexpected(zones.error());
  auto settings = process::tightened(file.own_limits, "own_limits");
  if (!settings) return tl::unexpected(settings.error());
  head.settings = *std::move(settings);
  if (const auto wish = fill_targets(head, file); !wish) return tl::unexpected(wish.error());
  if (const auto dates = check_dates(head); !dates) return tl::unexpected(dates.error());
  head.salon.prices.hands = head.salon.hands;
  return head;
}

}  // namespace hw::wire
