#include "huewright/hair/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "embedded.h"
#include "hair_tables.h"
#include "huewright/base/check.h"

namespace hw::hair {
namespace {

constexpr double kFullTurn = 360;         // degrees
constexpr double kWarmthStrength = 1.5;   // [neutral radii]: guess
constexpr double kWarmthSpread = 30;      // [degrees]: guess
constexpr double kWarmthLeastLstar = 22;  // [L*]: guess, darkest depth whose warmth can be told

struct LocusPoint {
  double lstar;
  double a;
  double b;
  double radius;
};

struct ToneRow {
  std::string word;
  double from_deg;
  double to_deg;
  double least_strength;
  double least_lstar;
  double most_chroma;

  [[nodiscard]] bool holds(const ToneOffset& offset, double lstar, double chroma) const {
    const double at = offset.direction_deg;
    const bool inside =
        from_deg <= to_deg ? at >= from_deg && at <= to_deg : at >= from_deg || at <= to_deg;
    return inside && offset.strength >= least_strength && lstar >= least_lstar &&
           chroma <= most_chroma;
  }
};

std::vector<LocusPoint> read_locus() {
  const Table table = embedded(tables::natural_locus, "hair/natural_locus.csv");
  std::vector<LocusPoint> points;
  for (std::size_t i = 0; i < table.rows(); ++i) {
    points.push_back({sound(table.number(i, "lstar")), sound(table.number(i, "a")),
                      sound(table.number(i, "b")), sound(table.number(i, "neutral_radius"))});
  }
  HW_CHECK(points.size() >= 2);
  return points;
}

std::vector<ToneRow> read_tones() {
  const Table table = embedded(tables::tones, "hair/tones.csv");
  std::vector<ToneRow> rows;
  for (std::size_t i = 0; i < table.rows(); ++i) {
    const bool any_chroma = sound(table.text(i, "most_chroma")).empty();
    rows.push_back({sound(table.text(i, "word")), sound(table.number(i, "from_deg")),
                    sound(table.number(i, "to_deg")), sound(table.number(i, "least_strength")),
                    sound(table.number(i, "least_lstar")),
                    any_chroma ? std::numeric_limits<double>::infinity()
                               : sound(table.number(i, "most_chroma"))});
  }
  return rows;
}

std::vector<WarmStage> read_stages() {
  const Table table = embedded(tables::warm_stages, "hair/warm_stages.csv");
  std::vector<WarmStage> stages;
  for (std::size_t i = 0; i < table.rows(); ++i) {
    WarmStage stage;
    stage.name = sound(table.text(i, "stage"));
    stage.from_lstar = sound(table.number(i, "from_lstar"));
    stage.middle = {sound(table.number(i, "lstar")), sound(table.number(i, "a")),
                    sound(table.number(i, "b"))};
    stages.push_back(std::move(stage));
  }
  HW_CHECK(!stages.empty());
  return stages;
}

/// The line of natural hair at a depth, linear between its points.
LocusPoint natural_at(double lstar) {
  static const std::vector<LocusPoint> points = read_locus();
  const double held = std::clamp(lstar, points.front().lstar, points.back().lstar);
  std::size_t i = 1;
  while (i + 1 < points.size() && points[i].lstar < held) ++i;
  const LocusPoint& low = points[i - 1];
  const LocusPoint& high = points[i];
  const double share = (held - low.lstar) / (high.lstar - low.lstar);
  const auto mix = [share](double from, double to) { return from + share * (to - from); };
  return {held, mix(low.a, high.a), mix(low.b, high.b), mix(low.radius, high.radius)};
}

/// Angle between two directions [degrees, 0 to 180].
double apart(double one_deg, double other_deg) {
  const double turn = std::abs(one_deg - other_deg);
  return std::min(turn, kFullTurn - turn);
}

std::string tone_word(const colour::HairLab& colour, const ToneOffset& offset) {
  static const std::vector<ToneRow> rows = read_tones();
  const double chroma = std::hypot(colour.a, colour.b);
  for (const ToneRow& row : rows) {
    if (row.holds(offset, colour.l, chroma)) return row.word;
  }
  HW_CHECK(!"the last row of hair/tones.csv takes every colour");
  return {};
}

bool shows_warmth(const colour::HairLab& colour, const ToneOffset& offset, const WarmStage& stage) {
  if (colour.l < kWarmthLeastLstar || offset.strength < kWarmthStrength) return false;
  return apart(offset.direction_deg, tone_offset(stage.middle).direction_deg) <= kWarmthSpread;
}

}  // namespace

ToneOffset tone_offset(const colour::HairLab& colour) {
  const LocusPoint natural = natural_at(colour.l);
  const double da = colour.a - natural.a;
  const double db = colour.b - natural.b;
  const double angle = std::atan2(db, da) * (kFullTurn / 2) / std::numbers::pi;
  ToneOffset offset;
  offset.strength = std::hypot(da, db) / natural.radius;
  offset.direction_deg = angle < 0 ? std::fmod(angle + kFullTurn, kFullTurn) : angle;
  return offset;
}

const std::vector<WarmStage>& warm_stages() {
  static const std::vector<WarmStage> stages = read_stages();
  return stages;
}

const WarmStage& warm_stage(double lstar) {
  const auto& stages = warm_stages();
  std::size_t i = 0;
  while (i + 1 < stages.size() && stages[i + 1].from_lstar <= lstar) ++i;
  return stages[i];
}

const std::string& level_name(double level) {
  static const std::vector<std::string> names = [] {
    const Table table = embedded(tables::level_names, "hair/level_names.csv");
    HW_CHECK(table.rows() == kRungs);
    std::vector<std::string> made;
    for (std::size_t i = 0; i < kRungs; ++i) made.push_back(sound(table.text(i, "name")));
    return made;
  }();
  const double held = std::clamp(level, 1.0, static_cast<double>(kRungs));
  return names[static_cast<std::size_t>(std::lround(held)) - 1];
}

ColourWords describe(const colour::HairLab& colour, const Ladder& ladder) {
  const ToneOffset offset = tone_offset(colour);
  const WarmStage& stage = warm_stage(colour.l);
  ColourWords words;
  words.level = ladder.level_of(colour.l);
  words.level_name = level_name(words.level);
  words.tone = tone_word(colour, offset);
  if (shows_warmth(colour, offset, stage)) words.warmth = stage.name;
  return words;
}

std::string sentence(const ColourWords& words) {
  std::string text =
      fmt::format("level {:.1f}, {}, {} tone", words.level, words.level_name, words.tone);
  if (!words.warmth.empty()) text += fmt::format(", {} underlying warmth", words.warmth);
  return text;
}

}  // namespace hw::hair
