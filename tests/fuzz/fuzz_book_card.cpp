// Any bytes as a paper card: every fact it makes is one, the client comes first, and no visit makes
// another.
#include "fuzz_book.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto card = fuzz::taken<book::CardFile>(data, size);
  if (!card) return 0;
  const auto facts = book::facts_of_card(*card, "client", fuzz::hand());
  if (!facts) {
    fuzz::check_error(facts.error());
    return 0;
  }
  HW_CHECK(!facts->facts.empty() && facts->facts.size() == facts->places.size());
  HW_CHECK(facts->facts.front().kind == book::PersonFact::kKind);
  for (const book::Fact& fact : facts->facts) {
    fuzz::check_fact(fact);
    HW_CHECK(book::about(fact) != book::About::client || fact.subject == "client");
  }
  return 0;
}
