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

Result<void> put_plan(VisitPapers& papers, Executor& executor) {
  const auto file = wire::decode<wire::CaseFile>(papers.visit.plan->case_json);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  wire::PlanAnswer answer;
  answer.head = plan::with_learned(
      *head, papers.learned,
      {papers.visit.id, papers.visit.client, std::string(book::kSalonName), papers.planner});
  auto plan = plan::plan_head(answer.head, executor);
  if (!plan) return tl::unexpected(plan.error());
  answer.plan = *std::move(plan);
  papers.course = static_cast<std::size_t>(std::max(1.0, papers.visit.plan->course)) - 1;
  papers.plan = std::move(answer);
  return {};
}

/// The names on a chart, in the language of the papers.
plan::ChartCourse retold_course(plan::ChartCourse course, Language language) {
  for (plan::ChartZone& zone : course.zones) zone.name = retold(language, zone.name);
  for (plan::ChartPhase& phase : course.phases) phase.label = retold(language, phase.label);
  return course;
}
plan::FadeCourse retold_course(plan::FadeCourse course, Language language) {
  for (plan::ChartZone& zone : course.zones) zone.name = retold(language, zone.name);
  return course;
}

Result<void> put_charts(VisitPapers& papers, Executor& executor) {
  const plan::HeadPlan& plan = papers.plan->plan;
  if (papers.course >= plan.courses.size()) return {};
  const plan::Course& course = plan.courses[papers.course];
  const plan::Case& head = papers.plan->head;
  const auto day = strand_chart_png(
      plan::strand_chart(
          retold_course(plan::chart_course(head, plan.zones, course, 1), papers.language), kPoints,
          kPoints, head.ladder, executor),
      {.title = retold(papers.language, course.name), .language = papers.language});
  if (!day) return tl::unexpected(day.error());
  papers.day_png = *day;
  const auto weeks = fade_chart_png(
      plan::fade_chart(retold_course(plan::fade_course(head, plan.zones, course), papers.language),
                       kPoints, kPoints, head.ladder, executor),
      {.title = std::string(said(papers.language, "Afterwards")), .language = papers.language});
  if (!weeks) return tl::unexpected(weeks.error());
  papers.weeks_png = *weeks;
  return {};
}

}  // namespace

Result<VisitPapers> papers_of(book::Store& store, const std::string& visit,
                              std::chrono::year_month_day today, std::optional<Language> language) {
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
  if (!language) language = language_of(papers.client.person.language);
  papers.language = language.value_or(Language::en);
  auto salon = book::salon_of(store);
  if (!salon) return tl::unexpected(salon.error());
  papers.salon = *std::move(salon);
  auto shelf = book::shelf_of(store);
  if (!shelf) return tl::unexpected(shelf.error());
  papers.shelf = *std::move(shelf);
  if (!papers.visit.plan) return papers;
  const book::PlanMade made = book::plan_made(*facts);
  auto learned = book::learned_for(store, line->client, made.at, line->id);
  if (!learned) return tl::unexpected(learned.error());
  papers.learned = *std::move(learned);
  papers.planner = made.reader;
  return papers;
}

Result<void> plan_papers(VisitPapers& papers, Executor& executor) {
  if (!papers.visit.plan) return {};
  if (auto done = put_plan(papers, executor); !done) return done;
  return put_charts(papers, executor);
}

}  // namespace hw::sheets
