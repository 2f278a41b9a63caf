// What a person reads at a terminal.
#include <gmock/gmock.h>

#include <sstream>

#include "api/program.h"
#include "support/reference.h"

namespace hw::test {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr const char* kClosing =
    "Follow the makers' instructions and local law; the licensed professional\n"
    "decides; do a strand test.\n";

const std::string kAgainstRules =
    R"({"hair":{"level":2,"strand_um":60},"applications":[{"parts":[)"
    R"({"kind":"lightener","grams":30},{"kind":"developer","grams":60,"peroxide_percent":13}],)"
    R"("minutes":50,"on_scalp":true,"covered":true,"water_held_g_per_g":0.3}]})";

std::size_t columns(const std::string& line) {
  std::size_t count = 0;
  for (const char c : line) count += (static_cast<unsigned char>(c) & 0xc0) != 0x80 ? 1 : 0;
  return count;
}

std::string two_bowls() {
  const std::string once =
      R"({"parts":[{"kind":"lightener","grams":30},{"kind":"developer","grams":60,)"
      R"("peroxide_percent":6}],"minutes":45})";
  return R"({"hair":{"level":4,"strand_um":60,"opened":2},"applications":[)" + once + "," + once +
         "]}";
}

/// Every report of these tests, by what was asked.
std::vector<std::string> reports() {
  std::vector<std::string> out;
  for (const auto& [command, request] : std::vector<std::pair<std::string, std::string>>{
           {"bowl", kSoapCap},
           {"lift", lift_request(30)},
           {"lift", lift_request(30, R"(,"members":1)")},
           {"lift", kAgainstRules},
           {"lift", two_bowls()},
           {"colour", R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":10,"values":[0.1]}})"},
           {"colour", R"({"ask":"xyz","spectrum":{"start_nm":380,"step_nm":10,"values":[0.1]},)"
                      R"("illuminant":"A","observer":"2deg"})"},
           {"colour", R"({"ask":"difference","pairs":[[[50,0,0],[51,0,0]],[[50,0,0],[50,3,0]],)"
                      R"([[50,0,0],[53,0,0]],[[50,0,0],[70,0,0]]]})"},
           {"colour", R"({"ask":"tress","eumelanin_percent":0.2,"pheomelanin_percent":0.06,)"
                      R"("strand_um":70,"base":"lifted"})"},
           {"colour", R"({"ask":"screen","lab":[60,75,65],"space":"srgb"})"}}) {
    const Ran ran = run_program(command + " -", request);
    EXPECT_EQ(ran.err, "");
    out.push_back(ran.out);
  }
  return out;
}

TEST(CliReport, nothing_is_called_by_a_word_that_is_not_ours_to_say) {
  for (const std::string& text : reports()) {
    for (const char* word : {"safe", "Safe", "belief", "ensemble", "CIEDE2000", "nan", "\x1b"}) {
      EXPECT_THAT(text, Not(HasSubstr(word)));
    }
  }
}

TEST(CliReport, lines_keep_to_80_columns) {
  for (const std::string& text : reports()) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), 80u) << line;
  }
}

TEST(CliReport, of_a_bowl_shows_parts_mix_and_advice) {
  const std::string out = run_program("bowl -", kSoapCap).out;
  EXPECT_THAT(out, HasSubstr("developer         60 g   40.0 %   6 % peroxide"));
  EXPECT_THAT(out, HasSubstr("150 g, 2.4 % peroxide (8 volume), 20 % lightener"));
  EXPECT_THAT(out, testing::EndsWith(kClosing));
}

TEST(CliReport, of_a_lift_says_words_for_each_colour) {
  const std::string out = run_program("lift -", lift_request(30)).out;
  EXPECT_THAT(out, HasSubstr("level 3.0, dark brown, strand 73 µm"));
  EXPECT_THAT(out, HasSubstr("     0    3.0  3.0–3.0    dark brown, neutral"));
  EXPECT_THAT(out, HasSubstr("orange"));
  EXPECT_THAT(out, HasSubstr("8 times in 10"));
  EXPECT_THAT(out, testing::EndsWith(kClosing));
}

TEST(CliReport, refusals_come_first_with_their_kind_and_source) {
  const Ran ran = run_program("lift -", kAgainstRules);
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, testing::StartsWith("NEVER "));
  EXPECT_THAT(ran.out, HasSubstr("\nCAUTION "));
  EXPECT_THAT(ran.out, HasSubstr("Source: "));
  EXPECT_LT(ran.out.rfind("NEVER "), ran.out.find("CAUTION "));
  EXPECT_LT(ran.out.find("CAUTION "), ran.out.find("Hair "));
  EXPECT_THAT(ran.out, testing::EndsWith(kClosing));
}

TEST(CliReport, one_member_does_not_claim_a_band) {
  EXPECT_THAT(run_program("lift -", lift_request(30, R"(,"members":1)")).out,
              Not(HasSubstr("8 times in 10")));
}

TEST(CliReport, swatches_are_for_terminals_that_can_show_them) {
  const std::string request = lift_request(10);
  const auto on_terminal = [&](const std::string& before) {
    const Ran ran = run_on_terminal("lift -", request, before);
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_THAT(ran.out, HasSubstr("dark brown"));  // words whatever the terminal shows
    return ran.out;
  };
  const std::string code = "\x1b[48;2;";
  EXPECT_THAT(on_terminal("NO_COLOR= COLORTERM=truecolor"), HasSubstr(code));
  EXPECT_THAT(on_terminal("NO_COLOR= COLORTERM=24bit"), HasSubstr(code));
  EXPECT_THAT(on_terminal("NO_COLOR=1 COLORTERM=truecolor"), Not(HasSubstr("\x1b")));
  EXPECT_THAT(on_terminal("NO_COLOR= COLORTERM="), Not(HasSubstr("\x1b")));
  EXPECT_THAT(run_program("lift -", request, "COLORTERM=truecolor").out, Not(HasSubstr("\x1b")));
}

TEST(CliHelp, names_the_schemas_and_exit_codes) {
  const Ran help = run_program("--help");
  EXPECT_EQ(help.exit_code, 0);
  for (const char* word : {"schemas/bowl.schema.json", "schemas/colour.schema.json",
                           "schemas/lift.schema.json", "schemas/case.schema.json", "Exit codes"}) {
    EXPECT_THAT(help.out, HasSubstr(word));
  }
  EXPECT_THAT(run_program("lift --help").out, HasSubstr("schemas/lift.schema.json"));
  EXPECT_THAT(run_program("--version").out, testing::MatchesRegex("huewright [0-9.]+\n"));
}

}  // namespace
}  // namespace hw::test
