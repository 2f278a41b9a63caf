// Every invented head of cases/ is planned, and the list of them is whole.
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "api/program.h"
#include "support/reference.h"

namespace hw::test {
namespace {

using nlohmann::json;

std::string folder() {
  return std::string(std::getenv("HW_SOURCE_DIR")) + "/cases";
}

/// Names of the case files, in order.
std::vector<std::string> heads() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder())) {
    if (entry.path().extension() == ".json") names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

TEST(CliCases, are_twenty_or_more_and_each_has_its_line_in_the_list) {
  const std::string list = test_text("../../cases/README.md");
  const auto names = heads();
  EXPECT_GE(names.size(), 20u);
  for (const std::string& name : names) {
    EXPECT_THAT(list, testing::HasSubstr("](" + name + ")"));
  }
  for (const auto& shelf : std::filesystem::directory_iterator(folder() + "/shelves")) {
    EXPECT_THAT(list, testing::HasSubstr("](shelves/" + shelf.path().filename().string() + ")"));
  }
}

TEST(CliCases, each_is_planned_or_refused_with_its_reason) {
  for (const std::string& name : heads()) {
    SCOPED_TRACE(name);
    const Ran ran = run_program("plan '" + folder() + "/" + name + "' --json");
    EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3) << ran.exit_code << ' ' << ran.err;
    EXPECT_EQ(ran.err, "");
    const json answer = json::parse(ran.out);
    EXPECT_TRUE(!answer["courses"].empty() || !answer["refusals"].empty());
  }
}

TEST(CliCases, what_must_not_be_done_is_refused_by_its_rule) {
  const auto names = heads();
  for (const auto& [word, rule] :
       {std::pair{"hydroxide-relaxed", "texture_service_without_strand_test"},
        {"henna-suspected", "metal_salts_untested"},
        {"fifteen-years-old", "scalp_lightener_under_age"},
        {"gummy-ends", "wet_stretch_failed"},
        {"black-tattoo", "black_tattoo_reaction"},
        {"consent-withheld", "consent_refused"}}) {
    const auto at = std::find_if(names.begin(), names.end(), [&, key = word](const auto& name) {
      return name.find(key) != std::string::npos;
    });
    ASSERT_NE(at, names.end()) << word;
    const Ran ran = run_program("plan '" + folder() + "/" + *at + "' --json");
    EXPECT_EQ(ran.exit_code, 3) << word;
    EXPECT_THAT(ran.out, testing::HasSubstr(std::string(R"("id":")") + rule + "\"")) << word;
  }
}

TEST(CliCases, shelves_hold_what_their_line_says) {
  const auto colours = [](const char* shelf) {
    const json read = json::parse(test_text(std::string("../../cases/shelves/") + shelf + ".json"));
    return std::count_if(read["shelf"].begin(), read["shelf"].end(),
                         [](const json& product) { return product["kind"] == "colour"; });
  };
  EXPECT_GE(colours("large"), 40);
  EXPECT_LE(colours("large"), 60);
  EXPECT_LE(colours("small"), 10);
  const std::string gentle = test_text("../../cases/shelves/gentle.json");
  EXPECT_THAT(gentle, testing::Not(testing::HasSubstr("\"lightener\"")));
}

}  // namespace
}  // namespace hw::test
