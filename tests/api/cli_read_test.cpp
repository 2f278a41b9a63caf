// huewright read and huewright sheet chart, as a person or another program calls them.
#include <gmock/gmock.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "api/program.h"
#include "support/photo_wish.h"
#include "support/reference.h"

namespace hw::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::StartsWith;

const std::string kLine = " --line 0.633,0.1,0.667,0.911 --length 30";

TEST(CliRead, a_photo_gives_zones_with_a_likelihood) {
  const PhotoScene scene = usual_scene();
  const TemporaryFile photo(render(scene));
  const Ran ran = run_program("read '" + photo.path() + "'" + kLine + " --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const json answer = json::parse(ran.out);
  EXPECT_EQ(answer["photo"]["colour_space_assumed"], false);
  EXPECT_EQ(answer["chart"]["kind"], "before-2014");
  EXPECT_LT(answer["chart"]["median_de00"].get<double>(), 2);
  ASSERT_EQ(answer["zones"].size(), 2U);
  EXPECT_NEAR(answer["zones"][1]["from_cm"].get<double>(), 12, 1);
  const auto& zone = answer["zones"][0];
  ASSERT_EQ(zone["reading"]["covariance"].size(), 9U);
  EXPECT_NEAR(zone["reading"]["covariance"][0].get<double>(),
              zone["sd"][0].get<double>() * zone["sd"][0].get<double>(), 1e-9);
  EXPECT_EQ(answer["length_by_chart"], false);
  const Ran page = run_program("read '" + photo.path() + "'" + kLine);
  EXPECT_THAT(page.out, HasSubstr("L* "));
  EXPECT_THAT(page.out, HasSubstr("nine times in ten"));
}

TEST(CliRead, a_zone_s_reading_goes_into_a_case_as_it_is) {
  const TemporaryFile photo(render(usual_scene()));
  const Ran ran = run_program("read '" + photo.path() + "'" + kLine + " --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const json reading = json::parse(ran.out)["zones"][0]["reading"];
  json head = json::parse(test_text("../../cases/02-old-dark-ends.json"));
  head["shelf"] = json::parse(test_text("../../cases/shelves/small.json"))["shelf"];
  head.erase("shelf_file");
  head["members"] = 64;
  head["zones"][0]["readings"] = json::array({reading});
  const TemporaryFile file(head.dump());
  const Ran plan = run_program("plan '" + file.path() + "' --json");
  EXPECT_TRUE(plan.exit_code == 0 || plan.exit_code == 3) << plan.err;
  head["zones"][0]["readings"][0].erase("covariance");
  const TemporaryFile without(head.dump());
  const Ran refused = run_program("plan '" + without.path() + "' --json");
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_THAT(refused.err, HasSubstr("a photo gives lab and covariance"));
}

TEST(CliRead, two_photos_give_the_change) {
  PhotoScene scene = usual_scene();
  const TemporaryFile before(render(scene));
  scene.zones[1].reflectance = strands()[6].reflectance;
  const TemporaryFile after(render(scene));
  const Ran ran =
      run_program("read '" + before.path() + "' '" + after.path() + "'" + kLine + " --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const json answer = json::parse(ran.out);
  EXPECT_EQ(answer["one_light"], true);
  ASSERT_EQ(answer["changes"].size(), 2U);
  EXPECT_GT(answer["changes"][1]["change"][0].get<double>(), 5);
}

TEST(CliRead, without_a_chart_no_digit_is_said_of_the_hair) {
  PhotoScene scene = usual_scene();
  scene.tags = false;
  const TemporaryFile photo(render(scene));
  const Ran ran = run_program("read '" + photo.path() + "' --json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const json answer = json::parse(ran.out);
  EXPECT_FALSE(answer.contains("zones"));
  EXPECT_FALSE(answer.contains("stations"));
  EXPECT_EQ(answer["words"].get<std::string>().find_first_of("0123456789"), std::string::npos);
}

TEST(CliRead, what_can_be_mended_is_one_line_with_the_file_in_front) {
  const TemporaryFile text("no photo");
  const Ran ran = run_program("read '" + text.path() + "'");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, text.path() + ": is no JPEG picture; send a photo as JPEG\n");
  EXPECT_THAT(run_program("read x.jpg --line 0.5,0.5,1").err, StartsWith("--line: an x without"));
  EXPECT_THAT(run_program("read x.jpg --line a,b").err, StartsWith("--line: \"a\" is no number"));
  EXPECT_THAT(run_program("read x.jpg --length 1,2").err, StartsWith("--length: more than one"));
  EXPECT_THAT(run_program("read x.jpg --chart pink").err, HasSubstr("is no kind of chart"));
  EXPECT_THAT(run_program("read").err, HasSubstr("one photo is asked for"));
  EXPECT_THAT(run_program("sheet chart x.pdf").err, HasSubstr("which chart lies in the window"));
  EXPECT_THAT(run_program("sheet chart x.pdf --chart grey --window 9").err,
              HasSubstr("is no window"));
  EXPECT_THAT(run_program("sheet chart x.pdf --chart grey --window 999x9").err,
              HasSubstr("no window that can be made"));
}

TEST(CliRead, the_sheet_is_a_pdf_of_one_page) {
  const std::string path = std::filesystem::temp_directory_path() / "huewright_chart_sheet.pdf";
  for (const std::string window : {"90x60", "160x110"}) {
    const Ran ran = run_program("sheet chart '" + path + "' --chart after-2014 --window " + window);
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_GT(std::filesystem::file_size(path), 2000U);
  }
  std::filesystem::remove(path);
}

}  // namespace
}  // namespace hw::test
