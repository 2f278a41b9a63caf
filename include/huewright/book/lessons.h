#pragma once
// What a visit taught, kept as a fact of its own, and what all lessons together say before the next
// one. The arithmetic is plan/learn.h; here it is given what really went on which zone and when.
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/book/next_case.h"
#include "huewright/book/visit.h"
#include "huewright/plan/learn.h"

namespace hw::book {

/// The lesson of one visit: the lines that learning draws from its readings and its grams.
struct LessonFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "lesson";
  static constexpr std::string_view kWhat = "what the visit taught, for the next ones";
  double version = plan::kLearnVersion;
  std::vector<plan::VisitFact> visits;    ///< one, or none where nothing was read
  std::vector<plan::AmountFact> amounts;  ///< of the bowls that were weighed
};
void describe(wire::Object& object, LessonFact& fact);

/// How many of the salon's latest lessons are learned from beside the client's own; guess: enough
/// for what is the salon's, few enough for a plan not to wait.
inline constexpr std::size_t kLatestLessons = 200;

/// What learning calls the one salon of a book.
inline constexpr std::string_view kSalonName = "salon";

/// Minutes from one moment of a fact to another.
[[nodiscard]] double minutes_between(const std::string& from, const std::string& to);
/// The moment of the visit's first stroke; empty where nothing was put on. facts: in force.
[[nodiscard]] std::string first_stroke(std::span<const Fact> facts);

/// What was put on each zone, by the times and grams that were recorded: bowls with peroxide, from
/// their first stroke to the rinse, or to the next bowl, or for the minutes their label allows.
/// facts: of one visit.
[[nodiscard]] std::vector<plan::ZoneRun> runs_of(std::span<const Fact> facts,
                                                 std::span<const OnShelf> shelf,
                                                 const plan::Case& head);
/// A fact as a reading that a plan is planned on from: a check of the run, in minutes from the
/// first stroke, or a strand tested before the head, in its own. None: another fact, or one without
/// a depth. first: of first_stroke.
[[nodiscard]] std::optional<plan::CheckReading> check_reading(const Fact& fact,
                                                              const std::string& first);
/// The checks of a visit as readings of the run, minutes from its first stroke.
[[nodiscard]] std::vector<plan::CheckReading> checks_of(std::span<const Fact> facts);

/// The lesson of a finished visit. facts: all of it, its plan among them. Nothing was read or
/// weighed: an empty lesson. Errors: no plan (missing); those of the case and of plan::fact_of.
[[nodiscard]] Result<LessonFact> lesson_of(std::span<const Fact> facts,
                                           std::span<const OnShelf> shelf, Executor& executor);

/// The plan that stands for a visit, as it was made: its case, who had read the head, and when,
/// which bounds what had been learned. A choice repeats the plan it was made from, so the first
/// fact with the same case counts. Without a plan case_json is empty. facts: of one visit.
struct PlanMade {
  std::string case_json, reader, at;
};
[[nodiscard]] PlanMade plan_made(std::span<const Fact> facts);

/// What the client's own lessons, the salon's latest and the drills of its readers (drills.h) say,
/// to be learned from. Lessons of another version of the model are left out, and those written
/// after a moment (ISO 8601; empty: none is left out), so that a plan can be made again as it was
/// made; so is that of the planned visit itself (but_visit), which may end within the second it was
/// planned in. Errors: io, and as plan::learn.
[[nodiscard]] Result<plan::Facts> lessons_for(Store& store, const std::string& client,
                                              const std::string& until = {},
                                              const std::string& but_visit = {});
/// What is learned from them. Errors: io, and as plan::learn.
[[nodiscard]] Result<plan::Learned> learned_for(Store& store, const std::string& client,
                                                const std::string& until = {},
                                                const std::string& but_visit = {});

/// The factors as JSON text, as they are stored with the version: kind, name, mean, sd, facts.
[[nodiscard]] std::string factors_json(const plan::Learned& learned);

}  // namespace hw::book
