// The keys of a file of checks.
#include "huewright/wire/checks_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "case_parts.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMostName = 100;      // bytes of a zone's or a reader's name
constexpr std::size_t kMostReadings = 500;  // of one visit; house rule, no source
constexpr double kMostMinutes = 1440;       // a day; more is a slip of the pen

using plan::Stretch;
constexpr std::array kStretches{Stretch::springs, Stretch::slow, Stretch::stays, Stretch::snaps};
constexpr std::array<std::string_view, 4> kStretchWords{"springs", "slow", "stays", "snaps"};

/// A warmth word; "" says nothing.
void describe_tone(Value& value, std::string& tone) {
  const std::vector<std::string> words = plan::tone_words();
  value.formatted(
      tone, fmt::format("^(|{})$", fmt::join(words, "|")),
      [&](std::string_view given) -> Result<void> {
        if (!given.empty() && std::find(words.begin(), words.end(), given) == words.end()) {
          return fail(ErrorCode::unknown_name, "no warmth is called so", {},
                      fmt::format("give one of {}", fmt::join(words, ", ")));
        }
        tone = given;
        return {};
      });
}

/// What a strand did; "" says nothing.
void describe_stretch(Value& value, std::optional<Stretch>& stretch) {
  const auto at = std::find(kStretches.begin(), kStretches.end(), stretch);
  const std::string before(
      stretch ? kStretchWords[static_cast<std::size_t>(at - kStretches.begin())] : "");
  value.formatted(before, fmt::format("^(|{})$", fmt::join(kStretchWords, "|")),
                  [&](std::string_view given) -> Result<void> {
                    if (given.empty()) {
                      stretch.reset();
                      return {};
                    }
                    const auto named = plan::stretch_named(std::string(given));
                    if (!named) {
                      return fail(ErrorCode::unknown_name, "no stretch is called so", {},
                                  fmt::format("give one of {}", fmt::join(kStretchWords, ", ")));
                    }
                    stretch = *named;
                    return {};
                  });
}

}  // namespace
}  // namespace hw::wire

namespace hw::plan {

void describe(wire::Object& object, CheckReading& reading) {
  using hair::Moisture;
  wire::number(
      object.required("minute", "since the first application of the visit, or of the strand test"),
      reading.minute, {.low = 0, .high = wire::kMostMinutes, .unit = "min"});
  object.required("zone", "its name in the case; empty where the head has one alone")
      .text(reading.zone, wire::kMostName);
  wire::number(object.optional("level", "by eye, 1 black to 10 lightest blond"), reading.level,
               {.low = 1, .high = 10});
  wire::describe_tone(object.optional("tone", "warmth by eye; empty: nothing said"), reading.tone);
  wire::describe_lab(object.optional("lab", "[L, a, b] by an instrument, D65 and 10°"),
                     reading.lab);
  static constexpr std::array kSeen{Moisture::dry, Moisture::wiped, Moisture::wet};
  static constexpr std::array<std::string_view, 3> kSeenWords{"dry", "wiped", "wet"};
  wire::word(object.optional("seen", "state of the hair then"), reading.seen, kSeen, kSeenWords);
  wire::describe_stretch(object.optional("stretch", "of a wet strand; empty: not tried"),
                         reading.stretch);
  object.optional("reader", "who looked; empty: who read the zones")
      .text(reading.reader, wire::kMostName);
  object.optional("strand_test", "read on the strand that was tested").flag(reading.strand_test);
}

}  // namespace hw::plan

namespace hw::wire {

void describe(Object& object, ChecksFile& file) {
  constexpr std::uint64_t kMostCourses = 100;  // more than a plan ever shows
  object.optional("course", "which of the plan's courses is being done")
      .whole(file.course, 1, kMostCourses);
  objects(object.required("readings", "looks so far, in any order"), file.readings,
          {1, kMostReadings});
}

Result<std::vector<plan::CheckReading>> readings_of(const ChecksFile& file,
                                                    const plan::Case& head) {
  std::vector<plan::CheckReading> readings = file.readings;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    plan::CheckReading& reading = readings[i];
    const std::string where = fmt::format("readings[{}]", i);
    if (reading.zone.empty() && head.zones.size() == 1) reading.zone = head.zones.front().name;
    const bool known =
        std::any_of(head.zones.begin(), head.zones.end(),
                    [&](const plan::ZoneCase& zone) { return zone.name == reading.zone; });
    if (!known) {
      std::string names;
      for (const auto& zone : head.zones) names += (names.empty() ? "" : ", ") + zone.name;
      return fail(ErrorCode::unknown_name,
                  reading.zone.empty() ? "the head has several zones, and none is named"
                                       : fmt::format("no zone is called \"{}\"", reading.zone),
                  where + ".zone", "give one of " + names);
    }
    if (!reading.level && !reading.lab && reading.tone.empty() && !reading.stretch) {
      return fail(ErrorCode::missing, "this reading says nothing", where,
                  "give a level, a tone, a lab or a stretch");
    }
  }
  return readings;
}

}  // namespace hw::wire
