#include <algorithm>
#include <chrono>

#include "huewright/process/tests_record.h"
#include "support/reference.h"

namespace hw::process {
namespace {

const test::Source kSlides{"skin_test_slides", "48 h; 12 weeks; product or shade changed"};

const ColourName kBrown{"cream colour", "soft brown"};
const ColourName kRed{"cream colour", "deep red"};
const ColourName kOil{"oil colour", "soft brown"};

Moment at(const std::string& iso) {
  const auto moment = moment_from_iso(iso);
  EXPECT_TRUE(moment.has_value()) << iso;
  return moment.value_or(Moment{});
}

/// Brown put on at one moment, read clear at another.
TestsRecord clear_test(const std::string& applied, const std::string& read) {
  TestsRecord record;
  record.skin_tests = {{kBrown, at(applied), at(read), SkinTest::clear}};
  return record;
}

std::vector<std::string> against(const TestsRecord& record, const Moment& when,
                                 const ColourMeant& meant = {kBrown},
                                 const RuleSettings& settings = {}) {
  std::vector<std::string> ids;
  for (const Refusal& one : check_skin_tests(record, std::vector{meant}, when, settings)) {
    ids.push_back(one.id);
  }
  return ids;
}

using Ids = std::vector<std::string>;

TEST(ProcessDated, forty_eight_hours_hold_across_clock_changes) {
  const Table table = test::test_table("calendar/skin_test_windows.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string due = *table.text(row, "due");
    TestsRecord record = clear_test(*table.text(row, "applied"), due);
    const Moment visit = hours_later(at(due), 1, at(due).offset);
    EXPECT_EQ(against(record, visit), Ids{}) << due;
    EXPECT_EQ(skin_test_for(record, std::vector<ColourMeant>{{kBrown}}, visit), SkinTest::clear);
    record.skin_tests[0].read->utc -= std::chrono::seconds(1);
    EXPECT_EQ(against(record, visit), Ids{"skin_test_read_early"}) << due;
    const double read_after = hours_between(record.skin_tests[0].applied, at(due));
    EXPECT_PUBLISHED("hours to a reading that counts, " + due, kSlides, 48, read_after, 1e-6);
  }
}

TEST(ProcessDated, an_early_reading_names_its_hours_and_never_the_full_48) {
  TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T09:59:59+02:00");
  const auto list =
      check_skin_tests(record, std::vector<ColourMeant>{{kBrown}}, at("2025-06-05T10:00+02:00"));
  ASSERT_EQ(list.size(), 1U);
  EXPECT_NE(list[0].text.find("after 47.9 hours"), std::string::npos) << list[0].text;
  EXPECT_NE(list[0].text.find("from 48 hours on"), std::string::npos) << list[0].text;
  EXPECT_EQ(list[0].kind, RefusalKind::not_until);
}

TEST(ProcessDated, the_trade_says_24_to_48_hours_and_the_house_takes_48) {
  const TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-03T12:00+02:00");
  EXPECT_EQ(against(record, at("2025-06-05T10:00+02:00")), Ids{"skin_test_read_early"});
  const auto rows = rules();
  const auto early = std::find_if(rows.begin(), rows.end(),
                                  [](const Rule& r) { return r.id == "skin_test_read_early"; });
  ASSERT_NE(early, rows.end());
  EXPECT_EQ(early->limit, 48);
  EXPECT_NE(early->source.find("24 to 48"), std::string::npos);
}

TEST(ProcessDated, a_salon_may_wait_longer_and_test_more_often_never_less) {
  const TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T10:00+02:00");
  const auto longer = tightened({{"skin_test_read_early", 72}, {"skin_test_lapsed", 30}});
  ASSERT_TRUE(longer.has_value());
  const Moment soon = at("2025-06-05T10:00+02:00");
  EXPECT_EQ(against(record, soon, {kBrown}, *longer), Ids{"skin_test_read_early"});
  const auto often = tightened({{"skin_test_lapsed", 30}});
  ASSERT_TRUE(often.has_value());
  EXPECT_EQ(against(record, at("2025-07-04T10:00+02:00"), {kBrown}, *often), Ids{});
  EXPECT_EQ(against(record, at("2025-07-05T10:00+02:00"), {kBrown}, *often),
            Ids{"skin_test_lapsed"});
  EXPECT_FALSE(tightened({{"skin_test_read_early", 24}}).has_value());
  EXPECT_FALSE(tightened({{"skin_test_lapsed", 100}}).has_value());
}

TEST(ProcessDated, twelve_weeks_are_counted_by_date_from_the_last_link_of_the_chain) {
  TestsRecord record = clear_test("2025-01-06T10:00+01:00", "2025-01-08T10:00+01:00");
  EXPECT_EQ(against(record, at("2025-04-02T23:00+02:00")), Ids{});  // 84 days, clocks changed
  EXPECT_EQ(against(record, at("2025-04-03T00:00+02:00")), Ids{"skin_test_lapsed"});
  record.visits = {{at("2025-04-02T10:00+02:00"), {kBrown}}};
  EXPECT_EQ(against(record, at("2025-06-25T10:00+02:00")), Ids{});
  EXPECT_EQ(against(record, at("2025-06-26T10:00+02:00")), Ids{"skin_test_lapsed"});
  EXPECT_PUBLISHED("weeks without colour that still count", kSlides, 12,
                   days_between(local_date(at("2025-04-02T10:00+02:00")),
                                local_date(at("2025-06-25T10:00+02:00"))) /
                       7.0,
                   1e-9);
}

TEST(ProcessDated, a_gap_that_was_coloured_over_without_a_test_is_not_healed_by_the_colour) {
  TestsRecord record = clear_test("2025-01-06T10:00+01:00", "2025-01-08T10:00+01:00");
  record.visits = {{at("2025-05-01T10:00+02:00"), {kBrown}}};
  EXPECT_EQ(against(record, at("2025-05-10T10:00+02:00")), Ids{"skin_test_lapsed"});
}

TEST(ProcessDated, another_product_or_shade_in_between_asks_for_a_new_test) {
  TestsRecord record = clear_test("2025-01-06T10:00+01:00", "2025-01-08T10:00+01:00");
  const Moment later = at("2025-02-20T10:00+01:00");
  EXPECT_EQ(against(record, later, {kRed}), Ids{"skin_test_of_another_colour"});
  EXPECT_EQ(against(record, later, {kOil}), Ids{"skin_test_of_another_colour"});
  record.visits = {{at("2025-02-01T10:00+01:00"), {kRed}}};
  EXPECT_EQ(against(record, later), Ids{"skin_test_colour_changed"});
  record.visits = {{at("2025-02-01T10:00+01:00"), {kRed, kBrown}}};
  EXPECT_EQ(against(record, later), Ids{});
  record.visits = {{at("2025-02-01T10:00+01:00"), {}}};  // a visit without oxidative colour
  EXPECT_EQ(against(record, later), Ids{});
}

TEST(ProcessDated, of_several_reasons_the_strictest_wins) {
  TestsRecord record = clear_test("2025-01-06T10:00+01:00", "2025-01-08T10:00+01:00");
  record.visits = {{at("2025-02-01T10:00+01:00"), {kBrown}}};
  const Moment soon = at("2025-02-20T10:00+01:00");
  EXPECT_EQ(against(record, soon), Ids{});
  EXPECT_EQ(against(record, soon, {kBrown, true}), Ids{"skin_test_each_use"});
  // A second test renews it; the first alone would not do.
  record.skin_tests.push_back(
      {kBrown, at("2025-02-10T10:00+01:00"), at("2025-02-12T10:00+01:00"), SkinTest::clear});
  EXPECT_EQ(against(record, soon, {kBrown, true}), Ids{});
  std::reverse(record.skin_tests.begin(), record.skin_tests.end());
  EXPECT_EQ(against(record, soon, {kBrown, true}), Ids{});
}

TEST(ProcessDated, what_has_not_happened_yet_does_not_count) {
  const TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T10:00+02:00");
  EXPECT_EQ(against(record, at("2025-06-01T10:00+02:00")), Ids{"skin_test_missing"});
  EXPECT_EQ(against(record, at("2025-06-03T10:00+02:00")), Ids{"skin_test_unread"});
  EXPECT_EQ(against(record, at("2025-06-04T10:00+02:00")), Ids{});
}

TEST(ProcessDated, one_reaction_stands_against_every_oxidative_colour_for_good) {
  TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T10:00+02:00");
  record.skin_tests.push_back(
      {kRed, at("2024-06-02T10:00+02:00"), at("2024-06-02T20:00+02:00"), SkinTest::positive});
  const Moment visit = at("2025-06-05T10:00+02:00");
  const std::vector<ColourMeant> shelf{{kBrown}, {kRed}};
  const auto list = check_skin_tests(record, shelf, visit);
  ASSERT_FALSE(list.empty());
  EXPECT_EQ(list.front().id, "skin_test_positive");
  EXPECT_EQ(list.front().kind, RefusalKind::never);
  EXPECT_EQ(skin_test_for(record, shelf, visit), SkinTest::positive);
  EXPECT_TRUE(covered_by_tests(record, shelf, visit).empty());
  EXPECT_TRUE(what_to_test(record, shelf, at("2025-06-04T12:00+02:00"), visit).empty());
}

TEST(ProcessDated, a_clear_test_is_told_to_miss_some_and_never_called_a_clearance) {
  const test::Source paper{"coenraads_2018", "abstract: 38 and 39 of 42 found"};
  const auto rows = rules();
  const auto row = std::find_if(rows.begin(), rows.end(),
                                [](const Rule& r) { return r.id == "skin_test_can_miss"; });
  ASSERT_NE(row, rows.end());
  ASSERT_NE(row->text.find("misses 7 to 10 of 100"), std::string::npos);
  EXPECT_PUBLISHED("allergic people missed at the forearm [%]", paper, 100.0 * (42 - 38) / 42, 10,
                   0.5);
  EXPECT_PUBLISHED("allergic people missed behind the ear [%]", paper, 100.0 * (42 - 39) / 42, 7,
                   0.5);
  EXPECT_EQ(row->text.find("safe"), std::string::npos);
}

TEST(ProcessDated, the_planner_offers_only_what_was_tested) {
  const TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T10:00+02:00");
  const std::vector<ColourMeant> shelf{{kRed}, {kBrown}, {kOil}};
  const Moment visit = at("2025-06-05T10:00+02:00");
  const auto offered = covered_by_tests(record, shelf, visit);
  ASSERT_EQ(offered.size(), 1U);
  EXPECT_EQ(offered[0].colour, kBrown);
  EXPECT_EQ(skin_test_for(record, shelf, visit), SkinTest::not_done);
  EXPECT_EQ(skin_test_for(record, {}, visit), SkinTest::not_done);
  EXPECT_TRUE(check_skin_tests(record, {}, visit).empty());
}

TEST(ProcessDated, says_beforehand_what_to_test_and_until_when) {
  const TestsRecord record = clear_test("2025-03-20T10:00+01:00", "2025-03-22T10:00+01:00");
  const std::vector<ColourMeant> meant{{kRed}, {kBrown}, {kRed}};
  // The clocks change between the test and the visit.
  const Moment visit = at("2025-03-31T10:00+02:00");
  const auto list = what_to_test(record, meant, at("2025-03-29T09:00+01:00"), visit);
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0].colour, kRed);
  EXPECT_EQ(list[0].rule_id, "skin_test_of_another_colour");
  EXPECT_FALSE(list[0].why.empty());
  EXPECT_FALSE(list[0].only_read);
  EXPECT_FALSE(list[0].too_late);
  EXPECT_EQ(list[0].apply_by, at("2025-03-29T09:00+01:00"));
  EXPECT_EQ(list[0].read_from, visit);
  const auto late = what_to_test(record, meant, at("2025-03-29T09:00:01+01:00"), visit);
  ASSERT_EQ(late.size(), 1U);
  EXPECT_TRUE(late[0].too_late);
}

TEST(ProcessDated, a_test_on_the_skin_is_only_to_be_read) {
  TestsRecord record;
  record.skin_tests = {{kBrown, at("2025-06-02T10:00+02:00"), {}, SkinTest::not_done}};
  const std::vector<ColourMeant> meant{{kBrown}};
  const Moment visit = at("2025-06-04T15:00+02:00");
  const auto list = what_to_test(record, meant, at("2025-06-03T10:00+02:00"), visit);
  ASSERT_EQ(list.size(), 1U);
  EXPECT_TRUE(list[0].only_read);
  EXPECT_EQ(list[0].rule_id, "skin_test_unread");
  EXPECT_EQ(list[0].read_from, at("2025-06-04T10:00+02:00"));
  EXPECT_FALSE(list[0].too_late);
  const auto soon =
      what_to_test(record, meant, at("2025-06-03T10:00+02:00"), at("2025-06-04T09:00+02:00"));
  EXPECT_TRUE(soon.at(0).too_late);
  // Forgotten for weeks it is made anew.
  const auto forgotten =
      what_to_test(record, meant, at("2025-07-03T10:00+02:00"), at("2025-07-10T10:00+02:00"));
  ASSERT_EQ(forgotten.size(), 1U);
  EXPECT_FALSE(forgotten[0].only_read);
  EXPECT_EQ(forgotten[0].read_from, at("2025-07-05T10:00+02:00"));
}

TEST(ProcessDated, relaxer_waits_fourteen_days_by_date) {
  TestsRecord record;
  EXPECT_FALSE(days_since_relaxer_or_smoothing(record, at("2025-04-01T10:00+02:00")));
  EXPECT_FALSE(lightener_from(record));
  record.last_relaxer_or_smoothing = std::chrono::year(2025) / 3 / 20;
  EXPECT_EQ(days_since_relaxer_or_smoothing(record, at("2025-04-02T23:59+02:00")), 13);
  EXPECT_EQ(days_since_relaxer_or_smoothing(record, at("2025-04-03T00:00+02:00")), 14);
  EXPECT_FALSE(days_since_relaxer_or_smoothing(record, at("2025-03-19T10:00+01:00")));
  EXPECT_EQ(lightener_from(record), std::chrono::year(2025) / 4 / 3);
  Person person;
  HairFacts hair;
  hair.texture.relaxed_other = true;
  hair.strand_test = StrandTest::passed;
  ApplicationFacts step;
  step.bowl.parts = {{.kind = PartKind::lightener, .grams = Grams(30)},
                     {.kind = PartKind::developer, .grams = Grams(60), .peroxide = Percent(6)}};
  step.mix = *mix_bowl(step.bowl);
  const auto recent = [&](const char* when) {
    hair.texture.days_since_relaxer_or_smoothing =
        days_since_relaxer_or_smoothing(record, at(when));
    const auto list = check_application(person, hair, step);
    return std::any_of(list.begin(), list.end(),
                       [](const auto& r) { return r.id == "recent_relaxer_or_smoothing"; });
  };
  EXPECT_TRUE(recent("2025-04-02T23:59+02:00"));
  EXPECT_FALSE(recent("2025-04-03T00:00+02:00"));
}

TEST(ProcessDated, a_record_that_cannot_be_names_the_place) {
  const auto fault = [](auto change) {
    TestsRecord record = clear_test("2025-06-02T10:00+02:00", "2025-06-04T10:00+02:00");
    record.visits = {{at("2025-06-05T10:00+02:00"), {kBrown}}};
    change(record);
    const auto result = checked(record);
    return result ? std::string("none") : result.error().where;
  };
  EXPECT_EQ(fault([](TestsRecord&) {}), "none");
  EXPECT_EQ(fault([](TestsRecord& r) { r.skin_tests[0].colour.shade.clear(); }),
            "record.skin_tests[0].colour");
  EXPECT_EQ(fault([](TestsRecord& r) { r.skin_tests[0].read = at("2025-06-02T09:59+02:00"); }),
            "record.skin_tests[0].read");
  EXPECT_EQ(fault([](TestsRecord& r) { r.skin_tests[0].read.reset(); }),
            "record.skin_tests[0].result");
  EXPECT_EQ(fault([](TestsRecord& r) { r.skin_tests[0].result = SkinTest::not_done; }),
            "record.skin_tests[0].result");
  EXPECT_EQ(fault([](TestsRecord& r) { r.visits[0].colours[0].product.clear(); }),
            "record.visits[0].colours");
  EXPECT_EQ(
      fault([](TestsRecord& r) { r.last_relaxer_or_smoothing = std::chrono::year(2025) / 2 / 30; }),
      "record.last_relaxer_or_smoothing");
}

}  // namespace
}  // namespace hw::process
