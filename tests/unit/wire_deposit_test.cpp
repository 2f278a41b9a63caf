// The colour bowl as a request: hair, shades, developer, rows, rules and faults.
#include <gmock/gmock.h>

#include <cmath>

#include "huewright/hair/ladder.h"
#include "huewright/wire/deposit.h"
#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

DepositRequest asked(const std::string& hair, const std::string& rest) {
  const auto request =
      decode<DepositRequest>(R"({"hair":{"strand_um":70,)" + hair + "}," + rest + "}");
  EXPECT_TRUE(request) << one_line(request.error());
  return *request;
}

const std::string kDemi =
    R"("class":"demi","colours":[{"level":6,"tone":"copper","grams":40}],
       "developer":{"grams":60,"peroxide_percent":1.9},"minutes":22)";

DepositAnswer deposit(const DepositRequest& request) {
  InlineExecutor here;
  auto said = answer(request, here);
  EXPECT_TRUE(said) << one_line(said.error());
  return *std::move(said);
}

std::string fault(const DepositRequest& request) {
  InlineExecutor here;
  const auto said = answer(request, here);
  EXPECT_FALSE(said);
  return said ? "" : one_line(said.error());
}

TEST(WireDeposit, rows_stand_at_each_multiple_and_at_the_end) {
  const auto said = deposit(asked(R"("level":8)", kDemi + R"(,"every_min":10,"members":32)"));
  std::vector<double> minutes;
  for (const DepositRow& row : said.series) minutes.push_back(row.minute);
  EXPECT_THAT(minutes, testing::ElementsAre(0, 10, 20, 22));
  EXPECT_NEAR(said.series.front().level, 8, 1e-9);
  EXPECT_EQ(said.series.front().taken, 0);
  double before = 9;
  for (const DepositRow& row : said.series) {
    EXPECT_LT(row.level, before);
    EXPECT_LE(row.level_low, row.level + 0.2);
    EXPECT_GE(row.level_high, row.level - 0.2);
    EXPECT_LE(row.lab_low[0], row.lab_high[0]);
    before = row.level;
  }
  EXPECT_THAT(said.series.back().words, testing::HasSubstr("copper tone"));
  EXPECT_THAT(said.series.back().words, testing::Not(testing::HasSubstr("underlying")));
}

TEST(WireDeposit, the_bowl_is_the_mass_balance_of_its_parts) {
  const auto said = deposit(asked(R"("level":5)", kDemi));
  EXPECT_NEAR(said.bowl.grams, 100, 1e-9);
  EXPECT_NEAR(said.bowl.peroxide_percent, 1.14, 1e-9);
}

TEST(WireDeposit, a_canvas_given_as_a_colour_starts_there) {
  for (const Triple& lab : {Triple{41, 14.5, 27.3}, Triple{70, 1.5, 15}, Triple{30, 22, 15},
                            Triple{25, 5.5, 8}, Triple{45, 12, 2}}) {
    DepositRequest request = asked(R"("level":5)", kDemi + R"(,"members":16)");
    request.hair.level.reset();
    request.hair.lab = lab;
    const auto said = deposit(request);
    for (std::size_t i = 0; i < 3; ++i) {
      EXPECT_NEAR(said.series.front().lab[i], lab[i], 1) << lab[0] << " " << i;
    }
    EXPECT_NEAR(said.series.front().lab_low[0], said.series.front().lab_high[0], 1e-6);
  }
}

TEST(WireDeposit, a_swatch_stands_for_its_shade) {
  const std::string rest =
      R"("class":"direct","minutes":25,"members":64,"colours":[{"grams":50,"words":"own blend",
         "swatch":{"lab":[38,24,14],"ingredients":["Aqua","HC Red No. 3","HC Yellow No. 2",
         "HC Blue No. 2"]}}])";
  // On hair like the maker's swatches, with the label's minutes, the swatch comes out again.
  DepositRequest request = asked(R"("lab":[70,1.5,15],"opened":2.14,"wear":0.16)", rest);
  const auto said = deposit(request);
  EXPECT_NEAR(said.series.back().lab[0], 38, 1.5);
  EXPECT_NEAR(said.series.back().lab[1], 24, 2);
  EXPECT_NEAR(said.series.back().lab[2], 14, 2);
  // It is surer than words of the same depth are.
  request.colours[0].swatch.reset();
  request.colours[0].level = said.series.back().level;
  request.colours[0].tone = "red";
  const auto by_words = deposit(request);
  EXPECT_LT(said.series.back().level_high - said.series.back().level_low,
            0.7 * (by_words.series.back().level_high - by_words.series.back().level_low));
}

TEST(WireDeposit, one_member_has_no_doubt_and_many_have) {
  const auto one = deposit(asked(R"("level":7)", kDemi + R"(,"members":1)"));
  EXPECT_EQ(one.series.back().level_low, one.series.back().level_high);
  const auto many = deposit(asked(R"("level":7)", kDemi));
  EXPECT_LT(many.series.back().level_low, many.series.back().level_high - 0.3);
  EXPECT_NEAR(many.series.back().level, one.series.back().level, 0.6);
}

TEST(WireDeposit, same_answer_at_any_number_of_threads) {
  const DepositRequest request = asked(R"("level":4)", kDemi + R"(,"members":200)");
  const auto pool = make_thread_pool(3);
  InlineExecutor here;
  EXPECT_EQ(encode(*answer(request, here)), encode(*answer(request, *pool)));
}

TEST(WireDeposit, rules_about_the_mix_and_the_fibre_are_raised) {
  DepositRequest strong =
      asked(R"("level":4,"wear":0.39)",
            R"("class":"permanent","colours":[{"level":8,"grams":10}],"members":32,
         "developer":{"grams":90,"peroxide_percent":14},"minutes":45)");
  std::vector<std::string> ids;
  for (const auto& one : deposit(strong).found.refusals) ids.push_back(one.id);
  EXPECT_THAT(ids, testing::Contains("mix_peroxide_over_limit"));
  EXPECT_THAT(ids, testing::Contains("wear_over_limit"));
}

TEST(WireDeposit, faults_name_their_place_and_the_way_out) {
  DepositRequest request = asked(R"("level":5)", kDemi);
  request.developer.reset();
  EXPECT_EQ(fault(request),
            "developer: demi colour forms with a developer; give its grams and peroxide_percent");
  request = asked(R"("level":5)", kDemi);
  request.dye_class = process::DyeClass::direct;
  EXPECT_THAT(fault(request), testing::StartsWith("developer: direct colour takes no developer; "));
  request = asked(R"("level":5)", kDemi);
  request.colours[0].level.reset();
  EXPECT_THAT(fault(request),
              testing::StartsWith("colours[0]: a shade needs its level or a swatch"));
  request.colours[0].level = 5;
  request.colours[0].swatch = SwatchGiven{{30, 10, 10}, {}, {}};
  EXPECT_THAT(fault(request), testing::StartsWith("colours[0]: level and swatch exclude"));
  request.colours[0].level.reset();
  request.colours[0].swatch = SwatchGiven{{60, 10, -60}, {}, {"HC Yellow No. 2"}};
  EXPECT_THAT(fault(request), testing::StartsWith("colours[0].swatch: no mix of the label's dyes"));
  request = asked(R"("level":5)", kDemi);
  request.hair.level.reset();
  request.hair.lab = Triple{50, -60, 60};
  EXPECT_THAT(fault(request), testing::StartsWith("hair.lab: no strand reads Lab 50.0, -60.0"));
  request.hair.lab.reset();
  request.hair.lstar = 5;
  EXPECT_THAT(fault(request), testing::StartsWith("hair.lstar: L* 5.00 is outside"));
  request = asked(R"("level":5)", kDemi + R"(,"every_min":0.1,"members":8192)");
  EXPECT_THAT(fault(request), testing::StartsWith("every_min: 221 rows for 8192 members"));
}

TEST(WireDeposit, white_share_and_clear_lighten_what_comes_out) {
  DepositRequest request = asked(R"("level":4)", kDemi + R"(,"members":16)");
  const double plain = deposit(request).series.back().lab[0];
  request.hair.white_percent = 40;
  EXPECT_GT(deposit(request).series.back().lab[0], plain + 1);
  request.hair.white_percent = 0;
  request.hair.level = 8;
  const double undiluted = deposit(request).series.back().lab[0];
  ColourGiven clear;
  clear.grams = 40;
  clear.tone = "clear";
  request.colours.push_back(clear);
  request.developer->grams = 120;
  EXPECT_GT(deposit(request).series.back().lab[0], undiluted + 1);
}

}  // namespace
}  // namespace hw::wire
