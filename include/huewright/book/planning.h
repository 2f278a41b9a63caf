#pragma once
// Between the book and the planner: the case of a client's next visit, and a plan as it is stored.
#include <string>
#include <vector>

#include "huewright/book/next_case.h"
#include "huewright/wire/plan_answer.h"

namespace hw::book {

/// The state of every visit of a client, last first. Errors: io.
[[nodiscard]] Result<std::vector<VisitState>> visits_of(Store& store, const std::string& client);
/// The same without their plans: these are a hundred times as long as all else of a visit, and are
/// not read.
[[nodiscard]] Result<std::vector<VisitState>> visits_but_plans(Store& store,
                                                               const std::string& client);

/// The next case of a client at a moment, with what it rests on. Errors: unknown_name, and as
/// next_case.
[[nodiscard]] Result<NextCase> next_case_of(Store& store, const std::string& client,
                                            const process::Moment& at);

/// The salon's own hands, scale and prices, where its owner set them. Errors: io.
[[nodiscard]] Result<void> put_salon(Store& store, wire::CaseFile& file);

/// Puts into a case what the book knows better than whoever wrote it: the shelf by the gram, the
/// client's reactions and answer, the tests and colours with their dates. Errors: unknown_name, io.
[[nodiscard]] Result<void> fill_case(Store& store, const std::string& client, wire::CaseFile& file);

/// A plan as it is stored: whole, with what the chosen course expects. program: its version;
/// course: from 1 to as many as there are; 0: none.
[[nodiscard]] PlanFact plan_fact(const std::string& program, const wire::CaseFile& file,
                                 const wire::PlanAnswer& answer, std::size_t course);

}  // namespace hw::book
