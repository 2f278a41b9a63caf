#pragma once
// What a visit is now: a fold over the visit's facts.
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "huewright/book/client.h"
#include "huewright/book/store.h"
#include "huewright/book/visit_facts.h"

namespace hw::book {

/// One bowl as it was really made and used.
struct BowlState {
  std::string name;
  std::map<std::string, double> grams;  ///< poured, by product, less what was put back [g]
  double left_over_g = 0;               ///< mix thrown away
  std::vector<std::string> zones;       ///< it went on, each once
};

struct VisitState {
  std::string id, client;
  VisitStage stage = VisitStage::asked;
  BookedFact booked;
  std::optional<EnquiryFact> enquiry = {};
  std::optional<QuoteFact> quote = {};
  std::optional<PlanFact> plan = {};  ///< the last one
  std::vector<BowlState> bowls;       ///< in the order of their first pour or use
  std::vector<Dated<ReadingFact>> readings;
  std::vector<Dated<StretchFact>> stretches;
  std::vector<Dated<StrandTestFact>> strand_tests;
  std::map<std::string, OutcomeFact> outcomes;  ///< by zone, the last
  std::vector<Dated<PhotoFact>> photos;
  std::vector<Dated<PainFact>> pains;
  std::vector<Dated<ReactionFact>> reactions;
  std::vector<Dated<ChangeFact>> changes;
  std::map<std::string, double> trimmed_cm;  ///< by zone; "": the whole head
  std::vector<CurlFact> curls;
  std::optional<AftercareFact> aftercare = {};
  std::optional<double> price = {};  ///< what the visit costs
  double paid = 0;                   ///< all that came in, deposit too, less what went back
  double deposit = 0;
  [[nodiscard]] double owed() const { return price.value_or(0) - paid; }
};

/// facts: all of one visit's, in the order of the book.
[[nodiscard]] VisitState visit_of(std::span<const Fact> facts);

}  // namespace hw::book
