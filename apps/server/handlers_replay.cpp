// A past visit step by step: at the desk under the client, and without any name for teaching.
#include <algorithm>

#include "handlers.h"
#include "huewright/book/replay.h"
#include "huewright/plan/course_chart.h"
#include "planning.h"

namespace hw::server {
namespace {

/// The visit with its plan made again, from memory where it was made just now.
Result<book::ReplaySource> source_of(Service& service, const std::string& visit) {
  auto source = [&] {
    const auto book = service.book();
    return book::replay_source(book.store(), visit);
  }();
  if (!source || book::plan_made(source->facts).case_json.empty()) return source;
  const auto asked = plan_of_visit(service, visit);
  if (!asked) return tl::unexpected(asked.error());
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  source->head = (*made)->answer.head;
  source->plan = (*made)->answer.plan;
  return source;
}

bool is_nameless(const Request& request) {
  const auto at = request.query.find("nameless");
  return at != request.query.end() && at->second == "1";
}

Result<long> whole_query(const Request& request, const char* key, long usual, long low, long high) {
  const auto at = request.query.find(key);
  if (at == request.query.end()) return usual;
  Json number = Json::parse(at->second, nullptr, false);
  Json body;
  body[key] = number.is_discarded() ? Json(at->second) : std::move(number);
  return whole_of(body, key, usual, low, high);
}

/// What tells one visit from another without telling whose it was.
Json nameless_line(const book::VisitLine& line, std::span<const book::Fact> facts) {
  constexpr std::size_t kMonth = 7;  // "2025-05"
  Json checks = 0;
  Json zones = Json::array();
  for (const book::Fact& fact : book::in_force(facts)) {
    if (fact.kind == book::ReadingFact::kKind) {
      checks = checks.get<int>() + (book::body_of<book::ReadingFact>(fact).when == "check" ? 1 : 0);
    }
    if (fact.kind != book::OutcomeFact::kKind) continue;
    const auto outcome = book::body_of<book::OutcomeFact>(fact);
    if (outcome.level) zones.push_back({{"zone", outcome.zone}, {"level", *outcome.level}});
  }
  return {{"id", line.id},
          {"month", line.starts_at.substr(0, kMonth)},
          {"checks", checks},
          {"zones", zones}};
}

}  // namespace

/// ?nameless=1: without names, words that people wrote, and the day.
Result<Reply> replay_of_visit(Service& service, const Request& request) {
  const auto source = source_of(service, request.parts.at(0));
  if (!source) return tl::unexpected(source.error());
  const book::Replay replay = book::replay_of(*source, service.threads());
  Json body = Json::parse(book::replay_json(replay, is_nameless(request)));
  add_paints(body, source->plan ? source->head.ladder : hair::default_ladder());
  return reply(body);
}

/// ?readings=N: as the plan stood after so many looks; ?columns, ?rows, ?section.
Result<Reply> replay_chart(Service& service, const Request& request) {
  constexpr long kMostReadings = 1000, kColumns = 120, kRows = 64, kLeast = 4, kMost = 400;
  const auto count = whole_query(request, "readings", 0, 0, kMostReadings);
  if (!count) return tl::unexpected(count.error());
  const auto columns = whole_query(request, "columns", kColumns, kLeast, kMost);
  if (!columns) return tl::unexpected(columns.error());
  const auto source = source_of(service, request.parts.at(0));
  if (!source) return tl::unexpected(source.error());
  const auto chosen = book::chosen_course(*source);
  if (!chosen) return tl::unexpected(chosen.error());
  const auto rows =
      whole_query(request, "rows", kRows,
                  std::max(kLeast, 2 * static_cast<long>(source->head.zones.size())), kMost);
  if (!rows) return tl::unexpected(rows.error());

  const plan::HeadPlan* stands = &*source->plan;
  std::size_t course = *chosen;
  const auto readings = book::replay_readings(source->facts, static_cast<std::size_t>(*count));
  Result<plan::Replanned> again = tl::unexpected(Error{});
  if (!readings.empty()) {
    again = plan::plan_again(source->head, *source->plan, course, readings, service.threads());
    // A rest that cannot be planned is told with its step; the plan of before stands.
    if (again && !again->plan.courses.empty()) {
      stands = &again->plan;
      course = 0;
    }
  }
  const auto sections = plan::sections_of(source->head);
  const auto asked = request.query.find("section");
  const std::string section = asked == request.query.end() ? sections.front() : asked->second;
  if (std::ranges::find(sections, section) == sections.end()) {
    return fail(ErrorCode::unknown_name, "the head has no such section", "section",
                "give one of the case");
  }
  Json body = day_chart(
      source->head, *stands, stands->courses[course],
      {1, section, static_cast<std::size_t>(*columns), static_cast<std::size_t>(*rows), false},
      service.threads());
  body["sections"] = sections;
  return reply(body);
}

/// The latest visits that can be told step by step, nameless.
Result<Reply> replays(Service& service, const Request&) {
  constexpr std::size_t kMost = 30;
  const auto book = service.book();
  auto lines = book.store().visits_between("0000", "~");
  if (!lines) return tl::unexpected(lines.error());
  Json body;
  body["visits"] = Json::array();
  for (auto line = lines->rbegin(); line != lines->rend(); ++line) {
    if (line->stage != book::VisitStage::finished) continue;
    const auto facts = book.store().facts_but_plans(line->id);
    if (!facts) return tl::unexpected(facts.error());
    Json one = nameless_line(*line, *facts);
    if (one["checks"] == 0) continue;  // nothing was looked at on the way
    body["visits"].push_back(std::move(one));
    if (body["visits"].size() == kMost) break;
  }
  return reply(body);
}

}  // namespace hw::server
