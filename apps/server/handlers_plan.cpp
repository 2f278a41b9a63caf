// Planning: the ways to a colour, and the words and tiles that a head is read and wished with.
#include "handlers.h"
#include "huewright/book/fact.h"
#include "huewright/book/lessons.h"
#include "huewright/book/planning.h"
#include "huewright/hair/tress.h"
#include "huewright/hair/words.h"
#include "huewright/plan/learn.h"
#include "huewright/plan/target.h"
#include "planning.h"

namespace hw::server {
namespace {

/// What of the book a plan rests on.
struct FromBook {
  wire::CaseFile file;
  plan::Learned learned;
};

Result<FromBook> from_book(Service& service, const Asked& asked) {
  auto file = wire::decode<wire::CaseFile>(asked.case_text);
  if (!file) return tl::unexpected(file.error());
  FromBook made{*std::move(file), {}};
  const auto book = service.book();
  if (asked.client.empty()) {
    if (made.file.head.shelf.empty()) {
      const auto shelf = book::shelf_of(book.store());
      if (!shelf) return tl::unexpected(shelf.error());
      book::put_known({}, {}, *shelf, made.file);
    }
    if (auto salon = book::put_salon(book.store(), made.file); !salon) {
      return tl::unexpected(salon.error());
    }
    return made;
  }
  if (!asked.as_stored) {
    if (auto filled = book::fill_case(book.store(), asked.client, made.file); !filled) {
      return tl::unexpected(filled.error());
    }
  }
  auto learned = book::learned_for(book.store(), asked.client, asked.learned_until, asked.visit);
  if (!learned) return tl::unexpected(learned.error());
  made.learned = *std::move(learned);
  return made;
}

/// Natural hair of a depth: the same share of pheomelanin at every depth, as the middle of what a
/// head is believed to hold (plan/belief), and the central surface. Below what that surface lets
/// a strand reach, its floor.
colour::HairLab natural_at(double lstar) {
  constexpr double kPheoShare = 0.045;
  hair::Strand strand;
  const auto melanin =
      hair::melanin_for_lstar(lstar, kPheoShare, strand.strand_um, strand.surface_term);
  constexpr double kBlackest = 5;  // % of hair mass, past which nothing darkens to the eye
  const double percent = melanin.value_or(kBlackest);
  strand.eumelanin_percent = percent * (1 - kPheoShare);
  strand.pheomelanin_percent = percent * kPheoShare;
  return hair::tress_lab(strand);
}

}  // namespace

Result<std::shared_ptr<const Planned>> planned(Service& service, const Asked& asked) {
  auto from = from_book(service, asked);
  if (!from) return tl::unexpected(from.error());
  const auto head = wire::ready(from->file);
  if (!head) return tl::unexpected(head.error());
  const plan::Case learned_head =
      asked.client.empty() ? *head
                           : plan::with_learned(*head, from->learned,
                                                {asked.visit, asked.client,
                                                 std::string(book::kSalonName), asked.reader});
  const std::string key = wire::encode(from->file) + '\n' + asked.client + '\n' + asked.visit +
                          '\n' + asked.reader + '\n' + book::factors_json(from->learned);
  if (auto known = service.plans().find(key)) return known;
  auto plan = plan::plan_head(learned_head, service.threads());
  if (!plan) return tl::unexpected(plan.error());
  auto made = std::make_shared<Planned>();
  made->file = std::move(from->file);
  made->answer.head = learned_head;
  made->answer.plan = *std::move(plan);
  service.plans().keep(key, made);
  return std::shared_ptr<const Planned>(made);
}

Result<Asked> asked_of(const Json& body, const Request& request) {
  Asked asked;
  auto text = object_text(body, "case");
  if (!text) return tl::unexpected(text.error());
  asked.case_text = *std::move(text);
  auto client = text_of(body, "client");
  if (!client) return tl::unexpected(client.error());
  asked.client = *std::move(client);
  asked.reader = request.name;
  return asked;
}

Result<Asked> plan_of_visit(Service& service, const std::string& visit) {
  const auto book = service.book();
  const auto line = book.store().visit(visit);
  if (!line) return tl::unexpected(line.error());
  const auto facts = book.store().facts_of(book::About::visit, visit);
  if (!facts) return tl::unexpected(facts.error());
  book::PlanMade made = book::plan_made(*facts);
  Asked asked{std::move(made.case_json), line->client, visit,
              std::move(made.reader),    true,         std::move(made.at)};
  if (asked.case_text.empty()) {
    return fail(ErrorCode::conflict, "this visit was not planned", "visit", "plan it first");
  }
  return asked;
}

Result<Asked> asked_of(Service& service, const Json& body, const Request& request) {
  if (!body.contains("visit")) return asked_of(body, request);
  const auto visit = text_of(body, "visit");
  if (!visit) return tl::unexpected(visit.error());
  return plan_of_visit(service, *visit);
}

Json plan_json(const wire::PlanAnswer& answer) {
  Json body = Json::parse(wire::encode(answer));
  add_paints(body, answer.head.ladder);
  return body;
}

Result<std::size_t> course_of(const Json& body, const plan::HeadPlan& plan) {
  if (plan.courses.empty()) {
    return fail(ErrorCode::unreachable, "no course is left", "course",
                "see the refusals of the plan");
  }
  const auto course = whole_of(body, "course", 1, 1, static_cast<long>(plan.courses.size()));
  if (!course) return tl::unexpected(course.error());
  return static_cast<std::size_t>(*course) - 1;
}

Result<Reply> plan_head(Service& service, const Request& request) {
  const auto body = body_of(request, {"case", "client", "visit", "why", "reach"});
  if (!body) return tl::unexpected(body.error());
  const auto asked = asked_of(service, *body, request);
  if (!asked) return tl::unexpected(asked.error());
  const auto why = flag_of(*body, "why", false);
  if (!why) return tl::unexpected(why.error());
  const auto reach = flag_of(*body, "reach", false);
  if (!reach) return tl::unexpected(reach.error());
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  if (!*why && !*reach) return reply(plan_json((*made)->answer));
  wire::PlanAnswer answer = (*made)->answer;
  answer.whys = *why;
  if (*reach) {
    const auto found = plan::reach_of(answer.head, plan::default_looks(), service.threads());
    if (!found) return tl::unexpected(found.error());
    answer.reach = *found;
  }
  return reply(plan_json(answer));
}

Result<Reply> looks(Service&, const Request&) {
  const hair::Ladder& ladder = hair::default_ladder();
  Json body;
  body["looks"] = Json::array();
  for (const plan::Look& look : plan::default_looks()) {
    Json one;
    one["name"] = look.word;
    one["words"] = look.note;
    one["level"] = look.level;
    one["spread_levels"] = look.sd_level;
    one["paint"] = paint({ladder.lstar_of(look.level), look.a, look.b}, ladder);
    body["looks"].push_back(one);
  }
  return reply(body);
}

Result<Reply> levels(Service&, const Request&) {
  const hair::Ladder& ladder = hair::default_ladder();
  Json body;
  body["levels"] = Json::array();
  for (int half = 2; half <= 20; ++half) {
    const double level = half / 2.0;
    const colour::HairLab lab = natural_at(ladder.lstar_of(level));
    Json one;
    one["level"] = level;
    one["words"] = hair::describe(lab, ladder).level_name;
    one["paint"] = paint(lab, ladder);
    body["levels"].push_back(one);
  }
  return reply(body);
}

}  // namespace hw::server
