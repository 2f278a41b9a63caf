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
};

/// The plan, from memory where the same was asked just now. The book gives shelf, tests, blocks and
/// what was learned. Errors: of the case, unknown_name, io.
[[nodiscard]] Result<std::shared_ptr<const Planned>> planned(Service& service, const Asked& asked);

/// Of a request body: {"case", "client"?}.
[[nodiscard]] Result<Asked> asked_of(const Json& body, const Request& request);

/// The plan as the page gets it, with paints.
[[nodiscard]] Json plan_json(const wire::PlanAnswer& answer);

/// The course that a body names, from 1, as an index. Error: out_of_range.
[[nodiscard]] Result<std::size_t> course_of(const Json& body, const plan::HeadPlan& plan);

}  // namespace hw::server
