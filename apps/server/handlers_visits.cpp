// Visits: from the booking to the finish.
#include <algorithm>

#include "handlers.h"
#include "huewright/book/agenda.h"
#include "huewright/book/ids.h"
#include "huewright/book/lessons.h"
#include "huewright/book/planning.h"
#include "huewright/sheets/paper.h"
#include "huewright/sheets/visit_sheets.h"
#include "planning.h"

namespace hw::server {
namespace {

/// A UTC moment as the list of visits has it.
std::string utc_text(std::chrono::sys_seconds at) {
  const std::string text = process::iso_text(process::Moment{at, std::chrono::minutes(0)});
  return text.substr(0, text.find('+')) + "Z";
}

/// The start of a local day, by the offset that the clock has now.
std::chrono::sys_seconds start_of(std::chrono::year_month_day date, std::chrono::minutes offset) {
  return std::chrono::sys_seconds(std::chrono::sys_days(date)) - offset;
}

/// What of a visit is read under the lock.
struct Known {
  book::VisitLine line;
  std::string name;
  std::vector<book::Fact> facts;
};

Result<Known> known_of(Service& service, const std::string& id) {
  const auto book = service.book();
  Known known;
  auto line = book.store().visit(id);
  if (!line) return tl::unexpected(line.error());
  known.line = *std::move(line);
  const auto client = book.store().client(known.line.client);
  if (!client) return tl::unexpected(client.error());
  known.name = client->name;
  auto facts = book.store().facts_of(book::About::visit, id);
  if (!facts) return tl::unexpected(facts.error());
  known.facts = *std::move(facts);
  return known;
}

Json bowls_json(const book::VisitState& visit) {
  Json bowls = Json::array();
  for (const book::BowlState& bowl : visit.bowls) {
    Json one;
    one["name"] = bowl.name;
    one["grams"] = Json::array();
    for (const auto& [product, grams] : bowl.grams) {
      one["grams"].push_back({{"product", product}, {"grams", grams}});
    }
    one["left_over_g"] = bowl.left_over_g;
    one["zones"] = bowl.zones;
    bowls.push_back(one);
  }
  return bowls;
}

/// A stored plan: its choice, case and answer, painted.
void put_plan(Json& body, const book::VisitState& visit) {
  body["plan"] = Json();
  body["case"] = Json();
  body["answer"] = Json();
  if (!visit.plan) return;
  Json plan = Json::parse(wire::encode(*visit.plan));
  plan.erase("case");
  plan.erase("answer");
  body["plan"] = std::move(plan);
  body["case"] = Json::parse(visit.plan->case_json, nullptr, false);
  Json answer = Json::parse(visit.plan->answer_json, nullptr, false);
  const auto file = wire::decode<wire::CaseFile>(visit.plan->case_json);
  add_paints(answer, file ? file->head.ladder : hair::default_ladder());
  body["answer"] = std::move(answer);
}

}  // namespace

Result<Reply> visits_of_day(Service& service, const Request& request) {
  const process::Moment now = service.now();
  const auto day = request.query.find("day");
  const auto date = day == request.query.end()
                        ? Result<std::chrono::year_month_day>(process::local_date(now))
                        : process::date_from_iso(day->second, "day");
  if (!date) return tl::unexpected(date.error());
  const auto from = start_of(*date, now.offset);
  const auto to = start_of(process::days_later(*date, 1), now.offset);
  const auto book = service.book();
  const auto lines = book.store().visits_between(utc_text(from), utc_text(to));
  if (!lines) return tl::unexpected(lines.error());
  Json body;
  body["visits"] = Json::array();
  for (const book::VisitLine& line : *lines) {
    const auto facts = book.store().facts_of(book::About::visit, line.id);
    if (!facts) return tl::unexpected(facts.error());
    const auto client = book.store().client(line.client);
    if (!client) return tl::unexpected(client.error());
    const book::VisitState visit = book::visit_of(*facts);
    Json one;
    one["id"] = line.id;
    one["client"] = line.client;
    one["name"] = client->name;
    one["starts_at"] = visit.booked.starts_at;
    one["minutes"] = visit.booked.minutes;
    one["stage"] = word_of(line.stage);
    one["chair"] = visit.booked.chair;
    one["wish"] = visit.booked.wish;
    body["visits"].push_back(one);
  }
  return reply(body);
}

Result<Reply> book_visit(Service& service, const Request& request) {
  const auto booking = message_of<book::BookedFact>(request.body);
  if (!booking) return tl::unexpected(booking.error());
  const book::Hand hand = service.hand(request.name);
  const std::string id = book::new_id();
  const book::Fact fact = book::make_fact(book::new_id(), id, hand.at, hand.by, *booking);
  return stored(service, {&fact, 1}, book::About::visit, id, true);
}

Result<Reply> show_visit(Service& service, const Request& request) {
  const auto known = known_of(service, request.parts.at(0));
  if (!known) return tl::unexpected(known.error());
  const book::VisitState visit = book::visit_of(known->facts);
  Json body;
  body["id"] = known->line.id;
  body["client"] = known->line.client;
  body["name"] = known->name;
  body["stage"] = word_of(known->line.stage);
  body["booked"] = Json::parse(wire::encode(visit.booked));
  put_plan(body, visit);
  body["bowls"] = bowls_json(visit);
  body["price"] = visit.price ? Json(*visit.price) : Json();
  body["paid"] = visit.paid;
  body["owed"] = visit.owed();
  body["quote"] = visit.quote ? Json::parse(wire::encode(*visit.quote)) : Json();
  body["aftercare"] = visit.aftercare ? Json::parse(wire::encode(*visit.aftercare)) : Json();
  body["outcomes"] = Json::array();
  for (const auto& [zone, outcome] : visit.outcomes) {
    body["outcomes"].push_back(Json::parse(wire::encode(outcome)));
  }
  body["facts"] = Json::array();
  for (Json& fact : facts_json(known->facts)) {
    if (fact["kind"] == "plan" || fact["kind"] == "lesson") fact["body"] = Json::object();
    body["facts"].push_back(std::move(fact));
  }
  return reply(body);
}

Result<Reply> record_visit(Service& service, const Request& request) {
  return record(service, request, book::About::visit);
}

Result<Reply> plan_visit(Service& service, const Request& request) {
  const auto body = body_of(request, {"case", "course"});
  if (!body) return tl::unexpected(body.error());
  const auto known = known_of(service, request.parts.at(0));
  if (!known) return tl::unexpected(known.error());
  // Without a case it is a choice among the courses of the plan that stands.
  const bool chooses = !body->contains("case");
  auto asked = chooses ? plan_of_visit(service, known->line.id) : asked_of(*body, request);
  if (!asked) return tl::unexpected(asked.error());
  asked->client = known->line.client;
  asked->visit = known->line.id;
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  const wire::PlanAnswer& answer = (*made)->answer;
  const auto most = static_cast<long>(answer.plan.courses.size());
  const auto course = whole_of(*body, "course", std::min(1L, most), 0, most);
  if (!course) return tl::unexpected(course.error());
  const book::Hand hand = service.hand(request.name);
  book::PlanFact plan =
      book::plan_fact(HW_VERSION, (*made)->file, answer, static_cast<std::size_t>(*course));
  if (chooses) plan.case_json = asked->case_text;
  const book::Fact fact =
      book::make_fact(book::new_id(), known->line.id, hand.at, hand.by, std::move(plan));
  const auto kept = stored(service, {&fact, 1}, book::About::visit, known->line.id);
  if (!kept) return kept;
  Json said;
  said["plan"] = plan_json(answer);
  said["facts"] = {fact.id};
  return reply(said);
}

Result<Reply> finish_visit(Service& service, const Request& request) {
  if (const auto body = body_of(request, {}); !body) return tl::unexpected(body.error());
  const auto known = known_of(service, request.parts.at(0));
  if (!known) return tl::unexpected(known.error());
  const std::string& id = known->line.id;
  const book::Hand hand = service.hand(request.name);
  std::vector<book::Fact> made{
      book::make_fact(book::new_id(), id, hand.at, hand.by, book::FinishedFact{})};
  if (book::visit_of(known->facts).plan) {
    std::vector<book::OnShelf> shelf;
    {
      const auto book = service.book();
      auto all = book::shelf_of(book.store());
      if (!all) return tl::unexpected(all.error());
      shelf = *std::move(all);
    }
    const auto lesson = book::lesson_of(known->facts, shelf, service.threads());
    if (!lesson) return tl::unexpected(lesson.error());
    made.push_back(book::make_fact(book::new_id(), id, hand.at, hand.by, *lesson));
  }
  if (auto kept = stored(service, made, book::About::visit, id); !kept) return kept;
  const auto book = service.book();
  const auto learned = book::learned_for(book.store(), known->line.client);
  if (!learned) return tl::unexpected(learned.error());
  Json body;
  body["factors"] = Json::array();
  for (const plan::Factor& factor : learned->factors) {
    if (factor.sentence.empty()) continue;
    body["factors"].push_back({{"name", factor.name}, {"sentence", factor.sentence}});
  }
  return reply(body);
}

Result<Reply> calendar(Service& service, const Request& request) {
  const process::Moment now = service.now();
  const auto client = request.query.find("client");
  const auto book = service.book();
  const auto entries =
      book::agenda_of(book.store(), now, client == request.query.end() ? "" : client->second);
  if (!entries) return tl::unexpected(entries.error());
  Reply made;
  made.type = "text/calendar; charset=utf-8";
  made.body = wire::write_calendar(*entries, now.utc);
  return made;
}

/// ?paper=letter: the other size. ?language=fr: else the client's own.
Result<Reply> sheet(Service& service, const Request& request) {
  const auto kind = sheets::sheet_named(request.parts.at(1));
  if (!kind) return tl::unexpected(kind.error());
  const auto asked = request.query.find("paper");
  const auto paper = sheets::paper_named(asked == request.query.end() ? "a4" : asked->second);
  if (!paper) return tl::unexpected(paper.error());
  std::optional<Language> language;
  if (const auto tag = request.query.find("language"); tag != request.query.end()) {
    const auto named = language_named(tag->second, "language");
    if (!named) return tl::unexpected(named.error());
    language = *named;
  }
  auto papers = Result<sheets::VisitPapers>();
  {
    const auto book = service.book();
    papers = sheets::papers_of(book.store(), request.parts.at(0),
                               process::local_date(service.now()), language);
  }
  if (!papers) return tl::unexpected(papers.error());
  if (auto done = sheets::plan_papers(*papers, service.threads()); !done) {
    return tl::unexpected(done.error());
  }
  const auto document = sheets::sheet_of(*kind, *papers);
  if (!document) return tl::unexpected(document.error());
  auto pdf = sheets::pdf_of(*document, *paper);
  if (!pdf) return tl::unexpected(pdf.error());
  Reply made;
  made.type = "application/pdf";
  made.body = *std::move(pdf);
  made.headers.emplace_back("Content-Disposition",
                            "inline; filename=\"" + request.parts.at(1) + ".pdf\"");
  return made;
}

}  // namespace hw::server
