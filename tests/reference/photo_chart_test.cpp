// The embedded colours of the 24-patch chart against its spectra and its published reference.
#include "chart.h"
#include "huewright/colour/difference.h"
#include "support/photo_scene.h"
#include "support/reference.h"

namespace hw::photo::test {
namespace {

using hw::test::Source;
using hw::test::test_table;

TEST(PhotoChart, average_colours_are_those_of_the_spectra) {
  const Table table =
      hw::parse_table(hw::test::test_text("../../data/photo/chart.csv"), "chart").value();
  ASSERT_EQ(table.rows(), 24U);
  const Source source{"pascale2012", "spectra, average of 30 charts"};
  for (std::size_t i = 0; i < 24; ++i) {
    const auto lab = colour::lab_of(hw::test::patch_spectra()[i]);
    const std::string name = *table.text(i, "name") + " D65 10 deg ";
    // Another program's cubic at the ends and its rounding: 0.02, as the table says.
    EXPECT_PUBLISHED(name + "L", source, *table.number(i, "l_average_d65"), lab.l, 0.02);
    EXPECT_PUBLISHED(name + "a", source, *table.number(i, "a_average_d65"), lab.a, 0.02);
    EXPECT_PUBLISHED(name + "b", source, *table.number(i, "b_average_d65"), lab.b, 0.02);
  }
}

TEST(PhotoChart, editions_are_the_published_ones) {
  const Table ours =
      hw::parse_table(hw::test::test_text("../../data/photo/chart.csv"), "chart").value();
  const Table published = test_table("colour/chart_reference.csv");
  const Source source{"pascale2012", "reference Lab before and after November 2014"};
  for (std::size_t row = 0; row < published.rows(); ++row) {
    const auto patch = static_cast<std::size_t>(*published.number(row, "patch")) - 1;
    for (const char* column :
         {"l_before", "a_before", "b_before", "l_after", "a_after", "b_after"}) {
      EXPECT_PUBLISHED(*published.text(row, "name") + " " + column, source,
                       *published.number(row, column), *ours.number(patch, column), 1e-9);
    }
  }
}

TEST(PhotoChart, an_edition_in_daylight_is_near_the_average_chart) {
  for (const ChartKind kind : {ChartKind::patches_before, ChartKind::patches_after}) {
    const auto& colours = chart_colours(kind);
    for (std::size_t i = 0; i < kPatches; ++i) {
      // Charts, averages and editions differ by 2 at most; a patch out of its place by 10.
      EXPECT_LT(colour::delta_e_2000(colours[i].lab, colour::lab_of(hw::test::patch_spectra()[i])),
                2.2)
          << colours[i].name;
    }
  }
}

}  // namespace
}  // namespace hw::photo::test
