#include "huewright/book/visit.h"

#include <algorithm>

#include "sums.h"

namespace hw::book {
namespace {

template <class Body>
void add(std::vector<Dated<Body>>& list, const Fact& fact) {
  list.push_back({fact.at, fact.by, fact.id, body_of<Body>(fact)});
}

BowlState& bowl_of(VisitState& visit, const std::string& name) {
  const auto at = std::ranges::find(visit.bowls, name, &BowlState::name);
  if (at != visit.bowls.end()) return *at;
  visit.bowls.push_back({.name = name, .grams = {}, .left_over_g = 0, .zones = {}});
  return visit.bowls.back();
}

void stage_at_least(VisitState& visit, VisitStage stage) {
  visit.stage = std::max(visit.stage, stage);
}

/// Bookings, words and money.
bool fold_desk(VisitState& visit, const Fact& fact) {
  if (fact.kind == BookedFact::kKind) {
    visit.booked = body_of<BookedFact>(fact);
    visit.client = visit.booked.client;
    if (visit.stage == VisitStage::asked || visit.stage == VisitStage::cancelled) {
      visit.stage = VisitStage::booked;
    }
  } else if (fact.kind == EnquiryFact::kKind) {
    visit.enquiry = body_of<EnquiryFact>(fact);
    if (visit.client.empty()) visit.client = visit.enquiry->client;
  } else if (fact.kind == CancelledFact::kKind) {
    visit.stage = VisitStage::cancelled;
  } else if (fact.kind == FinishedFact::kKind) {
    stage_at_least(visit, VisitStage::finished);
  } else if (fact.kind == QuoteFact::kKind) {
    visit.quote = body_of<QuoteFact>(fact);
  } else if (fact.kind == PriceFact::kKind) {
    visit.price = body_of<PriceFact>(fact).money;
  } else if (fact.kind == PaymentFact::kKind) {
    const auto payment = body_of<PaymentFact>(fact);
    visit.paid = tidy(visit.paid + payment.money);
    if (payment.what_for == "deposit") visit.deposit = tidy(visit.deposit + payment.money);
  } else {
    return false;
  }
  return true;
}

/// Bowls: poured, put on, left over.
bool fold_bowl(VisitState& visit, const Fact& fact) {
  if (fact.kind == PourFact::kKind) {
    const auto pour = body_of<PourFact>(fact);
    double& grams = bowl_of(visit, pour.bowl).grams[pour.product];
    grams = tidy(grams + pour.grams);
    stage_at_least(visit, VisitStage::under_way);
  } else if (fact.kind == LeftoverFact::kKind) {
    const auto left = body_of<LeftoverFact>(fact);
    BowlState& bowl = bowl_of(visit, left.bowl);
    const bool mix = left.product.empty();
    double& grams = mix ? bowl.left_over_g : bowl.grams[left.product];
    grams = tidy(grams + (mix ? left.grams : -left.grams));
  } else if (fact.kind == ApplyFact::kKind) {
    const auto apply = body_of<ApplyFact>(fact);
    std::vector<std::string>& zones = bowl_of(visit, apply.bowl).zones;
    if (std::ranges::find(zones, apply.zone) == zones.end()) zones.push_back(apply.zone);
    stage_at_least(visit, VisitStage::under_way);
  } else {
    return false;
  }
  return true;
}

/// What was seen, and what happened to the hair.
void fold_hair(VisitState& visit, const Fact& fact) {
  if (fact.kind == PlanFact::kKind) visit.plan = body_of<PlanFact>(fact);
  if (fact.kind == ReadingFact::kKind) add(visit.readings, fact);
  if (fact.kind == StretchFact::kKind) add(visit.stretches, fact);
  if (fact.kind == StrandTestFact::kKind) add(visit.strand_tests, fact);
  if (fact.kind == PhotoFact::kKind) add(visit.photos, fact);
  if (fact.kind == PainFact::kKind) add(visit.pains, fact);
  if (fact.kind == ReactionFact::kKind) add(visit.reactions, fact);
  if (fact.kind == ChangeFact::kKind) add(visit.changes, fact);
  if (fact.kind == CurlFact::kKind) visit.curls.push_back(body_of<CurlFact>(fact));
  if (fact.kind == AftercareFact::kKind) visit.aftercare = body_of<AftercareFact>(fact);
  if (fact.kind == OutcomeFact::kKind) {
    auto outcome = body_of<OutcomeFact>(fact);
    visit.outcomes[outcome.zone] = outcome;
  }
  if (fact.kind == TrimFact::kKind) {
    const auto trim = body_of<TrimFact>(fact);
    visit.trimmed_cm[trim.zone] += trim.cm;
  }
}

}  // namespace

VisitState visit_of(std::span<const Fact> facts) {
  VisitState visit;
  for (const Fact& fact : in_force(facts)) {
    visit.id = fact.subject;
    if (fold_desk(visit, fact) || fold_bowl(visit, fact)) continue;
    fold_hair(visit, fact);
  }
  return visit;
}

}  // namespace hw::book
