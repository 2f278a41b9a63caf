// The strand chart and the result in three lights, as numbers a page paints.
#include <algorithm>

#include "chart_json.h"
#include "handlers.h"
#include "huewright/plan/course_chart.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/plan/result_tiles.h"
#include "planning.h"

namespace hw::server {
namespace {

constexpr long kLeastPoints = 2, kMostPoints = 400;  // across or down

/// How a chart is wanted.
struct Wanted : DayWanted {
  bool weeks = false;
};

Result<Wanted> wanted_of(const Json& body, const plan::Case& head, const plan::Course& course) {
  Wanted wanted;
  const auto kind = text_of(body, "kind", "day");
  if (!kind) return tl::unexpected(kind.error());
  if (*kind != "day" && *kind != "weeks") {
    return fail(ErrorCode::unknown_name, "\"" + *kind + "\" is no chart", "kind",
                "give day or weeks");
  }
  wanted.weeks = *kind == "weeks";
  const auto lifted = flag_of(body, "lifted", false);
  if (!lifted) return tl::unexpected(lifted.error());
  wanted.lifted = *lifted;
  const auto visit = whole_of(body, "day", 1, 1, course.visits);
  if (!visit) return tl::unexpected(visit.error());
  wanted.visit = static_cast<int>(*visit);
  const auto sections = plan::sections_of(head);
  const auto section = text_of(body, "section", sections.front());
  if (!section) return tl::unexpected(section.error());
  wanted.section = section->empty() ? sections.front() : *section;
  if (std::ranges::find(sections, wanted.section) == sections.end()) {
    return fail(ErrorCode::unknown_name, "the head has no section \"" + wanted.section + "\"",
                "section", "give one of the case");
  }
  constexpr long kColumns = 160, kRows = 96;
  const auto columns = whole_of(body, "columns", kColumns, kLeastPoints, kMostPoints);
  if (!columns) return tl::unexpected(columns.error());
  const auto least = std::max(kLeastPoints, 2 * static_cast<long>(head.zones.size()));
  const auto rows = whole_of(body, "rows", kRows, least, kMostPoints);
  if (!rows) return tl::unexpected(rows.error());
  wanted.columns = static_cast<std::size_t>(*columns);
  wanted.rows = static_cast<std::size_t>(*rows);
  return wanted;
}

Json weeks_json(const Planned& made, const plan::Course& course, const Wanted& wanted,
                Executor& threads) {
  const plan::Case& head = made.answer.head;
  const auto chart =
      plan::fade_chart(plan::fade_course(head, made.answer.plan.zones, course, wanted.section),
                       wanted.columns, wanted.rows, head.ladder, threads);
  Json body = chart_json(chart.body, wanted.lifted);
  body["kind"] = "weeks";
  body["weeks"] = chart.course.weeks;
  body["growth_cm_per_week"] = chart.course.growth_cm_per_week;
  body["grown"] = paint(chart.grown, head.ladder);
  body["marks"] = Json::array();
  for (const plan::FadeMark& mark : chart.marks) {
    body["marks"].push_back({{"week", two_decimals(mark.week)},
                             {"words", mark.words},
                             {"when", plan::week_text(chart, mark.week)}});
  }
  body["words"] = plan::text_table(chart, head.ladder);
  return body;
}

Json tile_json(const plan::ResultTile& tile, const hair::Ladder& ladder) {
  Json lights = Json::array();
  for (const colour::HairLab& seen : tile.seen) {
    Json one = paint(seen, ladder);
    one["turns"] = plan::turn_words(tile.seen.front(), seen);
    lights.push_back(one);
  }
  return lights;
}

}  // namespace

Json day_chart(const plan::Case& head, const plan::HeadPlan& plan, const plan::Course& course,
               const DayWanted& wanted, Executor& threads) {
  const auto shown = plan::chart_course(head, plan.zones, course, wanted.visit, wanted.section);
  const auto chart = plan::strand_chart(shown, wanted.columns, wanted.rows, head.ladder, threads);
  Json body = chart_json(chart, wanted.lifted);
  body["kind"] = "day";
  body["marks"] = Json::array();
  body["words"] = plan::text_table(chart, head.ladder);
  return body;
}

Result<Reply> chart(Service& service, const Request& request) {
  const auto body = body_of(request, {"case", "client", "visit", "course", "kind", "day", "section",
                                      "columns", "rows", "lifted"});
  if (!body) return tl::unexpected(body.error());
  const auto asked = asked_of(service, *body, request);
  if (!asked) return tl::unexpected(asked.error());
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  const auto which = course_of(*body, (*made)->answer.plan);
  if (!which) return tl::unexpected(which.error());
  const plan::Course& course = (*made)->answer.plan.courses[*which];
  const auto wanted = wanted_of(*body, (*made)->answer.head, course);
  if (!wanted) return tl::unexpected(wanted.error());
  return reply(wanted->weeks ? weeks_json(**made, course, *wanted, service.threads())
                             : day_chart((*made)->answer.head, (*made)->answer.plan, course,
                                         *wanted, service.threads()));
}

Result<Reply> tiles(Service& service, const Request& request) {
  const auto body = body_of(request, {"case", "client", "visit", "course"});
  if (!body) return tl::unexpected(body.error());
  const auto asked = asked_of(service, *body, request);
  if (!asked) return tl::unexpected(asked.error());
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  const auto which = course_of(*body, (*made)->answer.plan);
  if (!which) return tl::unexpected(which.error());
  const plan::Case& head = (*made)->answer.head;
  Json said;
  said["lights"] = Json::array();
  for (const plan::TileLight& light : plan::tile_lights()) said["lights"].push_back(light.words);
  said["zones"] = Json::array();
  for (const plan::ZoneTiles& zone :
       plan::result_tiles(head, (*made)->answer.plan.zones, (*made)->answer.plan.courses[*which],
                          service.threads())) {
    Json one;
    one["zone"] = zone.zone;
    one["section"] = zone.section;
    one["likely"] = tile_json(zone.likely, head.ladder);
    one["lighter"] = tile_json(zone.lighter, head.ladder);
    one["darker"] = tile_json(zone.darker, head.ladder);
    said["zones"].push_back(one);
  }
  return reply(said);
}

}  // namespace hw::server
