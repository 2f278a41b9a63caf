// Clients: who comes, what is known of them, what follows them for ever.
#include <algorithm>

#include "handler_parts.h"
#include "handlers.h"
#include "huewright/book/ids.h"
#include "huewright/book/planning.h"
#include "huewright/book/transfer.h"
#include "huewright/process/rules.h"
#include "huewright/process/tests_record.h"

namespace hw::server {
namespace {

constexpr std::size_t kMostShown = 50;  // of one search

/// Days by date that a clear test, or a colour after it, covers: rule skin_test_lapsed.
int days_covered() {
  const auto& all = process::rules();
  const auto rule = std::ranges::find(all, "skin_test_lapsed", &process::Rule::id);
  return static_cast<int>(process::RuleSettings{}.limit(*rule));
}

Json client_line(const book::ClientLine& line) {
  Json one;
  one["id"] = line.id;
  one["name"] = line.name;
  one["phone"] = line.phone;
  one["erased"] = line.erased;
  return one;
}

Json blocks_of(const book::ClientState& client) {
  Json blocks = Json::array();
  for (const auto& allergy : client.allergies) {
    Json block;
    block["kind"] = "never";
    block["text"] = allergy.body.to + (allergy.body.substance.empty() ? "" : ": ") +
                    allergy.body.substance + (allergy.body.happened.empty() ? "" : ", ") +
                    allergy.body.happened;
    block["since"] = allergy.at;
    blocks.push_back(block);
  }
  for (const auto& consent : client.consents) {
    if (consent.body.purpose != "service" || consent.body.answer == "given") continue;
    Json block;
    block["kind"] = "never";
    block["text"] = "consent to the service was " + consent.body.answer;
    block["since"] = consent.at;
    blocks.push_back(block);
  }
  for (const auto& test : client.hair_tests) {
    if (test.body.result != "failed") continue;
    Json block;
    block["kind"] = test.body.test == "incompatibility" ? "never" : "caution";
    block["text"] =
        test.body.test + " test failed" + (test.body.zone.empty() ? "" : " on ") + test.body.zone;
    block["since"] = test.at;
    blocks.push_back(block);
  }
  return blocks;
}

/// The last local date on which a shade was put on this client, or none.
std::optional<std::chrono::year_month_day> last_colour(const process::TestsRecord& record,
                                                       const process::ColourName& colour) {
  std::optional<std::chrono::year_month_day> last;
  for (const process::ColourVisit& visit : record.visits) {
    for (const auto& put_on : visit.colours) {
      if (put_on.shade != colour.shade) continue;
      const auto day = process::local_date(visit.when);
      if (!last || *last < day) last = day;
    }
  }
  return last;
}

Json tests_of_client(const book::ClientState& client, const process::TestsRecord& record,
                     const process::Moment& now) {
  Json tests = Json::array();
  for (const auto& test : client.skin_tests) {
    Json one;
    one["what"] = "skin test";
    one["product"] = test.body.product;
    one["shade"] = test.body.shade;
    one["applied_at"] = test.body.applied_at;
    one["read_at"] = test.body.read_at;
    one["result"] = test.body.result;
    one["valid_until"] = "";
    one["state"] = test.body.result == "positive" ? "positive" : "waits";
    if (test.body.result == "clear") {
      const process::ColourName colour{test.body.product, test.body.shade};
      const auto read = process::moment_from_iso(test.body.read_at);
      auto from = process::local_date(*read);
      const auto coloured = last_colour(record, colour);
      if (coloured && from < *coloured) from = *coloured;
      one["valid_until"] = process::iso_text(process::days_later(from, days_covered()));
      const process::ColourMeant meant{colour, false};
      const bool covers = !process::covered_by_tests(record, {&meant, 1}, now).empty();
      one["state"] = covers ? "valid" : "lapsed";
    }
    tests.push_back(one);
  }
  for (const auto& test : client.hair_tests) {
    Json one;
    one["what"] = test.body.test + " test";
    one["zone"] = test.body.zone;
    one["result"] = test.body.result;
    one["read_at"] = test.at;
    one["valid_until"] = "";
    one["state"] = test.body.result == "passed" ? "valid" : "positive";
    tests.push_back(one);
  }
  return tests;
}

/// How a visit came out, scalp to ends: what was read where it was, else what was planned.
Json strip_json(const book::VisitState& visit, const book::Strip& planned) {
  Json strip = Json::array();
  const auto own = hair::make_ladder(planned.ladder_lstar);
  const hair::Ladder& ladder = own ? *own : hair::default_ladder();
  for (const book::StripZone& zone : planned.zones) {
    const auto found = visit.outcomes.find(zone.zone);
    std::optional<std::array<double, 3>> lab = zone.lab;
    if (found != visit.outcomes.end() && found->second.lab) {
      lab = found->second.lab;
    } else if (found != visit.outcomes.end() && found->second.level) {
      if (!lab) lab = {0, 0, 0};
      lab->front() = ladder.lstar_of(*found->second.level);
    }
    if (!lab) continue;
    Json part;
    part["zone"] = zone.zone;
    part["from"] = zone.from;
    part["to"] = zone.to;
    part["paint"] = paint({(*lab)[0], (*lab)[1], (*lab)[2]}, ladder);
    strip.push_back(part);
  }
  return strip;
}

Json visit_json(const book::VisitState& visit, const book::VisitLine& line,
                const book::Strip& planned) {
  Json one;
  one["id"] = line.id;
  one["starts_at"] = visit.booked.starts_at;
  one["stage"] = word_of(line.stage);
  one["wish"] = visit.booked.wish;
  one["price"] = visit.price ? Json(*visit.price) : Json();
  one["owed"] = visit.owed();
  one["strip"] = strip_json(visit, planned);
  return one;
}

/// What of a client is read under the lock, to be written out after it.
struct Known {
  book::ClientLine line;
  std::vector<book::Fact> facts;
  std::vector<book::VisitLine> lines;
  std::vector<book::VisitState> visits;
  std::map<std::string, book::Strip> strips;  ///< by visit
  std::vector<book::OnShelf> shelf;
};

Result<Known> known_of(Service& service, const std::string& id) {
  const auto book = service.book();
  Known known;
  auto line = book.store().client(id);
  if (!line) return tl::unexpected(line.error());
  known.line = *std::move(line);
  auto facts = book.store().facts_of(book::About::client, id);
  if (!facts) return tl::unexpected(facts.error());
  known.facts = *std::move(facts);
  auto lines = book.store().visits_of(id);
  if (!lines) return tl::unexpected(lines.error());
  known.lines = *std::move(lines);
  auto visits = book::visits_but_plans(book.store(), id);
  if (!visits) return tl::unexpected(visits.error());
  known.visits = *std::move(visits);
  auto strips = book.store().strips_of(id);
  if (!strips) return tl::unexpected(strips.error());
  known.strips = *std::move(strips);
  auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  known.shelf = *std::move(shelf);
  return known;
}

}  // namespace

Result<Reply> find_clients(Service& service, const Request& request) {
  const auto typed = request.query.find("find");
  Json body;
  body["clients"] = Json::array();
  const auto book = service.book();
  const auto found =
      book.store().find_clients(typed == request.query.end() ? "" : typed->second, kMostShown);
  if (!found) return tl::unexpected(found.error());
  for (const book::ClientLine& line : *found) body["clients"].push_back(client_line(line));
  return reply(body);
}

Result<Reply> add_client(Service& service, const Request& request) {
  const auto person = message_of<book::PersonFact>(request.body);
  if (!person) return tl::unexpected(person.error());
  const book::Hand hand = service.hand(request.name);
  const std::string id = book::new_id();
  const book::Fact fact = book::make_fact(book::new_id(), id, hand.at, hand.by, *person);
  return stored(service, {&fact, 1}, book::About::client, id, true);
}

Result<Reply> add_card(Service& service, const Request& request) {
  const auto card = message_of<book::CardFile>(request.body);
  if (!card) return tl::unexpected(card.error());
  const std::string id = book::new_id();
  const auto made = book::facts_of_card(*card, id, service.hand(request.name));
  if (!made) return tl::unexpected(made.error());
  auto kept = stored(service, made->facts, book::About::client, id, true);
  if (kept) return kept;
  return tl::unexpected(book::in_input(kept.error(), [&](std::size_t i, const std::string& key) {
    return made->places[i] + (key.empty() ? "" : "." + key);
  }));
}

Result<Reply> show_client(Service& service, const Request& request) {
  auto known = known_of(service, request.parts.at(0));
  if (!known) return tl::unexpected(known.error());
  const book::ClientState client = book::client_of(known->facts);
  Json body = client_line(known->line);
  body["person"] = Json::parse(wire::encode(client.person));
  body["blocks"] = blocks_of(client);
  body["tests"] =
      tests_of_client(client, book::tests_of(client, known->visits, known->shelf), service.now());
  body["consents"] = Json::array();
  for (const auto& consent : client.consents) {
    Json one;
    one["purpose"] = consent.body.purpose;
    one["answer"] = consent.body.answer;
    one["at"] = consent.at;
    body["consents"].push_back(one);
  }
  body["visits"] = Json::array();
  for (std::size_t i = 0; i < known->visits.size(); ++i) {
    body["visits"].push_back(
        visit_json(known->visits[i], known->lines[i], known->strips[known->lines[i].id]));
  }
  body["facts"] = facts_json(known->facts);
  return reply(body);
}

Result<Reply> record_client(Service& service, const Request& request) {
  return record(service, request, book::About::client);
}

Result<Reply> erase_client(Service& service, const Request& request) {
  const auto body = body_of(request, {"reason"});
  if (!body) return tl::unexpected(body.error());
  const auto reason = text_of(*body, "reason");
  if (!reason) return tl::unexpected(reason.error());
  const std::string& id = request.parts.at(0);
  const book::Hand hand = service.hand(request.name);
  const book::Fact fact =
      book::make_fact(book::new_id(), id, hand.at, hand.by, book::ErasedFact{*reason});
  {
    const auto book = service.book();
    if (auto gone = book::erase_with_photos(book.folder, id, fact); !gone) {
      return tl::unexpected(gone.error());
    }
  }
  service.tell({"client", id});
  return reply(Json{{"erased", true}});
}

Result<Reply> next_of_client(Service& service, const Request& request) {
  const auto asked = request.query.find("at");
  auto at = asked == request.query.end() ? Result<process::Moment>(service.now())
                                         : process::moment_from_iso(asked->second, "at");
  if (!at) return tl::unexpected(at.error());
  const auto book = service.book();
  const auto next = book::next_case_of(book.store(), request.parts.at(0), *at);
  if (!next) {
    Error error = next.error();
    // That nothing was planned yet is a state of the book, not a fault of the request.
    if (error.code == ErrorCode::missing) error.code = ErrorCode::conflict;
    return tl::unexpected(error);
  }
  Json body;
  body["case"] = Json::parse(wire::encode(next->file));
  body["told"] = next->told;
  return reply(body);
}

Result<Reply> export_client(Service& service, const Request& request) {
  const auto known = known_of(service, request.parts.at(0));
  if (!known) return tl::unexpected(known.error());
  Json body;
  body["format"] = "huewright book";
  body["version"] = book::kExportVersion;
  body["facts"] = facts_json(known->facts);
  for (const book::VisitLine& line : known->lines) {
    const auto book = service.book();
    const auto facts = book.store().facts_of(book::About::visit, line.id);
    if (!facts) return tl::unexpected(facts.error());
    for (Json& fact : facts_json(*facts)) body["facts"].push_back(std::move(fact));
  }
  Reply made = reply(body);
  made.headers.emplace_back("Content-Disposition", "attachment; filename=\"client.json\"");
  return made;
}

}  // namespace hw::server
