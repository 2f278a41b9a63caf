// The desk: calls, bookings, consultations, skin tests, quotes and deposits.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "client.h"
#include "huewright/book/planning.h"
#include "huewright/book/visit_facts.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kDesk = 1'400'000'000;  // stream
constexpr int kNoon = 12 * 60;
constexpr int kLapseDays = 84;  // as the rule skin_test_lapsed has it: twelve weeks

constexpr const char* kService =
    "I agree to the service as it was explained, and was told of its risks.";

/// What a head tells of the years before.
void tell_past(const Slot& slot, const process::Moment& at, Client& client, Pen& pen) {
  const std::string by = "the desk";
  const plan::Case& head = client.first.file.head;
  const auto year_ago = process::iso_text(process::days_later(slot.date, -200));
  for (const plan::ZoneCase& zone : head.zones) {
    if (zone.facts.texture.relaxed_other || zone.facts.texture.relaxed_hydroxide) {
      pen.note(client.id, at, by, book::HairPastFact{"relaxer", year_ago, zone.name, ""});
    }
    if (zone.past.old_colour) {
      pen.note(client.id, at, by,
               book::HairPastFact{"colour", "", zone.name, "from a box, at home"});
    }
    if (zone.past.lightened > 0) {
      pen.note(client.id, at, by, book::HairPastFact{"lightener", year_ago, zone.name, ""});
    }
  }
  if (head.person.black_tattoo_reaction) {
    pen.note(client.id, at, by,
             book::AllergyFact{"black temporary tattoo", "", "blisters, years ago", "client"});
  }
}

/// What is asked and answered before the first service.
void ask_consents(const process::Moment& at, const std::string& by, Client& client, Chance& chance,
                  Pen& pen) {
  const auto answer = [&](const char* purpose, bool yes, const char* wording) {
    pen.note(client.id, at, by, book::ConsentFact{purpose, yes ? "given" : "refused", wording});
  };
  answer("service", true, kService);
  answer("reminders", !chance.one_in(6), "You may remind me of my visits.");
  answer("photos kept", !chance.one_in(3), "You may keep photos of my hair.");
  answer("photos shown", chance.one_in(4), "You may show photos of my hair to others.");
}

/// Moves what is about the client to the client's own list.
void keep_own(Client& client, const Pen& pen, std::size_t from) {
  for (std::size_t i = from; i < pen.facts.size(); ++i) {
    if (book::about(pen.facts[i]) == book::About::client) client.facts.push_back(pen.facts[i]);
  }
}

/// What of it is about the slot's visit.
void keep_visit(const Salon& salon, std::size_t ordinal, Client& client, const Pen& pen) {
  for (const book::Fact& fact : pen.facts) {
    if (fact.subject == salon.visit_ids[ordinal]) client.open[ordinal].push_back(fact);
  }
}

book::BookedFact booking(const Slot& slot, const Salon& salon, const Client& client,
                         const std::string& wish) {
  constexpr double kFirst = 300, kLater = 240;  // minutes kept free
  book::BookedFact booked;
  booked.client = client.id;
  booked.starts_at = process::iso_text(starts(slot));
  booked.minutes = slot.nth == 0 ? kFirst : kLater;
  booked.chair = salon.people[slot.chair].chair;
  booked.wish = wish;
  return booked;
}

}  // namespace

process::Moment starts(const Slot& slot) {
  return town_time(slot.date, slot.minute);
}

std::optional<std::size_t> next_slot(const Salon& salon, const Slot& slot) {
  for (std::size_t i = slot.ordinal + 1; i < salon.slots.size(); ++i) {
    if (salon.slots[i].client == slot.client) return i;
  }
  return {};
}

std::optional<process::Moment> consult_at(const Slot& slot) {
  constexpr int kDaysBefore = 7, kAfternoon = 17 * 60;
  if (slot.nth > 0 && !slot.fate.new_wish) return {};
  return town_time(process::days_later(slot.date, -kDaysBefore), kAfternoon);
}

Written first_call(const Salon& salon, const Slot& slot, Client& client) {
  Pen pen(salon.seed, kDesk + 10 * slot.ordinal);
  Chance chance(salon.seed, kDesk + 10 * slot.ordinal + 1);
  const Date day = process::days_later(slot.date, -9 - static_cast<int>(chance.below(5)));
  const process::Moment at = later(town_time(day, kNoon), chance.uniform(-150, 240));
  const std::string by = "the desk";
  const std::string& id = salon.visit_ids[slot.ordinal];
  book::PersonFact who = person(salon.seed, client.number);
  if (chance.one_in(3)) {
    constexpr double kCmPerMonth = 365.25 / 12 / 1e4;  // of µm a day
    who.growth_cm_per_month = std::round(100 * client.first.file.head.habits.growth_um_per_day *
                                         client.hidden.growth_factor * kCmPerMonth) /
                              100;
  }
  pen.note(client.id, at, by, who);
  pen.note(id, later(at, 2), by, book::EnquiryFact{client.id, client.first.wish});
  book::BookedFact booked = booking(slot, salon, client, client.first.wish);
  if (slot.fate.moved) {
    book::BookedFact before = booked;
    before.starts_at = process::iso_text(later(starts(slot), 60.0 * 24 * 3));
    pen.note(id, later(at, 3), by, before);
    pen.note(id, later(at, 60.0 * 24), by, booked);
  } else {
    pen.note(id, later(at, 3), by, booked);
  }
  tell_past(slot, later(at, 5), client, pen);
  keep_own(client, pen, 0);
  keep_visit(salon, slot.ordinal, client, pen);
  return {std::move(pen.facts), {}, {}, {}};
}

std::vector<std::string> to_test(const Planned& planned) {
  std::vector<std::string> shades;
  constexpr std::size_t kCourses = 2;  // the best and what stands by
  const auto& tests = planned.answer.plan.tests_to_make;
  const auto& courses = planned.answer.plan.courses;
  for (std::size_t i = 0; i < std::min(kCourses, courses.size()); ++i) {
    for (const plan::CourseBowl& bowl : courses[i].bowls) {
      for (const plan::BowlPart& part : bowl.parts) {
        const bool due = std::ranges::any_of(
            tests, [&](const auto& test) { return test.colour.shade == part.id; });
        if (due && std::ranges::find(shades, part.id) == shades.end()) shades.push_back(part.id);
      }
    }
  }
  return shades;
}

void test_skin(const Salon& salon, const std::vector<std::string>& shades,
               const process::Moment& applied, bool late, const std::string& by, Client& client,
               Pen& pen) {
  const std::size_t from = pen.facts.size();
  for (const std::string& shade : shades) {
    const auto on = std::ranges::find_if(
        salon.shelf, [&](const auto& one) { return one.product.product.id == shade; });
    if (on == salon.shelf.end()) continue;
    const process::Product& product = on->product.product;
    book::SkinTestFact test;
    test.product = product.name.empty() ? product.id : product.name;
    test.shade = shade;
    test.applied_at = process::iso_text(applied);
    const std::string first = pen.note(client.id, applied, by, test).id;
    constexpr double kDue = 49 * 60, kTooEarly = 46 * 60;  // minutes
    const process::Moment read = later(applied, late ? kTooEarly : kDue);
    test.read_at = process::iso_text(read);
    test.result = "clear";
    pen.note(client.id, read, by, test).amends = first;
  }
  keep_own(client, pen, from);
}

void book_next(const Salon& salon, const Slot& slot, const process::Moment& from, Client& client,
               Pen& pen) {
  const auto ordinal = next_slot(salon, slot);
  if (!ordinal) return;
  const Slot& next = salon.slots[*ordinal];
  const std::string& id = salon.visit_ids[*ordinal];
  const std::string& by = salon.people[slot.chair].name;
  Chance chance(salon.seed, kDesk + 10 * slot.ordinal + 2);
  if (next.fate.new_wish) {
    const auto& first = client.first.file.target;
    const std::string word = !client.wish.empty()            ? client.wish
                             : first && !first->look.empty() ? first->look
                                                             : "chestnut";
    client.wish = another_look(*plan::look(word), chance);
  }
  book::BookedFact booked = booking(next, salon, client, client.wish);
  if (next.fate.moved) {
    book::BookedFact before = booked;
    before.starts_at = process::iso_text(later(starts(next), 60.0 * 24 * 4));
    pen.note(id, from, by, before);
    pen.note(id, later(from, 60.0 * 24 * 5), by, booked);
  } else {
    pen.note(id, from, by, booked);
  }
  // Twelve weeks after the last colour its skin test no longer counts.
  const bool lapsed =
      client.untested || (client.coloured_on &&
                          process::days_between(*client.coloured_on, next.date) > kLapseDays - 4);
  client.untested = false;
  if (lapsed && !client.oxidative.empty()) {
    const process::Moment applied = town_time(process::days_later(next.date, -4), 9 * 60 + 30);
    test_skin(salon, client.oxidative, applied, next.fate.late_test, by, client, pen);
  }
  keep_visit(salon, *ordinal, client, pen);
}

Written consult(const Salon& salon, const Slot& slot, Client& client) {
  Pen pen(salon.seed, kDesk + 10 * slot.ordinal + 3);
  Chance chance(salon.seed, kDesk + 10 * slot.ordinal + 4);
  const process::Moment at = *consult_at(slot);
  const Colourist& who = salon.people[slot.chair];
  const std::string& id = salon.visit_ids[slot.ordinal];
  if (slot.nth == 0) {
    ask_consents(at, who.name, client, chance, pen);
    if (client.number % 3 == 0) {
      pen.note(client.id, later(at, 6), who.name,
               book::HairTestFact{"elasticity", "", "passed", "stretched by a third and back"});
    }
    keep_own(client, pen, 0);
  }
  auto file = case_for(salon, slot, client);
  if (!file) return {std::move(pen.facts), {}, {}, one_line(file.error())};
  file->head.asked_at = at;
  const auto planned = plan_for(salon, slot, client, *file);
  if (!planned) return {std::move(pen.facts), {}, {}, one_line(planned.error())};
  const auto& courses = planned->answer.plan.courses;
  const process::Moment done = later(at, 25);
  pen.note(id, done, who.name,
           book::plan_fact(salon.program, *file, planned->answer,
                           std::min<std::size_t>(1, courses.size())));
  if (!courses.empty()) {
    const plan::Course& course = courses.front();
    constexpr double kMinutesPerHour = 60;
    book::QuoteFact quote;
    quote.low_money = course.quote.low;
    quote.high_money = course.quote.high;
    quote.low_h = course.minutes.low / kMinutesPerHour;
    quote.high_h = course.minutes.high / kMinutesPerHour;
    quote.terms = "Deposit to keep the time; back until 48 hours before.";
    pen.note(id, later(done, 2), who.name, quote);
    test_skin(salon, to_test(*planned), later(done, 5), slot.fate.late_test, who.name, client, pen);
    if (course.quote.deposit > 0) {
      pen.note(id, later(done, 60.0 * 20), "the desk",
               book::PaymentFact{course.quote.deposit, "deposit", "transfer"});
    }
  }
  keep_visit(salon, slot.ordinal, client, pen);
  return {std::move(pen.facts), {}, {}, {}};
}

Result<wire::CaseFile> case_for(const Salon& salon, const Slot& slot, const Client& client) {
  const process::Moment at = starts(slot);
  const book::ClientState state = book::client_of(client.facts);
  wire::CaseFile file;
  const bool before = std::ranges::any_of(client.visits, [](const book::VisitState& visit) {
    return visit.plan && visit.stage == book::VisitStage::finished;
  });
  if (before) {
    auto next = book::next_case(state, client.visits, salon.shelf, at);
    if (!next) return tl::unexpected(next.error());
    file = std::move(next->file);
  } else {
    file = client.first.file;
    file.head.visit_at = at;
    book::put_known(state, client.visits, salon.shelf, file);
  }
  if (!client.wish.empty()) {
    file.target = wire::TargetGiven{plan::TargetSource::look, client.wish, {}};
    file.head.wished_level.reset();
    for (auto& own : file.zone_targets) own.reset();
    for (plan::ZoneCase& zone : file.head.zones) {
      zone.wished_level.reset();
      zone.lighter_levels = 0;
    }
  }
  file.head.members = salon.members;
  file.head.seed = slot.ordinal + 1;
  return file;
}

Result<Planned> plan_for(const Salon& salon, const Slot& slot, const Client& client,
                         const wire::CaseFile& file) {
  const auto as_read = wire::ready(file);
  if (!as_read) return tl::unexpected(as_read.error());
  const auto learned = plan::learn(salon.lessons);
  if (!learned) return tl::unexpected(learned.error());
  const plan::Case head =
      plan::with_learned(*as_read, *learned,
                         {salon.visit_ids[slot.ordinal], client.id, std::string(book::kSalonName),
                          salon.people[slot.chair].name});
  InlineExecutor here;
  auto plan = plan::plan_head(head, here);
  if (!plan) return tl::unexpected(plan.error());
  Planned made{{head, *std::move(plan)}, 0};
  const auto& courses = made.answer.plan.courses;
  const auto good = std::ranges::find(courses, false, &plan::Course::draft);
  if (good != courses.end()) made.course = static_cast<std::size_t>(good - courses.begin()) + 1;
  return made;
}

double price_of(const plan::Case& head, const plan::Course& course, double factor) {
  const double step = head.salon.prices.quote_step;
  return std::max(step, step * std::round(course.days.front().price.mid * factor / step));
}

}  // namespace hw::demo
