#include <algorithm>
#include <cstdint>
#include <filesystem>

#include "huewright/colour/screen.h"
#include "huewright/sheets/strand_chart_png.h"
#include "support/read_png.h"
#include "support/strand_chart_course.h"

namespace hw::sheets {
namespace {

using test::Picture;
using test::Pixel;
using test::read_png;

plan::StrandChart chart_of(const plan::ChartCourse& course) {
  InlineExecutor executor;
  return plan::strand_chart(course, 120, 80, hair::default_ladder(), executor);
}

ChartPicture small_picture() {
  ChartPicture picture;
  picture.title = "Three zones";
  picture.width = 900;
  picture.height = 540;
  picture.scale = 1;
  return picture;
}

Picture drawn(const plan::ChartCourse& course, const ChartPicture& picture) {
  const std::string path = testing::TempDir() + "strand_chart_test.png";
  const auto written = write_strand_chart_png(chart_of(course), picture, path);
  EXPECT_TRUE(written) << (written ? "" : one_line(written.error()));
  Picture out = read_png(path);
  std::filesystem::remove(path);
  return out;
}

TEST(StrandChartPng, has_the_size_asked_for_times_its_scale) {
  ChartPicture picture = small_picture();
  picture.scale = 1.5;
  const Picture png = drawn(test::three_zone_course(), picture);
  EXPECT_EQ(png.width, 1350);
  EXPECT_EQ(png.height, 810);
}

TEST(StrandChartPng, surrounds_the_hair_with_a_neutral_near_lightness_50) {
  const Picture png = drawn(test::three_zone_course(), small_picture());
  const auto grey_of = [](double lstar) {
    return colour::eight_bit(colour::to_screen({lstar, 0, 0}, colour::ScreenSpace::srgb))[0];
  };
  for (const auto& [x, y] :
       {std::pair(0, 0), std::pair(png.width - 1, 0), std::pair(0, png.height - 1),
        std::pair(png.width - 1, png.height - 1)}) {
    const Pixel& corner = png.at(x, y);
    EXPECT_EQ(corner.r, corner.g);
    EXPECT_EQ(corner.g, corner.b);
    EXPECT_GE(corner.r, grey_of(46));
    EXPECT_LE(corner.r, grey_of(54));
  }
}

TEST(StrandChartPng, nothing_is_coloured_but_hair_and_the_stop) {
  plan::ChartCourse course = test::three_zone_course();
  const auto reddish = [](const Pixel& p) { return p.r > 150 && p.g < 90 && p.b < 90; };
  const Picture with_stop = drawn(course, small_picture());
  EXPECT_GT(std::count_if(with_stop.pixels.begin(), with_stop.pixels.end(), reddish), 50);
  for (plan::ChartZone& zone : course.zones) zone.events[0].hard_stop_min.reset();
  const Picture without = drawn(course, small_picture());
  EXPECT_EQ(std::count_if(without.pixels.begin(), without.pixels.end(), reddish), 0);
  // Hair of this course is warm or neutral, so red leads and blue trails; letters are neutral.
  EXPECT_TRUE(std::all_of(without.pixels.begin(), without.pixels.end(),
                          [](const Pixel& p) { return p.r >= p.g - 2 && p.g >= p.b - 3; }));
}

TEST(StrandChartPng, paints_the_colours_that_were_predicted) {
  const plan::ChartCourse course = test::three_zone_course();
  const plan::StrandChart chart = chart_of(course);
  const Picture png = drawn(course, small_picture());
  for (const auto& [minute, cm] :
       {std::pair(2.0, 10.0), std::pair(68.0, 10.0), std::pair(5.0, 20.0)}) {
    const auto rgb = colour::eight_bit(
        colour::to_screen(plan::colour_at(chart, minute, cm), colour::ScreenSpace::srgb));
    const auto same = [&](const Pixel& p) {
      return std::abs(p.r - rgb[0]) <= 1 && std::abs(p.g - rgb[1]) <= 1 &&
             std::abs(p.b - rgb[2]) <= 1;
    };
    EXPECT_GT(std::count_if(png.pixels.begin(), png.pixels.end(), same), 3000) << minute;
  }
}

TEST(StrandChartPng, dark_stands_left_of_light_and_above_the_ends) {
  const Picture png = drawn(test::three_zone_course(), small_picture());
  const auto mean = [&](double x_from, double x_to, double y_from, double y_to) {
    double sum = 0;
    int count = 0;
    for (int y = static_cast<int>(y_from * png.height); y < y_to * png.height; ++y) {
      for (int x = static_cast<int>(x_from * png.width); x < x_to * png.width; ++x, ++count) {
        sum += png.at(x, y).g;
      }
    }
    return sum / count;
  };
  const double lengths_early = mean(0.12, 0.16, 0.52, 0.58);
  EXPECT_GT(mean(0.60, 0.64, 0.52, 0.58), lengths_early + 30);
  EXPECT_GT(mean(0.12, 0.16, 0.72, 0.76), lengths_early + 20);
}

TEST(StrandChartPng, same_bytes_for_the_same_chart) {
  const plan::StrandChart chart = chart_of(test::three_zone_course());
  const auto one = strand_chart_png(chart, small_picture());
  const auto two = strand_chart_png(chart, small_picture());
  ASSERT_TRUE(one && two);
  EXPECT_TRUE(*one == *two);
  EXPECT_EQ(one->substr(1, 3), "PNG");
}

TEST(StrandChartPng, a_chart_without_moments_or_with_few_words_is_still_drawn) {
  plan::ChartCourse course = test::three_zone_course();
  course.zones = {course.zones[1]};
  course.zones[0].events.clear();
  course.check_min.clear();
  course.phases.clear();
  course.now_min.reset();
  EXPECT_EQ(drawn(course, small_picture()).width, 900);
  course = test::three_zone_course();
  course.now_min = 500;  // outside: not shown
  for (plan::ChartZone& zone : course.zones) zone.events[0].hard_stop_min = 69;
  course.end_min = 600;
  ChartPicture picture = small_picture();
  picture.title.assign(200, 'W');
  picture.title.append(" é");
  course.phases[0].label = "a label far too long for the minutes it stands over, with é in it";
  EXPECT_EQ(drawn(course, picture).width, 900);
}

TEST(StrandChartPng, says_which_file_cannot_be_written) {
  const std::string path = testing::TempDir() + "no/such/folder/chart.png";
  const auto written =
      write_strand_chart_png(chart_of(test::three_zone_course()), small_picture(), path);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().code, ErrorCode::io);
  EXPECT_EQ(written.error().where, path);
  EXPECT_FALSE(written.error().hint.empty());
}

TEST(StrandChartPng, refuses_sizes_and_words_it_cannot_draw) {
  const plan::StrandChart chart = chart_of(test::three_zone_course());
  for (const auto& [member, value] :
       {std::pair(&ChartPicture::width, 100.0), std::pair(&ChartPicture::height, 1e6),
        std::pair(&ChartPicture::scale, 0.0), std::pair(&ChartPicture::scale, std::nan(""))}) {
    ChartPicture picture = small_picture();
    picture.*member = value;
    const auto png = strand_chart_png(chart, picture);
    ASSERT_FALSE(png);
    EXPECT_EQ(png.error().code, ErrorCode::out_of_range);
  }
  ChartPicture picture = small_picture();
  picture.title = "\xff\xfe";
  const auto png = strand_chart_png(chart, picture);
  ASSERT_FALSE(png);
  EXPECT_EQ(png.error().code, ErrorCode::malformed);
}

TEST(ShadowsLifted, rises_strictly_and_never_darkens) {
  EXPECT_EQ(lifted_shadow(14.2), 14.2);
  EXPECT_DOUBLE_EQ(lifted_shadow(26), 40);
  EXPECT_EQ(lifted_shadow(70), 70);
  double before = lifted_shadow(0);
  for (double lstar = 0.1; lstar <= 100; lstar += 0.1) {
    const double here = lifted_shadow(lstar);
    EXPECT_GT(here, before) << lstar;
    EXPECT_GE(here, lstar);
    EXPECT_LT(here - before, 0.25) << lstar;  // no leap
    before = here;
  }
  const auto& ladder = hair::default_ladder();
  EXPECT_GT(lifted_shadow(ladder.lstar_of(2)) - lifted_shadow(ladder.lstar_of(1)),
            2 * (ladder.lstar_of(2) - ladder.lstar_of(1)));
}

TEST(ShadowsLifted, the_picture_is_lighter_and_marked) {
  ChartPicture picture = small_picture();
  const Picture plain = drawn(test::three_zone_course(), picture);
  picture.shadows_lifted = true;
  const Picture lifted = drawn(test::three_zone_course(), picture);
  const int x = plain.width * 14 / 100;
  const int y = plain.height * 55 / 100;
  EXPECT_GT(lifted.at(x, y).r, plain.at(x, y).r + 15);
  // The mark: words on a near-black plate at the upper right, where the plain picture is grey.
  const auto dark = [](const Picture& png) {
    int count = 0;
    for (int row = 10; row < 50; ++row) {
      for (int column = png.width / 2; column < png.width; ++column) {
        count += png.at(column, row).r < 50;
      }
    }
    return count;
  };
  EXPECT_EQ(dark(plain), 0);
  EXPECT_GT(dark(lifted), 2000);
}

}  // namespace
}  // namespace hw::sheets
