#pragma once
// The whole answer to a case: is it allowed, which ways there are, how sure each is, what to look
// at next. Courses are made from every lift the shelf allows × every class of colour × one bowl or
// one for each zone, judged on a few representatives, and the best simulated over the whole belief;
// what another course beats in colour, wear, minutes, money and slack alike is dropped, and at most
// four are shown that differ in kind. docs/adr/0011-courses.md.
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/checks.h"
#include "huewright/plan/course.h"

namespace hw::plan {

/// A look that would narrow the doubt most.
struct LookNext {
  std::string zone;      ///< empty: the whole head
  std::string what;      ///< "strand_test", "level", "instrument", "swatch"
  std::string sentence;  ///< "A strand test on the ends would take off 60 % of the doubt."
  double narrows = 0;    ///< share of the spread of the result that it would take off, 0–1
};

/// A named look and how near this head can get to it.
struct Reachable {
  std::string look;
  double expected_de00 = 0;  ///< of the best course found to it today
  double sds_off = 0;        ///< how far that lies from the middle of the patch, in its sds
  bool today = false;        ///< within 2 sds, inside the limits
};

/// A course that is forbidden, and why.
struct LeftOut {
  std::string name;
  std::vector<process::Refusal> refusals;
};

struct HeadPlan {
  std::vector<ZoneBelief> zones;
  std::vector<process::Refusal> refusals;  ///< of the head, whatever is mixed
  std::vector<process::Refusal> cautions;  ///< to be acknowledged, whatever is chosen
  std::vector<Course> courses;             ///< at most four, nearest the target first
  std::vector<LeftOut> left_out;
  std::vector<LookNext> look_next;  ///< most telling first
  std::vector<process::TestToMake> tests_to_make;
  std::vector<std::string> whys;  ///< what each part of the answer rests on
  std::size_t examined = 0;       ///< courses that were judged
  /// True when a refusal stands: against the head, against a course shown as a draft, or so that no
  /// course is left.
  [[nodiscard]] bool refused() const;
};

/// Plans a head. Deterministic in the case's seed, whatever the executor. Errors: a zone whose
/// readings no hair could give; a shelf that can mix nothing; no colour for a target.
[[nodiscard]] Result<HeadPlan> plan_head(const Case& head, Executor& executor);

/// The rest of a visit after readings: the belief by all readings so far, the chosen course with
/// its lift as it was mixed, stops and colour planned anew. before: what plan_head gave; course:
/// index of the chosen one. Errors: those of check(); no such course.
struct Replanned {
  HeadPlan plan;  ///< courses: the chosen one alone, planned anew
  Checked checked;
};
[[nodiscard]] Result<Replanned> plan_again(const Case& head, const HeadPlan& before,
                                           std::size_t course,
                                           std::span<const CheckReading> readings,
                                           Executor& executor);

/// How near every look of a list can be got to today on all zones alike, nearest first: the kindest
/// permitted lift to each level and the hair as it is, each with every colour of the shelf, judged
/// on 64 members. Deterministic. Errors: as plan_head().
[[nodiscard]] Result<std::vector<Reachable>> reach_of(const Case& head, std::span<const Look> looks,
                                                      Executor& executor);

}  // namespace hw::plan
