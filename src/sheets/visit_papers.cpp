// What a sheet is written from, out of the book.
#include "huewright/book/lessons.h"
#include "huewright/plan/course_chart.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/plan/learn.h"
#include "huewright/sheets/fade_chart_png.h"
#include "huewright/sheets/strand_chart_png.h"
#include "huewright/sheets/visit_sheets.h"

namespace hw::sheets {
namespace {

constexpr std::size_t kPoints = 240;  // columns and rows of a chart

/// Who chose the plan that counts.
Result<void> put_plan(VisitPapers& papers, const plan::Learned& learned, const std::string& reader,
                      Executor& executor) {
  const auto file = wire::decode<wire::CaseFile>(papers.visit.plan->case_json);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  wire::PlanAnswer answer;
  answer.head = plan::with_learned(
      *head, learned,
      {papers.visit.id, papers.visit.client, std::string(book::kSalonName), reader});
  auto plan = plan::plan_head(answer.head, executor);
  if (!plan) return tl::unexpected(plan.error());
  answer.plan = *std::move(plan);
  papers.course = static_cast<std::size_t>(std::max(1.0, papers.visit.plan->course)) - 1;
  papers.plan = std::move(answer);
  return {};
}

Result<void> put_charts(VisitPapers& papers, Executor& executor) {
  const plan::HeadPlan& plan = papers.plan->plan;
  if (papers.course >= plan.courses.size()) return {};
  const plan::Course& course = plan.courses[papers.course];
  const plan::Case& head = papers.plan->head;
  const auto day =
      strand_chart_png(plan::strand_chart(plan::chart_course(head, plan.zones, course, 1), kPoints,
                                          kPoints, head.ladder, executor),
                       {.title = course.name});
  if (!day) return tl::unexpected(day.error());
  papers.day_png = *day;
  const auto weeks = fade_chart_png(plan::fade_chart(plan::fade_course(head, plan.zones, course),
                                                     kPoints, kPoints, head.ladder, executor),
                                    {.title = "Afterwards"});
  if (!weeks) return tl::unexpected(weeks.error());
  papers.weeks_png = *weeks;
  return {};
}

}  // namespace

Result<VisitPapers> papers_of(book::Store& store, const std::string& visit,
                              std::chrono::year_month_day today, Executor& executor) {
  VisitPapers papers;
  papers.today = today;
  const auto line = store.visit(visit);
  if (!line) return tl::unexpected(line.error());
  const auto facts = store.facts_of(book::About::visit, visit);
  if (!facts) return tl::unexpected(facts.error());
  papers.visit = book::visit_of(*facts);
  const auto about = store.facts_of(book::About::client, line->client);
  if (!about) return tl::unexpected(about.error());
  papers.client = book::client_of(*about);
  auto salon = book::salon_of(store);
  if (!salon) return tl::unexpected(salon.error());
  papers.salon = *std::move(salon);
  auto shelf = book::shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  papers.shelf = *std::move(shelf);
  if (!papers.visit.plan) return papers;
  const book::PlanMade made = book::plan_made(*facts);
  const auto learned = book::learned_for(store, line->client, made.at);
  if (!learned) return tl::unexpected(learned.error());
  if (auto done = put_plan(papers, *learned, made.reader, executor); !done) {
    return tl::unexpected(done.error());
  }
  if (auto done = put_charts(papers, executor); !done) return tl::unexpected(done.error());
  return papers;
}

}  // namespace hw::sheets
