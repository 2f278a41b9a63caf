// The colours wished for, as a file says them, made into targets.
#include <fmt/format.h>

#include <array>

#include "case_parts.h"

namespace hw::wire {
namespace {

using plan::TargetSource;

constexpr std::size_t kMostWord = 200;  // bytes of a trade word

struct Way {
  std::string_view key;
  TargetSource source;
  std::string_view what;
};
/// Ways to give a colour by numbers.
constexpr std::array kWays{
    Way{"lab", TargetSource::colour, "[L, a, b], daylight, 10 degrees"},
    Way{"swatch_lab", TargetSource::swatch, "[L, a, b] of a swatch of hair, by an instrument"},
    Way{"photo_lab", TargetSource::photo, "[L, a, b] picked from a photo; a wide patch"},
    Way{"last_time_lab", TargetSource::last_time, "[L, a, b] as it came out last time"},
};

Result<plan::Target> made_of(const TargetGiven& given, const hair::Ladder& ladder,
                             std::span<const plan::Look> looks, const std::string& where) {
  const colour::HairLab lab{given.lab[0], given.lab[1], given.lab[2]};
  const auto make = [&]() -> Result<plan::Target> {
    switch (given.source) {
      case TargetSource::look:
        return plan::look(given.look, ladder, looks);
      case TargetSource::swatch:
        return plan::target_swatch(lab);
      case TargetSource::photo:
        return plan::target_photo(lab);
      case TargetSource::last_time:
        return plan::target_last_time(lab);
      case TargetSource::colour:
        break;
    }
    return plan::target_colour(lab);
  };
  auto target = make();
  if (!target) {
    Error error = target.error();
    error.where = where;
    return tl::unexpected(error);
  }
  return target;
}

std::span<const plan::Look> looks_of(const CaseFile& file) {
  return file.looks.empty() ? std::span<const plan::Look>(plan::default_looks()) : file.looks;
}

Result<void> check_wish(const plan::Case& head, std::size_t i) {
  const plan::ZoneCase& zone = head.zones[i];
  const bool target = zone.target || head.target;
  if (!target && !zone.wished_level && !head.wished_level) {
    return fail(ErrorCode::missing, "nothing is wished for this hair", fmt::format("zones[{}]", i),
                "give the head a target or a wished_level");
  }
  if (!target && zone.lighter_levels != 0) {
    return fail(ErrorCode::conflict, "lighter_levels moves a target, and there is none",
                fmt::format("zones[{}].lighter_levels", i), "give a target, or wished_level here");
  }
  return {};
}

}  // namespace

void describe(Object& object, TargetGiven& target) {
  const TargetSource before = target.source;
  Value& look = object.optional("look", "a trade word such as mahogany");
  if (look.wanted(before == TargetSource::look)) {
    look.text(target.look, kMostWord);
    target.source = TargetSource::look;
  }
  for (const Way& way : kWays) {
    Value& lab = object.optional(way.key, way.what);
    if (!lab.wanted(before == way.source)) continue;
    triple(lab, target.lab, {.low = 0, .high = 100}, {.low = -128, .high = 128});
    target.source = way.source;
  }
  object.exactly_one({"look", "lab", "swatch_lab", "photo_lab", "last_time_lab"});
}

void describe_target(Object& object, std::string_view what, std::optional<TargetGiven>& target) {
  Value& value = object.optional("target", what);
  if (!value.wanted(target.has_value())) return;
  TargetGiven given = target.value_or(TargetGiven{});
  value.object([&](Object& fields) { describe(fields, given); });
  target = given;
}

void describe_lab(Value& value, std::optional<colour::HairLab>& lab) {
  if (!value.wanted(lab.has_value())) return;
  const colour::HairLab before = lab.value_or(colour::HairLab{});
  Triple values{before.l, before.a, before.b};
  triple(value, values, {.low = 0, .high = 100}, {.low = -128, .high = 128});
  lab = colour::HairLab{values[0], values[1], values[2]};
}

Result<void> fill_targets(plan::Case& head, const CaseFile& file) {
  const auto fill = [&](const std::optional<TargetGiven>& given, const std::string& where,
                        std::optional<plan::Target>& into) -> Result<void> {
    if (!given) return {};
    auto target = made_of(*given, head.ladder, looks_of(file), where);
    if (!target) return tl::unexpected(target.error());
    into = *std::move(target);
    return {};
  };
  if (auto done = fill(file.target, "target", head.target); !done) return done;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (i < file.zone_targets.size()) {
      const std::string where = fmt::format("zones[{}].target", i);
      if (auto done = fill(file.zone_targets[i], where, head.zones[i].target); !done) return done;
    }
    if (auto done = check_wish(head, i); !done) return done;
  }
  return {};
}

}  // namespace hw::wire
