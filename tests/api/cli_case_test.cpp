// The files that a case names.
#include <gmock/gmock.h>

#include "api/program.h"

namespace hw::test {
namespace {

using testing::HasSubstr;

std::string case_with(const std::string& rest) {
  return R"({"person":{"age_years":30,"consent":"given"},"members":64,"zones":[{"name":"all",)"
         R"("from_cm":0,"to_cm":9,"readings":[{"level":3}],"facts":{"stretch":{"worst":)"
         R"("springs_back","strands":5,"places":3}}}],"shelf":[{"id":"cream","kind":"lightener",)"
         R"("for_scalp":true},{"id":"d6","kind":"developer","peroxide_percent":6},)"
         R"({"id":"rust","kind":"colour","class":"direct","level":6,"tone":"copper"}])" +
         rest + "}";
}

const std::string kColumns = "word,level,sd_level,a,sd_a,b,sd_b,note,grade,source\n";

TEST(CliCase, a_salons_own_looks_stand_in_a_file_of_their_own) {
  const TemporaryFile looks(kColumns + "brick dust,5.5,0.8,15,3,18,3,,guess,own\n");
  const std::string wish = R"(,"looks_file":")" + looks.path() + R"(","target":{"look":)";
  const Ran own = run_program("plan -", case_with(wish + R"("brick dust"})"));
  EXPECT_TRUE(own.exit_code == 0 || own.exit_code == 3) << own.err;
  const Ran usual = run_program("plan -", case_with(wish + R"("mahogany"})"));
  EXPECT_EQ(usual.exit_code, 2);  // the list is the salon's own, whole
  EXPECT_THAT(usual.err, HasSubstr("target: no look is called \"mahogany\"; near it: brick dust"));
}

TEST(CliCase, looks_are_found_from_the_folder_of_the_case) {
  const TemporaryFile looks(kColumns + "brick dust,5.5,0.8,15,3,18,3,,guess,own\n");
  const std::string name = looks.path().substr(looks.path().rfind('/') + 1);
  const TemporaryFile file(
      case_with(R"(,"looks_file":")" + name + R"(","target":{"look":"brick dust"})"));
  const Ran ran = run_program("plan '" + file.path() + "'");
  EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3) << ran.err;
}

TEST(CliCase, a_fault_in_the_looks_names_file_and_row) {
  const TemporaryFile looks(kColumns + "rust,11,0.8,15,3,18,3,,guess,own\n");
  const Ran ran = run_program(
      "plan -", case_with(R"(,"looks_file":")" + looks.path() + R"(","target":{"look":"rust"})"));
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err, "standard input: " + looks.path() +
                         ", row 1: level 11 lies outside 1 to 10; correct the row\n");
  const TemporaryFile none(kColumns);
  EXPECT_THAT(run_program("plan -", case_with(R"(,"looks_file":")" + none.path() +
                                              R"(","target":{"look":"rust"})"))
                  .err,
              HasSubstr("the list holds no look; give a row to each look"));
}

}  // namespace
}  // namespace hw::test
