#pragma once
// A head as the page sends it, planned with what the book knows.
#include <memory>
#include <string>

#include "handler_parts.h"
#include "plans.h"

namespace hw::server {

/// What is to be planned.
struct Asked {
  std::string case_text;   ///< JSON
  std::string client;      ///< id; empty: nobody of the book
  std::string visit;       ///< id; empty: no visit
  std::string reader;      ///< who read the zones
  bool as_stored = false;  ///< the case holds shelf and tests as they were: nothing is put in
  std::string learned_until = {};  ///< what was learned later is left out; empty: all counts
};

/// The plan, from memory where the same was asked just now. The book gives shelf, tests, blocks and
/// what was learned. Errors: of the case, unknown_name, io.
[[nodiscard]] Result<std::shared_ptr<const Planned>> planned(Service& service, const Asked& asked);

/// Of a request body: {"case", "client"?}.
[[nodiscard]] Result<Asked> asked_of(const Json& body, const Request& request);
/// The plan that stands for a visit, as it was made: by its case, its reader, and what had been
/// learned then, so that its courses stay the same whoever looks and whatever is learned meanwhile.
/// Errors: unknown_name; conflict, where none was made.
[[nodiscard]] Result<Asked> plan_of_visit(Service& service, const std::string& visit);
/// Of a request body: {"visit"}, its plan as it stands, or {"case", "client"?}.
[[nodiscard]] Result<Asked> asked_of(Service& service, const Json& body, const Request& request);

/// The plan as the page gets it, with paints.
[[nodiscard]] Json plan_json(const wire::PlanAnswer& answer);

/// How a chart of a day is wanted.
struct DayWanted {
  int visit = 1;
  std::string section;
  std::size_t columns = 0, rows = 0;
  bool lifted = false;
};
/// The strand chart of a course as numbers a page paints. plan: holds what is believed of the
/// zones.
[[nodiscard]] Json day_chart(const plan::Case& head, const plan::HeadPlan& plan,
                             const plan::Course& course, const DayWanted& wanted,
                             Executor& threads);

/// The course that a body names, from 1, as an index. Error: out_of_range.
[[nodiscard]] Result<std::size_t> course_of(const Json& body, const plan::HeadPlan& plan);

}  // namespace hw::server
