// Requests and answers of bowl and colour, through the library.
#include <gmock/gmock.h>

#include "huewright/wire/bowl.h"
#include "huewright/wire/colour.h"
#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

TEST(WireBowl, requests_come_back_as_they_went_out) {
  const std::string text =
      R"({"parts":[{"kind":"lightener","grams":30,"for_scalp":true},)"
      R"({"kind":"developer","grams":60.5,"peroxide_percent":6,"for_scalp":false}],)"
      R"("on_scalp":true})";
  const auto request = decode<BowlRequest>(text);
  ASSERT_TRUE(request) << one_line(request.error());
  EXPECT_EQ(encode(*request), text);
}

TEST(WireBowl, answers_can_be_read_again) {
  BowlRequest request;
  request.bowl.parts = {
      {.kind = process::PartKind::lightener, .grams = Grams(30)},
      {.kind = process::PartKind::developer, .grams = Grams(60), .peroxide = Percent(13)}};
  request.bowl.on_scalp = true;
  const auto said = answer(request);
  ASSERT_TRUE(said);
  ASSERT_FALSE(said->found.refusals.empty());
  ASSERT_FALSE(said->found.cautions.empty());
  const auto back = decode<BowlAnswer>(encode(*said));
  ASSERT_TRUE(back) << one_line(back.error());
  EXPECT_EQ(back->peroxide_percent, said->peroxide_percent);
  EXPECT_EQ(back->found.refusals, said->found.refusals);
  EXPECT_EQ(back->found.cautions, said->found.cautions);
}

TEST(WireBowl, findings_are_parted_by_kind_in_their_order) {
  const process::Refusal never{"a", process::RefusalKind::never, "t", "s"};
  const process::Refusal not_until{"b", process::RefusalKind::not_until, "t", "s"};
  const process::Refusal caution{"c", process::RefusalKind::caution, "t", "s"};
  const Findings found = parted({never, caution, not_until});
  EXPECT_THAT(found.refusals, testing::ElementsAre(never, not_until));
  EXPECT_THAT(found.cautions, testing::ElementsAre(caution));
}

TEST(WireBowl, errors_are_placed_below_where_the_bowl_stands) {
  BowlRequest request;
  request.bowl.parts = {{.kind = process::PartKind::developer, .grams = Grams(60)}};
  EXPECT_EQ(answer(request, "bowls[2]").error().where, "bowls[2].parts[0].peroxide_percent");
}

TEST(WireColour, each_question_comes_back_as_it_went_out) {
  for (const std::string text :
       {R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":10,"values":[0.1,0.2]},)"
        R"("illuminant":"LED-B3","observer":"2deg"})",
        R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":10,"values":[0.1]},)"
        R"("illuminant":{"start_nm":400,"step_nm":50,"values":[1,2,3]},"observer":"10deg"})",
        R"({"ask":"difference","pairs":[[[50,1,2],[51,-1,-2]],[[0,0,0],[100,0,0]]]})",
        R"({"ask":"tress","eumelanin_percent":1.1,"pheomelanin_percent":0.06,"warm_percent":0.5,)"
        R"("strand_um":70,"base":"lifted"})",
        R"({"ask":"screen","lab":[50,-10,10],"space":"display-p3"})"}) {
    const auto request = decode<ColourRequest>(text);
    ASSERT_TRUE(request) << one_line(request.error());
    EXPECT_EQ(encode(*request), text);
  }
}

// A single sample is held to both ends, as the end samples of any spectrum are.
TEST(WireColour, one_sample_is_a_flat_spectrum) {
  XyzAsk one;
  one.spectrum = {380, 10, {0.25}};
  XyzAsk many;
  many.spectrum = {380, 100, {0.25, 0.25, 0.25, 0.25, 0.25}};
  const auto a = std::get<XyzAnswer>(*answer(ColourRequest(one)));
  const auto b = std::get<XyzAnswer>(*answer(ColourRequest(many)));
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(a.xyz[i], b.xyz[i], 1e-12);
  EXPECT_NEAR(a.xyz[1], 25, 1e-12);
}

TEST(WireColour, a_lamp_whose_power_is_lost_in_rounding_is_an_error) {
  XyzAsk ask;
  ask.spectrum = {380, 100, {0.5, 0.5}};
  ask.own_light = true;
  ask.light = {380, 100, {5e-324, 5e-324, 5e-324, 5e-324, 5e-324}};
  const auto said = answer(ColourRequest(ask));
  if (said) {
    EXPECT_NEAR(std::get<XyzAnswer>(*said).xyz[1], 50, 1e-6);
  } else {
    EXPECT_EQ(said.error().where, "illuminant.values");
  }
}

}  // namespace
}  // namespace hw::wire
