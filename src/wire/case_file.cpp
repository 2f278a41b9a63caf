#include "huewright/wire/case_file.h"

#include <fmt/format.h>

#include <algorithm>

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
  std::uint64_t members = head.members;
  object.optional("members", "hypotheses simulated side by side").whole(members, 64, 4096);
  head.members = static_cast<std::size_t>(members);
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
    for (std::size_t r = 0; r < zone.readings.size(); ++r) {
      if (zone.readings[r].level.has_value() == zone.readings[r].lab.has_value()) {
        return fail(ErrorCode::conflict, "a reading is a level or a lab, one of the two",
                    fmt::format("{}.readings[{}]", where, r), "give level, or lab");
      }
      if (zone.readings[r].by == plan::Reader::eye && zone.readings[r].lab) {
        return fail(ErrorCode::conflict, "an eye reads a level, not a lab",
                    fmt::format("{}.readings[{}]", where, r), "say by: instrument, or give level");
      }
    }
  }
  return {};
}

Result<void> check_shelf(const std::vector<process::Product>& shelf) {
  if (shelf.empty()) {
    return fail(ErrorCode::missing, "no product to plan with", "shelf",
                "list products in shelf, or name a shelf_file");
  }
  for (std::size_t i = 0; i < shelf.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (shelf[i].id == shelf[j].id) {
        return fail(ErrorCode::conflict, fmt::format("two products are called \"{}\"", shelf[i].id),
                    fmt::format("shelf[{}].id", i), "give each product its own id");
      }
    }
    const bool developer = shelf[i].kind == process::PartKind::developer;
    if (developer && !shelf[i].peroxide) {
      return fail(ErrorCode::missing, "a developer must say its peroxide_percent",
                  fmt::format("shelf[{}]", i), "labels 10/20/30/40 volume are 3/6/9/12 %");
    }
  }
  return {};
}

}  // namespace

void describe(Object& object, ShelfFile& file) {
  objects(object.required("shelf", "products, as chemistry"), file.shelf, {1, 500});
}

void describe(Object& object, CaseFile& file) {
  plan::Case& head = file.head;
  object.optional("title", "what this case is called").text(head.title, kShortText);
  object.required("person", "who sits in the chair").object([&](Object& person) {
    describe_person(person, head.person);
  });
  describe_strand(object, head);
  objects(object.required("zones", "from the scalp outward"), head.zones, {1, 12});
  number(object.optional("wished_level", "depth to lift to, 1 black to 10 lightest blond"),
         head.wished_level, {.low = 1, .high = 10});
  object.optional("target", "the finished colour: a look in a trade word, or a lab")
      .object([&](Object& fields) {
        fields.optional("look", "a trade word such as mahogany").text(file.look, kShortText);
        Value& lab = fields.optional("lab", "[L, a, b], daylight, 10 degrees");
        if (!lab.wanted(file.target_lab.has_value())) return;
        Triple values = file.target_lab.value_or(Triple{});
        triple(lab, values, {.low = 0, .high = 100}, {.low = -128, .high = 128});
        file.target_lab = values;
      });
  objects(object.optional("shelf", "products at hand"), head.shelf, {0, 500});
  object.optional("shelf_file", "path of a shelf file, from this file").text(file.shelf_file, 1000);
  describe_work(object, head);
  numbers(object.optional("ladder_lstar", "the salon's own L* of levels 1 to 10"),
          file.ladder_lstar, {0, hair::kRungs}, {.low = 0, .high = 100});
  objects(object.optional("own_limits", "rules the salon holds tighter"), file.own_limits, {0, 50});
  describe_repeat(object, head);
}

Result<plan::Case> ready(const CaseFile& file) {
  plan::Case head = file.head;
  if (const auto shelf = check_shelf(head.shelf); !shelf) return tl::unexpected(shelf.error());
  if (const auto zones = check_zones(head); !zones) return tl::unexpected(zones.error());
  if (!file.ladder_lstar.empty()) {
    auto ladder = hair::make_ladder(file.ladder_lstar);
    if (!ladder) return tl::unexpected(ladder.error());
    head.ladder = *std::move(ladder);
  }
  auto settings = process::tightened(file.own_limits, "own_limits");
  if (!settings) return tl::unexpected(settings.error());
  head.settings = *std::move(settings);
  return head;
}

Result<std::optional<plan::Target>> target_of(const CaseFile& file) {
  if (file.look.empty() && !file.target_lab) return std::optional<plan::Target>{};
  if (!file.look.empty() && file.target_lab) {
    return fail(ErrorCode::conflict, "a target is a look or a lab, one of the two", "target",
                "leave one out");
  }
  auto target = file.target_lab ? plan::target_colour({(*file.target_lab)[0], (*file.target_lab)[1],
                                                       (*file.target_lab)[2]})
                                : plan::look(file.look);
  if (!target) {
    Error error = target.error();
    error.where = "target";
    return tl::unexpected(error);
  }
  return std::optional<plan::Target>(*std::move(target));
}

}  // namespace hw::wire
