#pragma once
// A visit of the book told again, step by step: what was known and asked, what was planned and why,
// each bowl, each look and what it changed, the end beside what was expected of it, and what was
// learned. Figures are those of the stored facts; reasons come from the plan made again as it was
// made (plan_made), with what had been learned by then and nothing later.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/book/evidence.h"
#include "huewright/book/lessons.h"
#include "huewright/book/visit.h"
#include "huewright/plan/plan.h"

namespace hw::book {

/// What a step is about.
enum class StepKind {
  asked,    ///< the head as it was read, and the wish
  planned,  ///< the course that was chosen, the others, what was left out
  bowl,     ///< a bowl mixed
  on,       ///< a bowl goes on a zone
  check,    ///< looks at one moment, and what they changed
  tested,   ///< a strand tested before the head, likewise
  stretch,  ///< wet strands stretched
  rinsed,   ///< a zone, or the head
  pain,
  change,  ///< of plan, agreed with the client
  result,  ///< how zones came out
  learned,
  finished,
};
/// "asked", "planned", …
[[nodiscard]] std::string_view name_of(StepKind kind);

/// A zone as a step has it.
struct ReplayZone {
  std::string zone;
  Band level;                               ///< believed, or expected
  std::optional<double> found = {};         ///< level that was read
  std::optional<bool> held = {};            ///< the reading lies in its band
  std::optional<colour::HairLab> lab = {};  ///< likely, or found
  std::string reader, seen;                 ///< of a reading: who, and "dry", "wiped", "wet"
};
struct ReplayPart {
  std::string product, words;  ///< id, and the salon's words for it
  double planned_g = 0, poured_g = 0;
};
/// A stop that looks moved; minutes from the first stroke.
struct ReplayStop {
  std::string zone;
  double was_min = 0, is_min = 0;
};
struct ReplayWay {
  std::string name, sentence;
  std::vector<process::Refusal> findings;
};

struct ReplayStep {
  StepKind kind = StepKind::asked;
  std::string at, by;                      ///< moment and hand of the fact that it begins with
  std::optional<double> minute = {};       ///< from the first stroke of the visit; before it: none
  std::string bowl, zone;                  ///< that it is about, or empty
  std::string purpose;                     ///< of the bowl
  std::optional<double> planned_min = {};  ///< on: first strand by the plan; rinsed: the stop
  std::vector<ReplayZone> zones;
  std::vector<ReplayPart> parts;
  double left_over_g = 0;
  std::vector<ReplayStop> stops;             ///< of the plan that stood before and stands after
  std::vector<process::Refusal> findings;    ///< planned: all; check: those that are new
  std::vector<ReplayWay> courses, left_out;  ///< planned: the chosen one first
  std::size_t examined = 0;                  ///< planned: courses that were judged
  std::string answer;                        ///< of a stretch: a word of StretchFact::worst
  std::vector<std::string> told;             ///< sentences of the program
  std::string wrote;                         ///< what a person wrote
  std::size_t readings = 0;  ///< looks that counted by the end of it: replay_readings(…, readings)
};

struct Replay {
  std::string visit, starts_at;
  std::vector<ReplayStep> steps;  ///< in the order in which they happened
};

/// What a visit is told again from.
struct ReplaySource {
  std::vector<Fact> facts;     ///< all of the visit's
  std::vector<OnShelf> shelf;  ///< words of products
  plan::Facts lessons;         ///< what was known when its lesson had been learned; that too
  plan::Case head;             ///< of the plan that stands, as it was planned
  std::optional<plan::HeadPlan> plan = {};  ///< none: the visit was not planned
};

/// The visit with all of the book that its telling needs, the plan still to be made: source.head is
/// ready for plan::plan_head where the visit was planned. Errors: unknown_name, io; those of the
/// stored case.
[[nodiscard]] Result<ReplaySource> replay_source(Store& store, const std::string& visit);

/// Index of the course that was chosen. Error: conflict (none was, or the plan has it no more).
[[nodiscard]] Result<std::size_t> chosen_course(const ReplaySource& source);

/// The readings of the run and of strand tests in the order in which they were made, the first
/// `count` of them.
[[nodiscard]] std::vector<plan::CheckReading> replay_readings(std::span<const Fact> facts,
                                                              std::size_t count = SIZE_MAX);

/// Expected levels of a look are those of the belief before the run, as this reader sees hair,
/// with what an eye scatters; new stops are those of plan::plan_again, as they were shown on the
/// day. A rest that cannot be planned is told, not an error.
[[nodiscard]] Replay replay_of(const ReplaySource& source, Executor& executor);

/// {"visit", "starts_at", "steps": [{"kind", "at", "by", …}]}, what is empty left out. nameless:
/// for teaching, without what people wrote, who they are, and the day (its month stays).
[[nodiscard]] std::string replay_json(const Replay& replay, bool nameless);

}  // namespace hw::book
