#include <algorithm>

#include "huewright/plan/strand_chart.h"

namespace hw::plan {
namespace {

struct Field {
  std::vector<double> minute;
  std::vector<double> cm;
  std::vector<double> level;
};

template <class Law>
Field field(std::size_t columns, double minutes, std::size_t rows, double length, Law law) {
  Field out;
  for (std::size_t c = 0; c < columns; ++c) {
    out.minute.push_back(minutes * static_cast<double>(c) / static_cast<double>(columns - 1));
  }
  for (std::size_t r = 0; r < rows; ++r) {
    out.cm.push_back(length * static_cast<double>(r) / static_cast<double>(rows - 1));
    for (const double minute : out.minute) out.level.push_back(law(minute, out.cm.back()));
  }
  return out;
}

std::vector<LevelLine> lines_of(const Field& f, double at) {
  return level_lines(f.minute, f.cm, f.level, at);
}

TEST(LevelLines, a_plane_is_crossed_at_the_right_minutes) {
  const Field f =
      field(13, 60, 9, 16, [](double minute, double cm) { return minute / 10 - cm / 16 + 1; });
  const auto lines = lines_of(f, 3.3);
  ASSERT_EQ(lines.size(), 1U);
  for (const ChartPoint& point : lines[0].points) {
    EXPECT_NEAR(point.minute, 23 + point.cm * 10 / 16, 1e-9);  // the field is linear: exact
  }
  const auto [low, high] =
      std::minmax_element(lines[0].points.begin(), lines[0].points.end(),
                          [](const ChartPoint& a, const ChartPoint& b) { return a.cm < b.cm; });
  EXPECT_EQ(low->cm, 0);
  EXPECT_EQ(high->cm, 16);
  EXPECT_NEAR(lines[0].label.minute, 23 + lines[0].label.cm * 10 / 16, 1e-9);
}

TEST(LevelLines, nothing_is_crossed_outside_the_fields_range) {
  const Field f = field(5, 60, 5, 10, [](double minute, double) { return 2 + minute / 60; });
  EXPECT_TRUE(lines_of(f, 1.5).empty());
  EXPECT_TRUE(lines_of(f, 2).empty());  // all of it counts as above
  EXPECT_EQ(lines_of(f, 2.5).size(), 1U);
  EXPECT_TRUE(lines_of(f, 3.5).empty());
}

TEST(LevelLines, a_hill_is_ringed_by_a_closed_line) {
  const Field f = field(
      81, 8, 81, 8, [](double x, double y) { return 9 - (x - 4) * (x - 4) - (y - 4) * (y - 4); });
  const auto lines = lines_of(f, 5);  // a circle of radius 2
  ASSERT_EQ(lines.size(), 1U);
  const auto& points = lines[0].points;
  EXPECT_EQ(points.front().minute, points.back().minute);
  EXPECT_EQ(points.front().cm, points.back().cm);
  double round = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    EXPECT_NEAR(std::hypot(points[i].minute - 4, points[i].cm - 4), 2, 0.003);
    if (i > 0) {
      const double step =
          std::hypot(points[i].minute - points[i - 1].minute, points[i].cm - points[i - 1].cm);
      EXPECT_LT(step, 0.15);  // in order along the line: no leaps
      round += step;
    }
  }
  EXPECT_NEAR(round, 2 * 3.14159265 * 2, 0.02);
}

TEST(LevelLines, lines_end_on_the_rim_or_close) {
  const Field f = field(40, 10, 40, 10, [](double x, double y) {
    return 5 + 2 * std::sin(x * 1.3) * std::cos(y * 1.1);
  });
  for (const double at : {4.0, 5.0, 6.0}) {
    for (const LevelLine& line : lines_of(f, at)) {
      const auto on_rim = [](const ChartPoint& p) {
        return p.minute == 0 || p.minute == 10 || p.cm == 0 || p.cm == 10;
      };
      const ChartPoint& first = line.points.front();
      const ChartPoint& last = line.points.back();
      const bool closed = first.minute == last.minute && first.cm == last.cm;
      EXPECT_TRUE(closed || (on_rim(first) && on_rim(last)));
    }
  }
}

TEST(LevelLines, the_mean_decides_a_saddle) {
  // Upper left and lower right are high. With a high mean they hang together and the lines cut off
  // the low corners; with a low mean each is cut off by itself.
  const std::vector<double> minute{0, 1};
  const std::vector<double> cm{0, 1};
  const auto cuts_off = [](const LevelLine& line, double x, double y) {
    return std::all_of(line.points.begin(), line.points.end(), [&](const ChartPoint& p) {
      return std::abs(p.minute - x) + std::abs(p.cm - y) < 1;
    });
  };
  const auto joined = level_lines(minute, cm, std::vector<double>{9, 1, 1, 9}, 4);
  ASSERT_EQ(joined.size(), 2U);
  EXPECT_TRUE(std::any_of(joined.begin(), joined.end(),
                          [&](const LevelLine& line) { return cuts_off(line, 1, 0); }));
  EXPECT_TRUE(std::any_of(joined.begin(), joined.end(),
                          [&](const LevelLine& line) { return cuts_off(line, 0, 1); }));
  const auto apart = level_lines(minute, cm, std::vector<double>{9, 1, 1, 9}, 6);
  ASSERT_EQ(apart.size(), 2U);
  EXPECT_TRUE(std::any_of(apart.begin(), apart.end(),
                          [&](const LevelLine& line) { return cuts_off(line, 0, 0); }));
  EXPECT_TRUE(std::any_of(apart.begin(), apart.end(),
                          [&](const LevelLine& line) { return cuts_off(line, 1, 1); }));
}

}  // namespace
}  // namespace hw::plan
