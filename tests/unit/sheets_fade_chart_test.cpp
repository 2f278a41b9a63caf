#include <gtest/gtest.h>

#include <filesystem>

#include "huewright/colour/screen.h"
#include "huewright/sheets/fade_chart_png.h"
#include "support/fade_course.h"
#include "support/read_png.h"

namespace hw::sheets {
namespace {

using test::Picture;
using test::Pixel;

plan::FadeChart chart_of(const plan::FadeCourse& course) {
  InlineExecutor executor;
  return plan::fade_chart(course, 120, 80, hair::default_ladder(), executor);
}

Picture drawn(const plan::FadeCourse& course) {
  const std::string path = testing::TempDir() + "fade_chart_test.png";
  ChartPicture picture;
  picture.title = "Afterwards";
  picture.width = 900;
  picture.height = 540;
  picture.scale = 1;
  const auto written = write_fade_chart_png(chart_of(course), picture, path);
  EXPECT_TRUE(written) << (written ? "" : one_line(written.error()));
  Picture out = test::read_png(path);
  std::filesystem::remove(path);
  return out;
}

/// Pixels of a colour, to one step of each channel.
std::size_t count_of(const Picture& png, const colour::HairLab& lab) {
  const auto rgb = colour::eight_bit(colour::to_screen(lab, colour::ScreenSpace::srgb));
  return static_cast<std::size_t>(
      std::count_if(png.pixels.begin(), png.pixels.end(), [&](const Pixel& p) {
        return std::abs(p.r - rgb[0]) <= 1 && std::abs(p.g - rgb[1]) <= 1 &&
               std::abs(p.b - rgb[2]) <= 1;
      }));
}

TEST(FadeChartPng, paints_the_regrowth_as_a_wedge) {
  const plan::FadeCourse course = test::finished_course();
  const plan::FadeChart chart = chart_of(course);
  const Picture png = drawn(course);
  // Of 3.6 cm after 20 weeks a triangle is seen, of 22 cm: a twelfth of the field.
  const double field = (900.0 - 84 - 232) * (540.0 - 128 - 96);
  const double wedge = field * 3.6 / 22 / 2;
  const auto found = static_cast<double>(count_of(png, chart.grown));
  EXPECT_GT(found, 0.8 * wedge);
  EXPECT_LT(found, 1.1 * wedge + 600);  // and its square in the legend
  plan::FadeCourse still = course;
  still.growth_cm_per_week = 0;
  EXPECT_LT(count_of(drawn(still), chart.grown), 600U);
}

TEST(FadeChartPng, paints_the_finish_at_the_left_and_the_faded_colour_at_the_right) {
  const plan::FadeCourse course = test::finished_course();
  const plan::FadeChart chart = chart_of(course);
  const Picture png = drawn(course);
  const auto like = [](const Pixel& p, const colour::HairLab& lab) {
    const auto rgb = colour::eight_bit(colour::to_screen(lab, colour::ScreenSpace::srgb));
    return std::abs(p.r - rgb[0]) <= 2 && std::abs(p.g - rgb[1]) <= 2 &&
           std::abs(p.b - rgb[2]) <= 2;
  };
  const int y = 128 + 316 * 10 / 22;  // 10 cm
  EXPECT_TRUE(like(png.at(84 + 2, y), plan::faded_at(chart, 0.07, 10)));
  EXPECT_TRUE(like(png.at(900 - 232 - 3, y), plan::faded_at(chart, 19.93, 10)));
}

TEST(FadeChartPng, nothing_is_coloured_but_hair) {
  const Picture png = drawn(test::finished_course());
  EXPECT_TRUE(std::all_of(png.pixels.begin(), png.pixels.end(),
                          [](const Pixel& p) { return p.r >= p.g - 2 && p.g >= p.b - 8; }));
  EXPECT_EQ(png.at(0, 0).r, png.at(0, 0).g);
  EXPECT_EQ(png.at(0, 0).g, png.at(0, 0).b);
}

TEST(FadeChartPng, dates_far_right_and_crowded_are_still_drawn) {
  plan::FadeCourse course = test::finished_course();
  course.finished_on = std::chrono::year_month_day{std::chrono::year{2025}, std::chrono::month{9},
                                                   std::chrono::day{30}};
  course.next_visit_week = 20;
  course.washes_per_week = 14;
  course.weeks = 52;
  course.growth_cm_per_week = 0.4;
  EXPECT_EQ(drawn(course).width, 900);
}

TEST(FadeChartPng, says_which_file_cannot_be_written) {
  const std::string path = testing::TempDir() + "no/such/folder/fade.png";
  const auto written = write_fade_chart_png(chart_of(test::finished_course()), {}, path);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().code, ErrorCode::io);
  EXPECT_EQ(written.error().where, path);
}

}  // namespace
}  // namespace hw::sheets
