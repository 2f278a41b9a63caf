// What is kept of a visit, beside what its plan expected.
#include <gtest/gtest.h>

#include "huewright/book/lessons.h"
#include "huewright/book/planning.h"
#include "support/demo_case.h"

namespace hw::book {
namespace {

constexpr double kMinutes = 30;

wire::CaseFile case_file() {
  wire::CaseFile file;
  file.head = test::plain_head();
  for (process::Product& product : file.head.shelf) product.level = 0;  // as a file leaves it out
  return file;
}

std::vector<OnShelf> on_shelf(const plan::Case& head) {
  std::vector<OnShelf> shelf;
  for (const process::Product& product : head.shelf) {
    OnShelf on;
    on.product.product = product;
    shelf.push_back(on);
  }
  return shelf;
}

/// A plan whose one course has a bowl of so many grams on the roots in each of two visits.
wire::PlanAnswer two_visits(const plan::Case& head, double first_g, double second_g) {
  wire::PlanAnswer answer{head, {}};
  plan::Course course;
  course.visits = 2;
  for (const double grams : {first_g, second_g}) {
    plan::CourseBowl bowl;
    bowl.visit = static_cast<int>(course.bowls.size()) + 1;
    plan::BowlZone zone;
    zone.grams = grams;
    bowl.zones = {zone};
    course.bowls.push_back(bowl);
  }
  answer.plan.courses = {course};
  return answer;
}

TEST(BookLessons, grams_are_those_of_this_visit_by_the_factor_the_case_states) {
  wire::CaseFile file = case_file();
  plan::Case head = file.head;
  EXPECT_DOUBLE_EQ(plan_fact("1", file, two_visits(head, 60, 40), 1).reckoned_g, 60);
  // Planned with what was learned, 1.5 times as much: a visit that uses it teaches the same again.
  head.salon.amount_factor = 1.5;
  EXPECT_DOUBLE_EQ(plan_fact("1", file, two_visits(head, 90, 60), 1).reckoned_g, 60);
  file.head.salon.amount_factor = 1.5;
  EXPECT_DOUBLE_EQ(plan_fact("1", file, two_visits(head, 90, 60), 1).reckoned_g, 90);
}

TEST(BookLessons, hair_that_lifts_as_planned_is_as_fast_as_usual) {
  const wire::CaseFile file = case_file();
  const auto head = wire::ready(file);
  ASSERT_TRUE(head) << one_line(head.error());
  InlineExecutor executor;
  // Half an hour of lightener with 6 %, by grams, as the planner simulates it on both zones.
  const std::vector<std::pair<std::string, double>> pours = {{"cream", 40}, {"d6", 80}};
  std::vector<Fact> facts;
  const auto add = [&](const std::string& at, const auto& body) {
    const std::string id = "f" + std::to_string(facts.size());
    facts.push_back(make_fact(id, "v", "2025-05-14T" + at + ":00Z", "Ines", body));
  };
  BookedFact booked;
  booked.client = "c";
  booked.starts_at = "2025-05-14T09:00Z";
  add("09:00", booked);
  PlanFact plan;
  plan.program = plan.constants = "1";
  plan.case_json = wire::encode(file);
  plan.answer_json = "{}";
  add("09:00", plan);
  for (const auto& [product, grams] : pours) add("09:00", PourFact{"1", product, "", grams});
  process::Application bowl;
  bowl.peroxide_percent = 4;
  bowl.powder_percent = 100.0 / 3;
  bowl.minutes = kMinutes;
  bowl.mix_per_hair = plan::pick_up_of(*head, true);
  bowl.temperature_c = head->room_c;
  const auto planned = plan::plan_head(*head, executor);
  ASSERT_TRUE(planned) << one_line(planned.error());
  for (const plan::ZoneBelief& zone : planned->zones) {
    add("10:00", ApplyFact{"1", zone.name});
    const auto moments = process::simulate_lift(zone.members, {&bowl, 1}, kMinutes, executor);
    std::vector<colour::HairLab> labs(zone.members.size());
    process::lift_colours(zone.members, moments.back(), labs);
    double sum = 0;
    for (const auto& lab : labs) sum += head->ladder.level_of(lab.l);
    ReadingFact reading;
    reading.zone = zone.name;
    reading.when = "check";
    reading.level = sum / static_cast<double>(labs.size());
    reading.seen = "dry";
    add("10:30", reading);
  }
  add("10:30", RinseFact{});
  const auto lesson = lesson_of(facts, on_shelf(*head), executor);
  ASSERT_TRUE(lesson) << one_line(lesson.error());
  ASSERT_EQ(lesson->visits.size(), 1U);
  // Two readings before and two checks; at the scalp the film is warmer, and expected to be.
  ASSERT_EQ(lesson->visits[0].readings.size(), 4U);
  for (const std::size_t i : {2U, 3U}) {
    const plan::FactReading& reading = lesson->visits[0].readings[i];
    EXPECT_NEAR(reading.found_level, reading.expected_level, 0.1) << reading.zone;
  }
}

}  // namespace
}  // namespace hw::book
