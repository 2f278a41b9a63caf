#pragma once
// The case of the next visit, from what the book knows: the last outcome, faded by the washes
// since, moved outward by the hair that grew, shortened by what was cut, with the past of each zone
// one visit longer.
#include <span>

#include "huewright/book/client.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/store.h"
#include "huewright/book/visit.h"
#include "huewright/wire/case_file.h"

namespace hw::book {

/// Regrowth shorter than this is no zone of its own but lengthens the first [cm]; guess.
inline constexpr double kLeastRegrowth = 0.5;

/// A product as the shelf holds it now.
struct OnShelf {
  ProductFact product;
  double grams = 0;            ///< by the ledger
  bool known = false;          ///< what is at hand is known: something was counted or came in
  std::string opened_at, lot;  ///< of the tube opened last; empty: nobody said
};
/// Every product of the book with its grams. Errors: io.
[[nodiscard]] Result<std::vector<OnShelf>> shelf_of(Store& store);

/// What of a case came from where, a line each, for the person who plans: "roots: 1.4 cm grown
/// since 2025-05-14, natural level 1.5 as read then".
struct NextCase {
  wire::CaseFile file;
  std::vector<std::string> told;
};

/// The case of a visit at a moment. visits: the client's, last first; one with a plan is needed,
/// and the last of those counts. Growth is the client's own where measured, else the case's. A zone
/// without an outcome keeps what its plan expected, said so. Errors: no visit with a plan
/// (missing); a moment before it (conflict); a stored case this program cannot read (its own
/// error).
[[nodiscard]] Result<NextCase> next_case(const ClientState& client,
                                         std::span<const VisitState> visits,
                                         std::span<const OnShelf> shelf, const process::Moment& at);

/// Puts into a case what the book knows: shelf, reactions, the answer about the service, tests.
void put_known(const ClientState& client, std::span<const VisitState> visits,
               std::span<const OnShelf> shelf, wire::CaseFile& file);

/// The dated tests and colours of a client, as the rules ask for them.
[[nodiscard]] process::TestsRecord tests_of(const ClientState& client,
                                            std::span<const VisitState> visits,
                                            std::span<const OnShelf> shelf);

}  // namespace hw::book
