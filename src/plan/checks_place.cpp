// Readings put in their places, and the members they are put to.
#include <fmt/format.h>

#include <algorithm>

#include "checks_parts.h"
#include "huewright/base/random.h"

namespace hw::plan {
namespace {

enum Stream : std::uint64_t { kWetStream = 6'000'000, kReaderStream = 6'100'000 };

std::string at_reading(std::size_t i) {
  return fmt::format("readings[{}]", i);
}

Result<void> sane(const CheckReading& reading, std::size_t i) {
  const auto words = tone_words();
  if (!reading.level && !reading.lab && reading.tone.empty() && !reading.stretch) {
    return fail(ErrorCode::missing, "a reading says nothing", at_reading(i),
                "give a level, a tone, a lab or a stretch");
  }
  if (reading.level && !(*reading.level >= 1 && *reading.level <= 10)) {
    return fail(ErrorCode::out_of_range, fmt::format("level {} is none", *reading.level),
                at_reading(i) + ".level", "levels run from 1 to 10");
  }
  if (!reading.tone.empty() && std::find(words.begin(), words.end(), reading.tone) == words.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("no warmth is called \"{}\"", reading.tone),
                at_reading(i) + ".tone", fmt::format("use one of: {}", fmt::join(words, ", ")));
  }
  if (!(reading.minute >= 0)) {
    return fail(ErrorCode::out_of_range, "a minute lies before the visit",
                at_reading(i) + ".minute", "count from the first application");
  }
  return {};
}

/// Names of readers in the order they appear; the first is who read the zones.
std::size_t reader_place(const std::string& reader, std::vector<std::string>& readers) {
  const auto at = std::find(readers.begin(), readers.end(), reader);
  if (at != readers.end()) return static_cast<std::size_t>(at - readers.begin());
  readers.push_back(reader);
  return readers.size() - 1;
}

}  // namespace

Result<Placed> place(std::span<const ZoneBelief> zones, std::span<const ZoneRun> runs,
                     std::span<const CheckReading> readings) {
  Placed placed;
  std::vector<std::string> readers = {""};
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const CheckReading& reading = readings[i];
    if (auto fine = sane(reading, i); !fine) return tl::unexpected(fine.error());
    PlacedReading at;
    at.reading = &reading;
    const auto zone = std::find_if(zones.begin(), zones.end(),
                                   [&](const auto& known) { return known.name == reading.zone; });
    if (zone == zones.end()) {
      return fail(ErrorCode::unknown_name, fmt::format("no zone is called \"{}\"", reading.zone),
                  at_reading(i) + ".zone", "use a name of the case's zones");
    }
    at.zone = static_cast<std::size_t>(zone - zones.begin());
    at.reader = reader_place(reading.reader, readers);
    for (const ZoneRun& run : runs) {
      if (run.zone == reading.zone && run.strand_test == reading.strand_test) at.run = &run;
    }
    if (reading.strand_test && at.run == nullptr) {
      return fail(ErrorCode::missing, "a strand was read that nothing was put on", at_reading(i),
                  "give the strand test's bowl");
    }
    placed.readings.push_back(at);
  }
  placed.readers = readers.size();
  return placed;
}

HeadMembers before_checks(const Case& head, std::span<const ZoneBelief> zones,
                          std::size_t readers) {
  const Draws draws(head.seed);
  const std::size_t count = zones.front().members.size();
  HeadMembers members;
  members.zones.assign(zones.begin(), zones.end());
  members.bias = {zones.front().origin.reader_bias};
  for (std::size_t m = 0; m < count; ++m) {
    members.wet_look.push_back(head.priors.wet_look_mean_sd +
                               head.priors.wet_look_sd * draws.normal(kWetStream, m));
  }
  // Another reader brings a bias of her own, as wide as that of one nobody knows.
  for (std::size_t r = 1; r < readers; ++r) {
    std::vector<double> bias(count);
    for (std::size_t m = 0; m < count; ++m) {
      bias[m] = HeadPriors{}.reader_bias_sd * draws.normal(kReaderStream + r, m);
    }
    members.bias.push_back(std::move(bias));
  }
  return members;
}

}  // namespace hw::plan
