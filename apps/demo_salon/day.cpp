// The day of a visit, from what is read before the first bowl to the next booking.
#include <algorithm>

#include "huewright/book/planning.h"
#include "visiting.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kDay = 1'500'000'000;  // stream

Visiting visiting(const Salon& salon, const Slot& slot, Client& client) {
  Visiting made{salon,
                slot,
                client,
                salon.people[slot.chair],
                salon.visit_ids[slot.ordinal],
                starts(slot),
                Pen(salon.seed, kDay + 10 * slot.ordinal),
                Chance(salon.seed, kDay + 10 * slot.ordinal + 1)};
  const double sd = plan::factor_prior(plan::FactorKind::reader_bias).sd_visit;
  made.bias_today = made.who.bias + sd * made.chance.normal();
  return made;
}

/// What can be done without colour.
process::Moment care(Visiting& now) {
  const process::Moment at = later(now.start, 35);
  book::TreatmentFact treatment;
  treatment.product = "mask-protein";
  treatment.what_done = "a protein treatment, nothing that colours or lightens";
  treatment.minutes = 20;
  now.note(at, treatment);
  return later(at, 25);
}

/// The chosen course on the hair; without one, care alone.
Went serve(Visiting& now, const Planned& planned) {
  const plan::Case& head = planned.answer.head;
  if (planned.course == 0) {
    Went went;
    went.rinsed = care(now);
    return went;
  }
  const double day = plan::factor_prior(plan::FactorKind::client_rate).sd_visit;
  const double thick = plan::factor_prior(plan::FactorKind::salon_amount).sd_visit;
  constexpr double kSalonThickness = 1.1;  // what this salon lays on over the usual
  Chair chair{head,
              planned.answer.plan.courses[planned.course - 1],
              now.who,
              now.id,
              later(now.start, now.chance.uniform(25, 40)),
              now.salon.seed,
              now.bias_today,
              now.chance.factor(day),
              kSalonThickness / head.salon.amount_factor * now.chance.factor(thick),
              now.slot.fate.burns};
  return carry_out(chair, *now.client.truth, now.pen, now.chance);
}

/// What the case could not have, said and agreed.
void note_change(Visiting& now, const Planned& planned) {
  const process::Moment at = later(now.start, 20);
  const std::string name = person(now.salon.seed, now.client.number).name;
  if (planned.course == 0) {
    now.note(at, book::ChangeFact{"no colour today", "a rule stands against it", name});
  } else if (planned.course > 1) {
    now.note(at, book::ChangeFact{"another way than the first that was planned",
                                  "a rule stands against the first", name});
  }
}

/// The plan of the day. Readings that old colour alone cannot explain are of hair that the colour
/// lifted too: the colourist says so then.
Result<Planned> plan_as_told(Visiting& now, wire::CaseFile& file) {
  auto planned = plan_for(now.salon, now.slot, now.client, file);
  if (planned || planned.error().code != ErrorCode::conflict) return planned;
  for (plan::ZoneCase& zone : file.head.zones) {
    if (zone.past.old_colour) zone.past.lightened = std::max(1, zone.past.lightened);
  }
  return plan_for(now.salon, now.slot, now.client, file);
}

/// A visit that nothing could be planned for: said so, and the next one is booked all the same.
Written given_up(Visiting& now, const Error& error) {
  Written written;
  written.fault = now.id + ": " + one_line(error);
  now.note(later(now.start, 20), book::CancelledFact{"it could not be planned"});
  book_next(now.salon, now.slot, later(now.start, 25), now.client, now.pen);
  now.client.open.erase(now.slot.ordinal);
  written.facts = std::move(now.pen.facts);
  return written;
}

/// Consent as it stands this morning.
void ask_again(Visiting& now) {
  const auto say = [&](const char* answer, const char* wording) {
    now.pen.note(now.client.id, later(now.start, 2), now.who.name,
                 book::ConsentFact{"service", answer, wording});
    now.client.facts.push_back(now.pen.facts.back());
  };
  const std::string before = book::consent_for(book::client_of(now.client.facts), "service");
  if (now.slot.fate.withdraws) {
    say("withdrawn", "I do not want it any more.");
  } else if (before != "given") {
    say("given", "I have thought it over and agree to the service as it was explained.");
  }
}

/// A visit for a treatment, without readings or a plan.
Written care_only(Visiting& now) {
  constexpr double kPrice = 55;
  const process::Moment done = care(now);
  book::TreatmentFact twists;
  twists.what_done = "leave-in, twists, dried under the hood";
  twists.minutes = 60;
  now.note(later(done, 10), twists);
  take_money(now, kPrice, "a treatment and twists", later(done, 70));
  const process::Moment end = later(done, 75);
  now.note(end, book::FinishedFact{});
  Written written;
  conclude(now, end, written);
  book_next(now.salon, now.slot, later(end, -2), now.client, now.pen);
  written.facts = std::move(now.pen.facts);
  return written;
}

}  // namespace

Written visit(const Salon& salon, const Slot& slot, Client& client) {
  Visiting now = visiting(salon, slot, client);
  Written written;
  if (stays_away(now)) {
    book_next(salon, slot, later(now.start, kMinutesPerDay), client, now.pen);
    conclude(now, later(now.start, kMinutesPerDay), written);
    written.facts = std::move(now.pen.facts);
    return written;
  }
  if (slot.fate.care_only) return care_only(now);
  ask_again(now);
  auto file = case_for(salon, slot, client);
  if (!file) return given_up(now, file.error());
  const auto head = wire::ready(*file);
  if (!head) return given_up(now, head.error());
  if (const auto met = meet_hair(now, *head); !met) return given_up(now, met.error());
  read_before(now, *file);
  test_strands(now, *file);
  const auto planned = plan_as_told(now, *file);
  if (!planned) return given_up(now, planned.error());
  now.note(later(now.start, 18),
           book::plan_fact(salon.program, *file, planned->answer, planned->course));
  note_change(now, *planned);
  if (slot.nth == 0) {
    now.note(
        later(now.start, 21),
        book::SignatureFact{person(salon.seed, client.number).name,
                            "I was told what is planned, what it costs and what can go wrong."});
  }
  const Went went = serve(now, *planned);
  const plan::Case& as_planned = planned->answer.head;
  const plan::Course* course =
      planned->course > 0 ? &planned->answer.plan.courses[planned->course - 1] : nullptr;
  constexpr double kToFinish = 70;  // wash, style and drying after the last rinse
  const process::Moment look = later(went.rinsed, kToFinish * now.who.pace);
  read_finish(now, as_planned, course, look, written.ends);
  finish_hair(now, as_planned, later(look, 5));
  constexpr double kCareAlone = 45;
  take_money(
      now, course != nullptr ? price_of(as_planned, *course, now.chance.factor(0.05)) : kCareAlone,
      course != nullptr ? course->name.substr(0, 120) : "a treatment and a trim", later(look, 16));
  const process::Moment end = later(look, 22);
  now.note(end, book::FinishedFact{});
  if (went.coloured) {
    client.coloured_on = slot.date;
    client.oxidative = went.oxidative;
  } else if (planned->course == 0 && !to_test(*planned).empty()) {
    client.oxidative = to_test(*planned);
    client.untested = true;
  }
  conclude(now, end, written);
  afterwards(now, went, end);
  book_next(salon, slot, later(end, -2), client, now.pen);
  written.facts = std::move(now.pen.facts);
  return written;
}

}  // namespace hw::demo
