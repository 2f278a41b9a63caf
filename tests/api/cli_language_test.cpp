// Every report but the plan's, asked in each language: nothing but names stays English.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "program.h"
#include "support/books.h"
#include "support/english_words.h"
#include "support/reference.h"

namespace hw::test {
namespace {

/// Facts are printed as they are stored; their lines begin with a moment.
std::string without_facts(const std::string& text) {
  static const std::regex kFact(
      "  [0-9]{4}-[0-9]{2}-[0-9]{2}T[^\n]*\n(                 [^\n]*\n)*");
  return std::regex_replace(text, kFact, "");
}

class CliLanguage : public testing::Test {
 protected:
  Ran run(const std::string& arguments, const std::string& input = "") {
    return run_program(arguments, input,
                       "HUEWRIGHT_BOOK=" + folder_.path() + "/salon HUEWRIGHT_BY=Ines TZ=UTC");
  }
  std::string id_of(const std::string& arguments, const std::string& input) {
    return nlohmann::json::parse(run(arguments + " --json", input).out)["id"];
  }
  /// Runs it in each language, or in those where it can be done once. names: what people called
  /// things.
  void expect_told(const std::string& arguments, const std::string& input = "",
                   const std::vector<std::string>& names = {},
                   const std::vector<Language>& languages = {Language::es, Language::fr,
                                                             Language::pt}) {
    for (const Language language : languages) {
      const std::string tag(tag_of(language));
      SCOPED_TRACE(tag + ' ' + arguments);
      const Ran ran = run("--language " + tag + ' ' + arguments, input);
      EXPECT_THAT(ran.exit_code, testing::AnyOf(0, 3)) << ran.err;
      EXPECT_THAT(english_left(language, without_facts(ran.out), names), testing::IsEmpty());
      EXPECT_THAT(ran.out, testing::Not(testing::HasSubstr("{")));
    }
  }
  static std::string source(const std::string& path) {
    return std::string(std::getenv("HW_SOURCE_DIR")) + "/" + path;
  }
  FreshFolder folder_;
};

TEST_F(CliLanguage, tells_what_is_reckoned) {
  expect_told("bowl -", kSoapCap);
  expect_told("lift -", lift_request(30));
  expect_told("fade -",
              R"({"start":{"lab":[30,19,16]},"canvas":{"lab":[70,1.5,15]},"class":"permanent",)"
              R"("family":"red","hair":"white","washes":4,"light_h":0,)"
              R"("wash":{"temperature_c":38,"ph":6,"hard":false}})");
  expect_told("deposit -",
              R"({"hair":{"level":5,"strand_um":70},"class":"permanent","colours":[)"
              R"({"level":6,"tone":"copper","grams":30},{"tone":"clear","grams":10}],)"
              R"("developer":{"grams":40,"peroxide_percent":6},"grams_per_gram_hair":2,)"
              R"("minutes":30,"every_min":10,"clean":false,"water_held_g_per_g":0.3,)"
              R"("temperature_c":22.5,"members":64,"seed":1})");
  for (const char* ask :
       {R"({"ask":"difference","pairs":[[[50,2.7,-79.8],[50,0,-82.7]],[[20,3,4],[20,3,4.5]]]})",
        R"({"ask":"screen","lab":[30,19,16],"space":"srgb"})"}) {
    expect_told("colour -", ask);
  }
}

TEST_F(CliLanguage, tells_what_the_book_holds) {
  std::vector<std::string> names;
  const auto shelf = nlohmann::json::parse(test_text("../../cases/shelves/small.json"));
  for (const auto& product : shelf["shelf"]) {
    names.push_back(product.value("words", ""));
    names.push_back(product["id"]);
  }
  expect_told("doctor");
  expect_told("shelf reorder");
  run("shelf load " + source("cases/shelves/small.json"));
  const std::string client = id_of("client add -", R"({"name":"Ana Bell"})");
  expect_told("client find bell", "", {"Ana Bell"});
  expect_told("client find nobody");
  expect_told("client show " + client, "", {"Ana Bell"});
  const std::string visit = id_of(
      "visit book -", R"({"client":")" + client + R"(","starts_at":"2025-05-14T10:00+02:00"})");
  ASSERT_THAT(
      run("visit plan " + visit + ' ' + source("cases/01-coils-to-mahogany.json")).exit_code,
      testing::AnyOf(0, 3));
  ASSERT_EQ(run("visit record " + visit + " -", R"({"facts":[
    {"kind":"pour","body":{"bowl":"1","product":"cream-scalp","grams":59.5}},
    {"kind":"pour","body":{"bowl":"1","product":"dev-3","grams":118}},
    {"kind":"apply","body":{"bowl":"1","zone":"roots"}},
    {"kind":"outcome","body":{"zone":"roots","level":3.6}},
    {"kind":"price","body":{"money":240.5}},
    {"kind":"payment","body":{"money":200,"for":"visit"}}]})")
                .exit_code,
            0);
  expect_told("visit show " + visit, "", names);
  expect_told("visit list " + client);
  expect_told("visit finish " + visit, "", names, {Language::fr});
  expect_told("evidence --from 2020-01-01", "", names);
  expect_told("shelf list", "", names);
  expect_told("shelf count dev-3 100.5", "", names);
  expect_told("backup", "", {}, {Language::pt});
  expect_told("doctor");
  const Ran money = run("--language fr visit show " + visit);
  EXPECT_THAT(money.out, testing::HasSubstr("prix      240,5 ; payé : 200 ; dû : 40,5"));
  const std::string next = id_of(
      "visit book -", R"({"client":")" + client + R"(","starts_at":"2025-06-25T10:00+02:00"})");
  const Ran planned = run("--language es visit plan " + next);
  const std::string told = planned.out.substr(0, planned.out.find("\n\n"));
  EXPECT_THAT(english_left(Language::es, told, names), testing::IsEmpty());
}

}  // namespace
}  // namespace hw::test
