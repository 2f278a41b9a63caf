#include "each_fact.h"

#include <algorithm>

#include "huewright/book/client_facts.h"
#include "huewright/book/shelf_facts.h"

namespace hw::book {
namespace {

/// Facts without which others cannot be read in.
bool makes_a_subject(const Fact& fact) {
  return fact.kind == PersonFact::kKind || fact.kind == ErasedFact::kKind ||
         fact.kind == ProductFact::kKind;
}

using Take = std::function<Result<void>(const Fact&)>;

Result<void> hand_over(std::span<const Fact> facts, bool makers, const Take& take) {
  for (const Fact& fact : facts) {
    if (makes_a_subject(fact) != makers) continue;
    if (auto taken = take(fact); !taken) return taken;
  }
  return {};
}

/// One client's facts and those of their visits, in the order of the book.
Result<std::vector<Fact>> facts_about(Store& store, const std::string& client) {
  auto all = store.facts_of(About::client, client);
  if (!all) return all;
  const auto visits = store.visits_of(client);
  if (!visits) return tl::unexpected(visits.error());
  for (const VisitLine& visit : *visits) {
    auto facts = store.facts_of(About::visit, visit.id);
    if (!facts) return facts;
    all->insert(all->end(), facts->begin(), facts->end());
  }
  std::ranges::sort(*all, {}, &Fact::place);
  return all;
}

}  // namespace

Result<void> each_fact(Store& store, const std::string& client, const Take& take) {
  constexpr std::size_t kPage = 2000;
  std::vector<Fact> own;
  if (!client.empty()) {
    auto facts = facts_about(store, client);
    if (!facts) return tl::unexpected(facts.error());
    own = *std::move(facts);
  }
  for (const bool makers : {true, false}) {
    if (auto done = hand_over(own, makers, take); !done) return done;
    if (!client.empty()) continue;
    for (std::int64_t place = 0;;) {
      const auto facts = store.facts_after(place, kPage);
      if (!facts) return tl::unexpected(facts.error());
      if (facts->empty()) break;
      if (auto done = hand_over(*facts, makers, take); !done) return done;
      place = facts->back().place;
    }
  }
  return {};
}

}  // namespace hw::book
