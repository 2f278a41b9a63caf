#include "huewright/wire/fade.h"

#include "huewright/wire/json.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

FadeRequest asked(const std::string& rest) {
  const auto request = decode<FadeRequest>(
      R"({"start":{"lab":[30,18.7,16.2]},"class":"permanent","family":"red","hair":"white",)" +
      rest + "}");
  EXPECT_TRUE(request.has_value()) << one_line(request.error());
  return *request;
}

TEST(WireFade, meets_the_published_differences_from_a_finished_colour) {
  const auto washed = answer(asked(R"("washes":4)"));
  ASSERT_TRUE(washed);
  EXPECT_PUBLISHED("fade command: auburn on white hair, 4 washes [CIE76]",
                   {"photofilters_2005", "p. 416"}, 3.6, washed->series.back().de76, 0.7);
  const auto lit = answer(asked(R"("washes":4,"light_h":32)"));
  ASSERT_TRUE(lit);
  // Printed without a spread; ±15 % is what the scan's digits and one dye allow.
  EXPECT_PUBLISHED("fade command: 32 h light and 4 washes [CIE76]",
                   {"photofilters_2005", "p. 416"}, 10.7, lit->series.back().de76, 1.6);
}

TEST(WireFade, starts_at_the_start_and_has_a_row_for_every_wash) {
  const auto answered = answer(asked(R"("washes":12,"canvas":{"lab":[60,6,22]},"light_h":24,
      "wash":{"temperature_c":30,"ph":5.5,"hard":true})"));
  ASSERT_TRUE(answered);
  ASSERT_EQ(answered->series.size(), 13u);
  const FadeRow& first = answered->series.front();
  EXPECT_EQ(first.dye_left, 1);
  EXPECT_NEAR(first.lab[0], 30, 1e-9);
  EXPECT_NEAR(first.de76, 0, 1e-9);
  double before = 1.001;
  for (const FadeRow& row : answered->series) {
    EXPECT_LT(row.dye_left, before);
    EXPECT_LE(row.dye_left_low, row.dye_left);
    EXPECT_GE(row.dye_left_high, row.dye_left);
    before = row.dye_left;
  }
}

TEST(WireFade, is_written_with_the_keys_of_its_interface) {
  const auto answered = answer(asked(R"("washes":0)"));
  ASSERT_TRUE(answered);
  EXPECT_EQ(encode(*answered),
            R"({"series":[{"wash":0,"dye_left":1,"dye_left_low":1,"dye_left_high":1,)"
            R"("lab":[30,18.7,16.2],"de00":0,"de76":0}]})");
}

TEST(WireFade, states_of_hair_have_their_own_canvas) {
  double before = -1;
  for (const auto hair : {process::HairState::virgin, process::HairState::white}) {
    FadeRequest request = asked(R"("washes":200)");
    request.hair = hair;
    request.dye_class = process::DyeClass::direct;
    const double lstar = answer(request)->series.back().lab[0];
    EXPECT_GT(lstar, before);
    before = lstar;
  }
}

}  // namespace
}  // namespace hw::wire
