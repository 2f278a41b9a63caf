#include "huewright/book/drills.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/process/moment.h"

namespace hw::book {
namespace {

plan::DrillAnswer answer_of(const DrillFact& fact) {
  return {fact.reader, fact.level, fact.answer};
}

/// "0.3 level lighter", or that it is about right.
std::string off_text(double off) {
  constexpr double kTold = 0.05;  // levels: what one decimal shows
  if (std::abs(off) < kTold) return "as it is";
  return fmt::format("{:.1f} level {}", std::abs(off), off > 0 ? "lighter" : "darker");
}

std::string sentence_of(const plan::ReaderEye& eye) {
  const double half = (eye.offset.high - eye.offset.low) / 2;
  if (eye.count < plan::kFewDrills) {
    return fmt::format("{} of {} strands read: too few to say how the eye reads.", eye.count,
                       plan::kFewDrills);
  }
  return fmt::format("On this screen the eye reads {} (± {:.1f}), spread {:.1f}, from {} strands.",
                     off_text(eye.offset.mid), half, eye.spread.mid, eye.count);
}

std::string depths_of(const plan::ReaderEye& eye) {
  if (!eye.depth_matters || eye.count < plan::kFewDrills) return {};
  std::string text;
  for (const plan::EyeAtDepth& one : eye.by_depth) {
    text += fmt::format("{}{} hair {}", text.empty() ? "" : ", ", one.depth, off_text(one.off.mid));
  }
  return "It differs by depth: " + text + ".";
}

void put_band(wire::Object& object, std::string_view key, Band band) {
  object.required(key, "levels; holds 8 times in 10").object([&](wire::Object& inner) {
    wire::number(inner.required("low", ""), band.low);
    wire::number(inner.required("likely", ""), band.mid);
    wire::number(inner.required("high", ""), band.high);
  });
}

}  // namespace

DrillFact drill_fact(const std::string& reader, std::uint64_t seed, double answer,
                     const std::string& answer_warmth, const hair::Ladder& ladder) {
  const plan::DrillStrand shown = plan::drill_strand(seed, ladder);
  DrillFact fact;
  fact.reader = reader;
  fact.seed = seed;
  fact.level = shown.level;
  fact.warmth = std::string(plan::name_of(shown.warmth));
  fact.strand_um = shown.strand_um.value();
  fact.answer = answer;
  fact.answer_warmth = answer_warmth;
  return fact;
}

Result<std::vector<DrillFact>> drills_of(Store& store, const std::string& until) {
  auto facts = store.latest_about(About::salon, kDrillSubject, kLatestDrills);
  if (!facts) return tl::unexpected(facts.error());
  std::ranges::reverse(*facts);
  const auto end = process::moment_from_iso(until);
  std::vector<DrillFact> drills;
  for (const Fact& fact : in_force(*facts)) {
    const auto at = process::moment_from_iso(fact.at);
    if (fact.kind != DrillFact::kKind || (end && at && at->utc > end->utc)) continue;
    drills.push_back(body_of<DrillFact>(fact));
  }
  return drills;
}

Result<std::vector<plan::ReaderEye>> eyes_of(Store& store, const std::string& until) {
  const auto drills = drills_of(store, until);
  if (!drills) return tl::unexpected(drills.error());
  std::vector<plan::DrillAnswer> answers;
  answers.reserve(drills->size());
  for (const DrillFact& drill : *drills) answers.push_back(answer_of(drill));
  return plan::eyes_of(answers);
}

std::vector<std::string> told_of(const plan::ReaderEye& eye) {
  std::vector<std::string> told{sentence_of(eye)};
  if (std::string depths = depths_of(eye); !depths.empty()) told.push_back(std::move(depths));
  return told;
}

void put_eye(wire::Object& object, const plan::ReaderEye& eye) {
  std::string reader = eye.reader;
  object.required("reader", "who").text(reader, kMostName);
  auto count = static_cast<double>(eye.count);
  wire::number(object.required("count", "answers"), count);
  put_band(object, "offset", eye.offset);
  put_band(object, "spread", eye.spread);
  object.required("by_depth", "those tried, darkest first")
      .list(
          {0, eye.by_depth.size()}, eye.by_depth.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) {
            entry.object([&](wire::Object& one) {
              std::string depth(eye.by_depth[i].depth);
              one.required("depth", "").text(depth, kMostName);
              auto answers = static_cast<double>(eye.by_depth[i].count);
              wire::number(one.required("count", ""), answers);
              put_band(one, "offset", eye.by_depth[i].off);
            });
          });
  bool matters = eye.depth_matters;
  object.required("depth_matters", "").flag(matters);
  std::vector<std::string> told = told_of(eye);
  object.required("told", "in sentences")
      .list(
          {0, told.size()}, told.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) { entry.text(told[i], told[i].size()); });
}

std::string limits_of_drills() {
  return "A screen that nobody calibrated, in the light of the room, is no hair in daylight: what "
         "drills tell counts for less than one reading of hair beside an instrument.";
}

}  // namespace hw::book
