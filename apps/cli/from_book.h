#pragma once
// The case of a client's next visit, and the plan of a visit as a fact.
#include "huewright/book/next_case.h"
#include "huewright/wire/plan_answer.h"
#include "open_book.h"

namespace hw::apps {

/// The next case of a client at a moment, with what it rests on. Errors: as book::next_case.
[[nodiscard]] Result<book::NextCase> next_case_of(book::Folder& book, const std::string& client,
                                                  const process::Moment& at);
/// The state of every visit of a client, last first.
[[nodiscard]] Result<std::vector<book::VisitState>> visits_of(book::Folder& book,
                                                              const std::string& client);
/// A plan as it is stored: whole, with what the chosen course expects. course: from 1; 0: none.
[[nodiscard]] book::PlanFact plan_fact(const wire::CaseFile& file, const wire::PlanAnswer& answer,
                                       std::size_t course);

}  // namespace hw::apps
