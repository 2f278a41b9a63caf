// The 24-patch chart: spectrum to Lab, other lights, and the two editions of its reference values.
#include "colour_rows.h"
#include "huewright/colour/adaptation.h"
#include "huewright/colour/difference.h"

namespace hw::colour::test {
namespace {

using hw::test::Source;
using hw::test::test_table;

/// D50 of the ICC profile connection space, the white of the printed Lab (ICC.1, PCS illuminant).
struct IccD50 {
  static constexpr WhitePoint kWhite{96.42, 100, 82.49};
};
using ChartLab = Lab<IccD50, Deg2>;

Spectrum patch(const std::string& number) {
  static const Table table = test_table("colour/chart_spectra.csv");
  const auto values = table.numbers("p" + number);
  EXPECT_TRUE(values) << number;
  const auto spectrum = resample(380, 10, *values);
  EXPECT_TRUE(spectrum) << number;
  return *spectrum;
}

ChartLab lab_from_xyy(double x, double y, double big_y) {
  return xyz_to_lab(
      Xyz<IccD50, Deg2>{100 * big_y * x / y, 100 * big_y, 100 * big_y * (1 - x - y) / y});
}

TEST(ColourChart, patches_under_nine_lights_agree_with_a_second_program) {
  const Table table = test_table("colour/chart_under_lights.csv");
  ASSERT_EQ(table.rows(), 90U);
  const Source source{"pascale2012", "spectra, average of 30 charts; Lab by a second program"};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto light = illuminant_named(str(table, row, "light"));
    ASSERT_TRUE(light);
    const Viewing& seen = viewing(*light, observer(table, row));
    const Spectrum reflectance = patch(str(table, row, "patch"));
    const ViewedXyz xyz = xyz_under(reflectance, seen);
    const ViewedLab lab = lab_under(reflectance, seen);
    const std::string name = "patch " + str(table, row, "patch") + " " + str(table, row, "light") +
                             " " + str(table, row, "observer_deg") + " deg";
    EXPECT_PUBLISHED(name + " X", source, 100 * num(table, row, "x"), xyz.x, 0.005);
    EXPECT_PUBLISHED(name + " Y", source, 100 * num(table, row, "y"), xyz.y, 0.005);
    EXPECT_PUBLISHED(name + " Z", source, 100 * num(table, row, "z"), xyz.z, 0.005);
    EXPECT_PUBLISHED(name + " L", source, num(table, row, "l"), lab.l, 0.02);
    EXPECT_PUBLISHED(name + " a", source, num(table, row, "a"), lab.a, 0.02);
    EXPECT_PUBLISHED(name + " b", source, num(table, row, "b"), lab.b, 0.02);
  }
}

TEST(ColourChart, spectra_give_the_printed_colours_in_d50) {
  const Table table = test_table("colour/chart_d50.csv");
  ASSERT_EQ(table.rows(), 16U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto xyz = xyz_under<D50, Deg2>(patch(str(table, row, "patch")));
    const double sum = xyz.x + xyz.y + xyz.z;
    const std::string name = str(table, row, "name");
    const Source second{"pascale2012", "spectra; xyY by a second program"};
    EXPECT_PUBLISHED(name + " x", second, num(table, row, "x_second"), xyz.x / sum, 5e-5);
    EXPECT_PUBLISHED(name + " y", second, num(table, row, "y_second"), xyz.y / sum, 5e-5);
    EXPECT_PUBLISHED(name + " Y", second, num(table, row, "big_y_second"), xyz.y / 100, 5e-5);
    const ChartLab got = xyz_to_lab(Xyz<IccD50, Deg2>{xyz.x, xyz.y, xyz.z});
    const ChartLab printed =
        lab_from_xyy(num(table, row, "x"), num(table, row, "y"), num(table, row, "big_y"));
    // The printed xyY are averages of charts, not the colour of the average spectrum, and have 3 to
    // 4 digits: 0.17 on the black patch, 0.04 on average.
    EXPECT_PUBLISHED(name + " CIEDE2000 from the printed xyY",
                     (Source{"pascale2012", "average xyY of 30 charts"}), 0,
                     delta_e_2000(printed, got), 0.18);
  }
}

ChartLab reference_at(const Table& table, std::size_t row, const std::string& edition) {
  return {num(table, row, "l_" + edition), num(table, row, "a_" + edition),
          num(table, row, "b_" + edition)};
}

TEST(ColourChart, editions_before_and_after_2014_are_different_charts) {
  const Table table = test_table("colour/chart_reference.csv");
  ASSERT_EQ(table.rows(), 16U);
  double largest = 0;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const ChartLab before = reference_at(table, row, "before");
    const std::string name = str(table, row, "name");
    const ChartLab from_xyy = lab_from_xyy(num(table, row, "x_2005"), num(table, row, "y_2005"),
                                           num(table, row, "big_y_2005"));
    // xyY has 4 decimals: 0.06 in CIEDE2000 on the darkest patches.
    EXPECT_PUBLISHED(name + " CIEDE2000 of the 2005 xyY from the Lab before 2014",
                     (Source{"pascale2012", "reference xyY of 2005"}), 0,
                     delta_e_2000(before, from_xyy), 0.06);
    EXPECT_PUBLISHED(name + " CIE76 of two transcriptions",
                     (Source{"pascale2012", "reference Lab before November 2014"}), 0,
                     delta_e_76(before, reference_at(table, row, "second")), 0.03);
    largest = std::max(largest, delta_e_2000(before, reference_at(table, row, "after")));
  }
  // A reader that takes one edition for the other is off by more than a trained eye forgives.
  EXPECT_GT(largest, 1.0);
}

}  // namespace
}  // namespace hw::colour::test
