// How a visit ends: trim, money, what comes to light, what it taught; or that it does not take
// place.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/plan/money.h"
#include "visiting.h"

namespace hw::demo {

void finish_hair(Visiting& now, const plan::Case& head, const process::Moment& at) {
  if (now.chance.one_in(1.6) && now.client.truth->length_cm() > 8) {
    const double cm = 0.5 * (1 + static_cast<double>(now.chance.below(3)));
    now.note(at, book::TrimFact{{}, cm});
    now.client.truth->trim(cm);
  }
  if (head.style.twists) {
    constexpr double kResting = 8;  // cm of a curl; about
    const double rest = kResting * (1 - head.shrinkage);
    now.note(later(at, 4),
             book::CurlFact{head.zones.back().name, std::round(10 * rest) / 10,
                            std::round(10 * rest * now.chance.uniform(1, 1.06)) / 10});
    book::TreatmentFact twists;
    twists.what_done = "leave-in, twists, dried under the hood";
    twists.minutes = 60;
    now.note(later(at, 5), twists);
  }
  const double growth = head.habits.growth_um_per_day;
  const int weeks = static_cast<int>(std::lround(head.habits.weeks_to_next));
  const double retouch_mm = 11;  // regrowth that shows; common practice
  book::AftercareFact care;
  const double washes = head.habits.washes_per_week;
  care.words = (washes == 1 ? "Wash once" : fmt::format("Wash {:g} times", washes)) +
               " a week, lukewarm; the first wash in three days.";
  const Date today = process::local_date(at);
  care.refresh_on = process::iso_text(process::days_later(today, 7 * weeks));
  care.regrowth_on = process::iso_text(
      process::days_later(today, static_cast<int>(7 * plan::weeks_to_regrow(retouch_mm, growth))));
  now.note(later(at, 8), care);
}

void take_money(Visiting& now, double price, const std::string& how, const process::Moment& at) {
  constexpr std::array kWays = {"card", "card", "card", "cash", "transfer"};
  now.note(at, book::PriceFact{price, how});
  double paid = 0;
  for (const book::Fact& fact : now.client.open[now.slot.ordinal]) {
    if (fact.kind == book::PaymentFact::kKind) paid += book::body_of<book::PaymentFact>(fact).money;
  }
  const double owed = price - paid;
  if (owed <= 0) return;
  const bool later_on = now.chance.one_in(25), in_part = now.chance.one_in(40);
  now.note(
      later(at, later_on ? 3 * kMinutesPerDay : 1),
      book::PaymentFact{in_part ? std::floor(owed / 2) : owed, "visit", now.chance.pick(kWays)});
}

bool stays_away(Visiting& now) {
  const Fate& fate = now.slot.fate;
  double deposit = 0;
  for (const book::Fact& fact : now.client.open[now.slot.ordinal]) {
    if (fact.kind == book::PaymentFact::kKind) {
      deposit += book::body_of<book::PaymentFact>(fact).money;
    }
  }
  if (fate.cancelled) {
    constexpr std::array kWhys = {"ill", "a child is ill", "has to work"};
    const process::Moment at = later(now.start, -now.chance.uniform(2.5, 3) * kMinutesPerDay);
    now.pen.note(now.id, at, "the desk", book::CancelledFact{now.chance.pick(kWhys)});
    if (deposit > 0) {
      now.pen.note(now.id, later(at, 5), "the desk",
                   book::PaymentFact{-deposit, "refund", "transfer"});
    }
  } else if (fate.no_show) {
    const process::Moment at = later(now.start, 25);
    now.note(at, book::CancelledFact{"did not come"});
    if (deposit > 0) now.note(later(at, 1), book::PriceFact{deposit, "no-show: the deposit"});
  }
  return fate.cancelled || fate.no_show;
}

void afterwards(Visiting& now, const Went& went, const process::Moment& end) {
  const Fate& fate = now.slot.fate;
  if (fate.mistaken) {
    const auto pour = std::ranges::find(now.pen.facts, book::PourFact::kKind, &book::Fact::kind);
    if (pour != now.pen.facts.end()) {
      auto right = book::body_of<book::PourFact>(*pour);
      right.grams += 5;
      const std::string wrong = pour->id;
      now.note(later(end, 40), right).amends = wrong;
    }
  }
  if (fate.reacts && went.coloured) {
    const process::Moment at = later(end, 1.8 * kMinutesPerDay);
    now.note(at, book::ReactionFact{"behind the ears", "red and itching since the next morning",
                                    "to a doctor today; no colour until that is known"});
    now.pen.note(now.client.id, later(at, 3), now.who.name,
                 book::AllergyFact{"hair dye", "not known which", "red and itching behind the ears",
                                   "client"});
    now.client.facts.push_back(now.pen.facts.back());
  }
}

void conclude(Visiting& now, const process::Moment& end, Written& written) {
  std::vector<book::Fact> all = now.client.open[now.slot.ordinal];
  for (const book::Fact& fact : now.pen.facts) {
    if (fact.subject == now.id && fact.at <= process::iso_text(end)) all.push_back(fact);
  }
  const book::VisitState state = book::visit_of(all);
  if (state.plan && state.stage == book::VisitStage::finished) {
    InlineExecutor here;
    auto lesson = book::lesson_of(all, now.salon.shelf, here);
    if (lesson) {
      now.note(later(end, 0.02), *lesson);
      written.lesson = *std::move(lesson);
    } else {
      written.fault = one_line(lesson.error());
    }
  }
  now.client.visits.insert(now.client.visits.begin(), state);
  now.client.open.erase(now.slot.ordinal);
}

}  // namespace hw::demo
