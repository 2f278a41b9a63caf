// The lift as a request: what is simulated, what the rows hold, what the rules say of it.
#include <gmock/gmock.h>

#include "huewright/hair/ladder.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"

namespace hw::wire {
namespace {

process::Part part(process::PartKind kind, double grams, double percent = 0) {
  process::Part one;
  one.kind = kind;
  one.grams = Grams(grams);
  if (percent > 0) one.peroxide = Percent(percent);
  return one;
}

LiftApplication one_to_two(double minutes) {
  LiftApplication application;
  application.bowl.parts = {part(process::PartKind::lightener, 30),
                            part(process::PartKind::developer, 60, 6)};
  application.minutes = Minutes(minutes);
  return application;
}

LiftRequest level_three(double minutes) {
  LiftRequest request;
  request.hair.level = 3;
  request.hair.strand = Micrometres(73);
  request.applications = {one_to_two(minutes)};
  request.members = 64;
  return request;
}

LiftAnswer lift(const LiftRequest& request) {
  InlineExecutor here;
  auto said = answer(request, here);
  EXPECT_TRUE(said) << one_line(said.error());
  return *std::move(said);
}

TEST(WireLift, rows_stand_at_each_multiple_and_at_each_end) {
  LiftRequest request = level_three(25);
  request.applications.push_back(one_to_two(10));
  std::vector<std::array<double, 3>> times;
  for (const auto& row : lift(request).series) {
    times.push_back({static_cast<double>(row.application), row.minute, row.minute_total});
  }
  using Time = std::array<double, 3>;
  EXPECT_THAT(times, testing::ElementsAre(Time{1, 0, 0}, Time{1, 10, 10}, Time{1, 20, 20},
                                          Time{1, 25, 25}, Time{2, 10, 35}));
}

TEST(WireLift, the_start_is_exactly_the_hair_that_was_given) {
  LiftRequest request = level_three(10);
  const LiftRow by_level = lift(request).series.front();
  EXPECT_NEAR(by_level.level, 3, 1e-9);
  EXPECT_NEAR(by_level.level_low, by_level.level_high, 1e-9);
  EXPECT_EQ(by_level.melanin_left, 1);
  EXPECT_EQ(by_level.warm, 0);
  EXPECT_EQ(by_level.wear, 0);

  request.hair.level.reset();
  request.hair.lstar = hair::default_ladder().lstar_of(3);
  EXPECT_NEAR(lift(request).series.front().lab[0], *request.hair.lstar, 1e-6);

  request.hair.lstar.reset();
  request.hair.melanin_percent = 1.16;
  hair::Strand strand;  // 5 % of the melanin is pheomelanin
  strand.eumelanin_percent = 1.16 * 0.95;
  strand.pheomelanin_percent = 1.16 * 0.05;
  strand.strand_um = Micrometres(73);
  EXPECT_NEAR(lift(request).series.front().lab[0], hair::tress_lab(strand).l, 1e-9);
}

TEST(WireLift, one_member_has_no_spread_and_is_the_central_one) {
  LiftRequest request = level_three(30);
  request.members = 1;
  const LiftAnswer one = lift(request);
  for (const auto& row : one.series) {
    EXPECT_EQ(row.lstar_low, row.lstar_high);
    EXPECT_NEAR(row.lab[0], row.lstar_low, 1e-12);
  }
  request.seed = 99;  // draws nothing
  EXPECT_EQ(encode(one), encode(lift(request)));
}

TEST(WireLift, a_band_holds_its_mean_and_opens_with_time) {
  const LiftAnswer said = lift(level_three(30));
  const LiftRow& last = said.series.back();
  EXPECT_LT(last.lstar_low, last.lab[0]);
  EXPECT_GT(last.lstar_high, last.lab[0]);
  EXPECT_LT(last.level_low, last.level);
  EXPECT_GT(last.level_high, last.level);
  EXPECT_GT(last.warm, 0);
  EXPECT_LT(last.melanin_left, 1);
  EXPECT_GT(last.wear, 0);
}

TEST(WireLift, threads_do_not_change_a_byte) {
  const auto pool = make_thread_pool(3);
  const auto threaded = answer(level_three(30), *pool);
  ASSERT_TRUE(threaded);
  EXPECT_EQ(encode(*threaded), encode(lift(level_three(30))));
}

TEST(WireLift, each_setting_of_an_application_reaches_the_simulation) {
  const double plain_l = lift(level_three(30)).series.back().lab[0];
  const auto changed = [&](auto change) {
    LiftRequest request = level_three(30);
    change(request.applications[0], request.hair);
    return lift(request).series.back().lab[0];
  };
  EXPECT_LT(changed([](auto& a, auto&) { a.grams_per_gram_hair = 1; }), plain_l);
  EXPECT_GT(changed([](auto& a, auto&) { a.temperature = Celsius(34); }), plain_l);
  EXPECT_GT(changed([](auto& a, auto&) { a.covered = true; }), plain_l);
  EXPECT_LT(changed([](auto& a, auto&) { a.water_held_g_per_g = 0.5; }), plain_l);
  EXPECT_GT(changed([](auto&, auto& hair) { hair.opened = 4; }), plain_l);
  EXPECT_EQ(changed([](auto& a, auto&) { a.bowl.on_scalp = true; }), plain_l);  // rules only
  // Colour makes a developer alkaline as a lightener does; alone it lifts less.
  const auto developer = [](auto& a, auto&) {
    a.bowl.parts = {part(process::PartKind::developer, 60, 6), part(process::PartKind::water, 30)};
  };
  const auto colour = [](auto& a, auto&) {
    a.bowl.parts = {part(process::PartKind::developer, 60, 6), part(process::PartKind::colour, 30)};
  };
  EXPECT_LT(changed(developer), changed(colour));
  EXPECT_LT(changed(colour), plain_l);
}

TEST(WireLift, the_rules_see_the_series_as_a_whole) {
  const auto ids = [](const std::vector<process::Refusal>& list) {
    std::vector<std::string> out;
    for (const auto& one : list) out.push_back(one.id);
    return out;
  };
  LiftRequest request = level_three(25);
  EXPECT_TRUE(lift(request).found.refusals.empty());
  request.applications.push_back(one_to_two(20));  // 45 minutes in all: still allowed
  EXPECT_TRUE(lift(request).found.refusals.empty());
  request.applications[1].minutes = Minutes(20.5);
  EXPECT_THAT(ids(lift(request).found.refusals),
              testing::ElementsAre("lightener_over_total_minutes"));

  request = level_three(20);
  request.applications.push_back(one_to_two(20));
  for (auto& application : request.applications) {
    application.bowl.on_scalp = true;
    application.bowl.parts[0].for_scalp = true;
  }
  EXPECT_THAT(ids(lift(request).found.refusals),
              testing::ElementsAre("second_scalp_lightener_today"));
  // A film warmer than the body is heated.
  request = level_three(20);
  request.applications[0].temperature = Celsius(37);
  EXPECT_TRUE(lift(request).found.refusals.empty());
  request.applications[0].temperature = Celsius(38);
  EXPECT_THAT(ids(lift(request).found.refusals), testing::ElementsAre("heat_on_persulfate"));
}

TEST(WireLift, wear_beyond_the_house_limit_is_refused) {
  LiftRequest request = level_three(45);
  EXPECT_LT(lift(request).series.back().wear, 0.25);
  EXPECT_THAT(lift(request).found.refusals, testing::IsEmpty());
  request.applications[0].bowl.parts[1].peroxide = Percent(18);
  for (int i = 0; i < 4; ++i) request.applications.push_back(request.applications[0]);
  const LiftAnswer worn = lift(request);
  EXPECT_THAT(worn.found.refusals,
              testing::Contains(testing::Field(&process::Refusal::id, "wear_over_limit")));
}

TEST(WireLift, a_report_too_long_to_hold_is_an_error) {
  LiftRequest request = level_three(1440);
  request.every = Minutes(0.1);
  request.members = 1;
  EXPECT_EQ(lift(request).series.size(), 14401u);
  request.members = 8192;
  InlineExecutor here;
  const auto said = answer(request, here);
  ASSERT_FALSE(said);
  EXPECT_EQ(said.error().code, ErrorCode::out_of_range);
  EXPECT_EQ(said.error().where, "every_min");
}

TEST(WireLift, requests_and_answers_come_back_as_they_went_out) {
  const std::string text = encode(level_three(20));
  const auto request = decode<LiftRequest>(text);
  ASSERT_TRUE(request) << one_line(request.error());
  EXPECT_EQ(encode(*request), text);
  const std::string said = encode(lift(*request));
  const auto back = decode<LiftAnswer>(said);
  ASSERT_TRUE(back) << one_line(back.error());
  EXPECT_EQ(encode(*back), said);
}

}  // namespace
}  // namespace hw::wire
