// Exact answers and exit codes of the built program.
#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "api/program.h"
#include "support/reference.h"

namespace hw::test {
namespace {

using nlohmann::ordered_json;

ordered_json answer_to(const std::string& command, const std::string& request, int exit_code = 0) {
  const Ran ran = run_program(command + " - --json", request);
  EXPECT_EQ(ran.exit_code, exit_code) << ran.err;
  EXPECT_EQ(ran.err, "");
  return ordered_json::parse(ran.out);
}

std::vector<std::string> keys_of(const ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

// Mass balance: 60 g of 6 % in 150 g is 2.4 %, 30 g of powder in 150 g is 20 %.
TEST(CliBowl, answers_the_soap_cap_of_the_interface) {
  const Ran ran = run_program("bowl - --json", kSoapCap);
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_EQ(ran.out, R"({"grams":150,"peroxide_percent":2.4,"volume":8,"powder_percent":20,)"
                     R"("refusals":[],"cautions":[]})"
                     "\n");
}

TEST(CliBowl, reads_a_file_as_it_reads_standard_input) {
  const TemporaryFile file(kSoapCap);
  const Ran ran = run_program("bowl '" + file.path() + "' --json");
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_EQ(ran.out, run_program("bowl - --json", kSoapCap).out);
}

TEST(CliBowl, a_refusal_exits_3_and_the_whole_answer_is_printed) {
  const auto answer =
      answer_to("bowl",
                R"({"parts":[{"kind":"lightener","grams":10},{"kind":"developer","grams":90,)"
                R"("peroxide_percent":13.5}],"on_scalp":false})",
                3);
  EXPECT_EQ(answer["peroxide_percent"], 12.15);
  ASSERT_EQ(answer["refusals"].size(), 1u);
  EXPECT_THAT(keys_of(answer["refusals"][0]), testing::ElementsAre("id", "kind", "text", "source"));
  EXPECT_EQ(answer["refusals"][0]["id"], "mix_peroxide_over_limit");
  EXPECT_EQ(answer["refusals"][0]["kind"], "never");
  EXPECT_EQ(answer["cautions"][0]["kind"], "caution");
}

// The 12 % of Regulation (EU) 2019/831 count on the ready mix, so a mix of exactly 12 % passes.
TEST(CliBowl, exactly_12_percent_in_the_mix_is_not_refused) {
  const auto answer =
      answer_to("bowl", R"({"parts":[{"kind":"water","grams":10},{"kind":"developer","grams":90,)"
                        R"("peroxide_percent":13.333333333333334}]})");
  EXPECT_EQ(answer["peroxide_percent"], 12);
  EXPECT_TRUE(answer["refusals"].empty());
}

TEST(CliBowl, on_the_scalp_a_lightener_without_that_label_is_refused) {
  const std::string before = R"({"on_scalp":true,"parts":[{"kind":"lightener","grams":30)";
  const std::string after = R"(},{"kind":"developer","grams":60,"peroxide_percent":6}]})";
  const auto refused = answer_to("bowl", before + after, 3);
  EXPECT_EQ(refused["refusals"][0]["id"], "off_scalp_lightener_on_scalp");
  EXPECT_TRUE(answer_to("bowl", before + R"(,"for_scalp":true)" + after)["refusals"].empty());
}

TEST(CliColour, a_flat_spectrum_has_the_lights_own_white) {
  const auto answer = answer_to(
      "colour", R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":400,"values":[1,1]},)"
                R"("illuminant":"D65","observer":"10deg"})");
  EXPECT_THAT(keys_of(answer), testing::ElementsAre("xyz", "lab"));
  const Source white{"cie015_2018", "white points, D65, 10 degrees"};
  EXPECT_PUBLISHED("colour: X of the D65/10 white", white, 94.81, answer["xyz"][0], 0.005);
  EXPECT_PUBLISHED("colour: Z of the D65/10 white", white, 107.32, answer["xyz"][2], 0.005);
  EXPECT_NEAR(answer["xyz"][1], 100, 1e-9);
  EXPECT_NEAR(answer["lab"][0], 100, 1e-9);
  EXPECT_NEAR(answer["lab"][1], 0, 1e-9);
  EXPECT_NEAR(answer["lab"][2], 0, 1e-9);
}

TEST(CliColour, light_and_observer_may_be_left_out) {
  const std::string spectrum = R"("spectrum":{"start_nm":380,"step_nm":10,"values":[0.1]})";
  EXPECT_EQ(answer_to("colour", R"({"ask":"xyz",)" + spectrum + "}"),
            answer_to("colour", R"({"ask":"xyz",)" + spectrum +
                                    R"(,"illuminant":"D65","observer":"10deg"})"));
}

// A light given as its own samples is the named light: A is a formula (cie015_2018).
TEST(CliColour, a_light_may_be_a_spectrum) {
  std::string power;
  for (int nm = 380; nm <= 780; nm += 5) {
    const double c2 = 1.435e7;  // nm K, as the formula of illuminant A has it
    const double value = 100 * std::pow(560.0 / nm, 5) * std::expm1(c2 / (2848.0 * 560)) /
                         std::expm1(c2 / (2848.0 * nm));
    power += (power.empty() ? "" : ",") + std::to_string(value);
  }
  const std::string ask =
      R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":100,"values":[0.1,0.2,0.4,0.6,0.7]},)";
  const auto own =
      answer_to("colour", ask + R"("illuminant":{"start_nm":380,"step_nm":5,"values":[)" + power +
                              R"(]},"observer":"2deg"})");
  const auto named = answer_to("colour", ask + R"("illuminant":"A","observer":"2deg"})");
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(own["xyz"][i].get<double>(), named["xyz"][i].get<double>(), 1e-4);
  }
  EXPECT_NE(named, answer_to("colour", ask + R"("illuminant":"D65","observer":"2deg"})"));
}

TEST(CliColour, differences_come_one_per_pair_in_the_order_asked) {
  const auto answer =
      answer_to("colour", R"({"ask":"difference","pairs":[)"
                          R"([[50,2.6772,-79.7751],[50,0,-82.7485]],[[50,2.5,0],[73,25,-18]],)"
                          R"([[50,30,40],[50,0,0]]]})");
  EXPECT_THAT(keys_of(answer), testing::ElementsAre("de00", "de76", "de94", "cmc21"));
  const Source sharma{"sharma2005", "table 1"};
  EXPECT_PUBLISHED("colour: pair 1", sharma, 2.0425, answer["de00"][0], 5e-5);
  EXPECT_PUBLISHED("colour: pair 17", sharma, 27.1492, answer["de00"][1], 5e-5);
  EXPECT_NEAR(answer["de76"][2].get<double>(), 50, 1e-12);  // a 3-4-5 triangle, ten times
  EXPECT_NEAR(answer["cmc21"][2].get<double>(), 19.4894, 5e-5);
}

TEST(CliColour, a_tress_with_more_pigment_is_darker_and_bases_differ) {
  const auto tress = [](const std::string& eumelanin, const std::string& rest) {
    return answer_to("colour",
                     R"({"ask":"tress","eumelanin_percent":)" + eumelanin +
                         R"(,"pheomelanin_percent":0.06,"warm_percent":0,"strand_um":70)" + rest +
                         "}");
  };
  const auto dark = tress("1.1", "");
  EXPECT_THAT(keys_of(dark), testing::ElementsAre("lab", "level"));
  const Source tresses{"scanavez_2000", "Table III, readings of one dark brown tress"};
  EXPECT_PUBLISHED_RANGE("colour: L* of 1.1 % eumelanin", tresses, 21.68, 23.75, dark["lab"][0]);
  EXPECT_LT(tress("2", "")["lab"][0], dark["lab"][0]);
  EXPECT_LT(tress("2", "")["level"], dark["level"]);
  const auto bare = tress("0", "");
  EXPECT_EQ(bare, tress("0", R"(,"base":"natural")"));
  const auto lifted = tress("0", R"(,"base":"lifted")");
  const auto white = tress("0", R"(,"base":"white")");
  EXPECT_LT(lifted["lab"][0], bare["lab"][0]);
  EXPECT_LT(white["lab"][0], lifted["lab"][0]);
}

TEST(CliColour, the_labs_white_is_the_screens_white) {
  for (const std::string space : {"srgb", "display-p3"}) {
    const auto white =
        answer_to("colour", R"({"ask":"screen","lab":[100,0,0],"space":")" + space + "\"}");
    EXPECT_THAT(keys_of(white), testing::ElementsAre("rgb", "in_gamut"));
    for (const double channel : white["rgb"]) EXPECT_NEAR(channel, 1, 1e-6);
    EXPECT_EQ(white["in_gamut"], true);
  }
  const std::string vivid = R"({"ask":"screen","lab":[60,75,65],"space":)";
  EXPECT_EQ(answer_to("colour", vivid + R"("srgb"})")["in_gamut"], false);
  EXPECT_EQ(answer_to("colour", vivid + R"("display-p3"})")["in_gamut"], true);
}

TEST(CliLift, answers_with_the_keys_of_the_interface) {
  const auto answer = answer_to("lift", lift_request(25, R"(,"every_min":10)"));
  EXPECT_THAT(keys_of(answer), testing::ElementsAre("series", "bowls", "refusals", "cautions"));
  const auto& series = answer["series"];
  ASSERT_EQ(series.size(), 4u);  // 0, 10, 20, 25
  EXPECT_THAT(keys_of(series[0]),
              testing::ElementsAre("application", "minute", "minute_total", "lab", "level",
                                   "level_low", "level_high", "lstar_low", "lstar_high", "wear",
                                   "melanin_left", "warm"));
  EXPECT_EQ(series[0]["minute"], 0);
  EXPECT_EQ(series[0]["melanin_left"], 1);
  EXPECT_EQ(series[0]["warm"], 0);
  EXPECT_NEAR(series[0]["level"], 3, 1e-9);
  EXPECT_EQ(series[3]["minute"], 25);
  EXPECT_EQ(answer["bowls"].size(), 1u);
  EXPECT_EQ(answer["bowls"][0]["peroxide_percent"], 4);
}

TEST(CliLift, defaults_are_those_of_the_schema) {
  const auto full =
      answer_to("lift", lift_request(12, R"(,"every_min":10,"members":512,"seed":1)"));
  const auto short_one = answer_to(
      "lift", R"({"hair":{"level":3,"strand_um":73},"applications":[{"minutes":12,"parts":[)"
              R"({"kind":"lightener","grams":30},{"kind":"developer","grams":60,)"
              R"("peroxide_percent":6}]}]})");
  EXPECT_EQ(full, short_one);
}

TEST(CliLift, the_same_seed_gives_the_same_bytes_and_another_does_not) {
  const auto once = run_program("lift - --json", lift_request(30, R"(,"seed":7)"));
  EXPECT_EQ(once.out, run_program("lift - --json", lift_request(30, R"(,"seed":7)")).out);
  EXPECT_NE(once.out, run_program("lift - --json", lift_request(30, R"(,"seed":8)")).out);
}

TEST(CliLift, minutes_past_the_maximum_are_simulated_and_refused) {
  const auto answer = answer_to("lift", lift_request(50), 3);
  EXPECT_EQ(answer["series"].back()["minute"], 50);
  ASSERT_EQ(answer["refusals"].size(), 1u);
  EXPECT_EQ(answer["refusals"][0]["id"], "lightener_over_total_minutes");
  EXPECT_EQ(answer_to("lift", lift_request(45))["refusals"].size(), 0u);
}

TEST(CliLift, no_number_is_missing_at_the_ends_of_the_ranges) {
  const std::string before = R"({"every_min":1440,"members":3,"hair":{"strand_um":)";
  const std::string parts = R"(},"applications":[{"minutes":1440,"parts":[)";
  for (const std::string hair :
       {R"(20,"opened":50,"lstar":100)", R"(180,"opened":0.1,"level":1)",
        R"(20,"opened":50,"melanin_percent":1e-300)", R"(180,"melanin_percent":4)"}) {
    for (const std::string bowl :
         {R"({"kind":"water","grams":1}],"grams_per_gram_hair":0.05,"water_held_g_per_g":5)",
          R"({"kind":"developer","grams":10000,"peroxide_percent":100}],"temperature_c":60)",
          R"({"kind":"lightener","grams":1}],"grams_per_gram_hair":20,"temperature_c":0)",
          R"({"kind":"colour","grams":1e-9}],"covered":true)"}) {
      const Ran ran = run_program("lift - --json", before + hair + parts + bowl + "}]}");
      EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3) << hair << bowl << ran.err;
      EXPECT_THAT(ran.out,
                  testing::Not(testing::AnyOf(testing::HasSubstr("nan"), testing::HasSubstr("inf,"),
                                              testing::HasSubstr("null"))));
      for (const auto& row : ordered_json::parse(ran.out)["series"]) {
        EXPECT_GE(row["melanin_left"], 0);
        EXPECT_LE(row["melanin_left"], 1);
        EXPECT_LE(row["wear"], 0.45);
      }
    }
  }
}

TEST(CliSchema, prints_what_the_repository_holds) {
  EXPECT_EQ(run_program("schema lift").out, test_text("../../schemas/lift.schema.json"));
  EXPECT_EQ(run_program("schema").exit_code, 2);
  EXPECT_EQ(run_program("schema hair").exit_code, 2);
}

}  // namespace
}  // namespace hw::test
