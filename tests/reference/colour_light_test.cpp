// Lights, observers, interpolation and the sums against printed values.
#include "colour_rows.h"
#include "huewright/colour/light.h"

namespace hw::colour::test {
namespace {

using hw::test::Source;
using hw::test::test_table;

TEST(ColourLight, formulae_rebuild_the_printed_illuminants) {
  const Table table = test_table("colour/illuminants_published.csv");
  const Source source{"cie015_2018", "illuminants A, D50, D65"};
  const Spectrum a = illuminant(Illuminant::a);
  const Spectrum d50 = illuminant(Illuminant::d50);
  const Spectrum d65 = illuminant(Illuminant::d65);
  ASSERT_EQ(table.rows(), kBands);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string nm = str(table, row, "wavelength_nm") + " nm";
    // A has 6 significant digits: half a unit of the third decimal above 100.
    EXPECT_PUBLISHED("power of A at " + nm, source, num(table, row, "a"), a[row], 5e-4);
    // The printed D series comes from components with one or two decimals: 0.001 of 100.
    EXPECT_PUBLISHED("power of D50 at " + nm, source, num(table, row, "d50"), d50[row], 1e-3);
    EXPECT_PUBLISHED("power of D65 at " + nm, source, num(table, row, "d65"), d65[row], 1e-3);
  }
}

// A plain 5 nm sum is this far from printed chromaticities: A half a digit; the spiky fluorescent
// lamps, which the CIE sums by 1 nm, 1.4e-4 for 10 degrees; all others half of the fourth decimal.
double white_tolerance(const std::string& light, Observer eye) {
  if (light == "A") return 5e-6;
  if (light.starts_with("FL") && eye == Observer::deg10) return 1.5e-4;
  return 5e-5;
}

TEST(ColourLight, white_points_meet_the_printed_chromaticities) {
  const Table table = test_table("colour/white_points.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string light = str(table, row, "light");
    const Observer eye = observer(table, row);
    const Source source{str(table, row, "source"), "white points"};
    // D60 is no named light here; it is daylight of 6000 K on the old scale.
    const auto power = light == "D60" ? daylight(6000 * 1.4388 / 1.4380) : illuminant(light);
    ASSERT_TRUE(power) << light;
    const auto seen = viewing(*power, eye);
    ASSERT_TRUE(seen) << light;
    const WhitePoint& w = seen->white;
    const double sum = w.x + w.y + w.z;
    const std::string name = light + (eye == Observer::deg2 ? " 2 deg" : " 10 deg");
    const double tolerance = white_tolerance(light, eye);
    EXPECT_PUBLISHED("white x of " + name, source, num(table, row, "x"), w.x / sum, tolerance);
    EXPECT_PUBLISHED("white y of " + name, source, num(table, row, "y"), w.y / sum, tolerance);
    if (str(table, row, "big_x").empty()) continue;
    EXPECT_PUBLISHED("white X of " + name, source, num(table, row, "big_x"), w.x, 0.005);
    EXPECT_PUBLISHED("white Z of " + name, source, num(table, row, "big_z"), w.z, 0.005);
  }
}

TEST(ColourLight, a_sample_meets_its_tristimulus_values) {
  const Table sample = test_table("colour/sample_reflectance.csv");
  const auto values = sample.numbers("reflectance");
  ASSERT_TRUE(values);
  const auto reflectance = resample(340, 5, *values);
  ASSERT_TRUE(reflectance);
  const Table table = test_table("colour/sample_xyz.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto light = illuminant_named(str(table, row, "light"));
    ASSERT_TRUE(light);
    const ViewedXyz xyz = xyz_under(*reflectance, viewing(*light, observer(table, row)));
    const Source source{"colour_science", str(table, row, "method")};
    const std::string name = "sample under " + str(table, row, "light");
    // The methods differ among themselves; each row says how far a plain 5 nm sum is from it. 1e-5
    // more: A and the D series are unrounded here, to 6 digits there.
    const double tolerance = num(table, row, "method_spread") + 1e-5;
    EXPECT_PUBLISHED(name + " X", source, num(table, row, "x"), xyz.x, tolerance);
    EXPECT_PUBLISHED(name + " Y", source, num(table, row, "y"), xyz.y, tolerance);
    EXPECT_PUBLISHED(name + " Z", source, num(table, row, "z"), xyz.z, tolerance);
  }
}

double analytic_power(const std::string& light, double nm) {
  if (light.starts_with("constant")) return 8;
  if (light.starts_with("linear rising")) return nm - 380;
  if (light.starts_with("linear falling")) return 780 - nm;
  EXPECT_TRUE(light.starts_with("cubic rising")) << light;
  return (nm - 380) * (nm - 380) * (nm - 380);
}

TEST(ColourLight, lights_given_by_a_formula_meet_their_chromaticity) {
  const Table table = test_table("colour/analytic_lights.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string name = str(table, row, "light");
    std::vector<double> values;
    for (int nm = 380; nm <= 780; ++nm) values.push_back(analytic_power(name, nm));
    const auto power = resample(380, 1, values);
    ASSERT_TRUE(power);
    const auto seen = viewing(*power, Observer::deg2);
    ASSERT_TRUE(seen);
    const double sum = seen->white.x + seen->white.y + seen->white.z;
    const Source source{"unicolour", "known spectra"};
    // 4 decimals from a sum by 1 nm; this floor sums by 5 nm: 1e-5 more.
    EXPECT_PUBLISHED("x of " + name, source, num(table, row, "x"), seen->white.x / sum, 7e-5);
    EXPECT_PUBLISHED("y of " + name, source, num(table, row, "y"), seen->white.y / sum, 7e-5);
  }
}

// The whole path from 10 nm samples, one sample at a time: its weight in X, Y, Z.
TEST(ColourLight, ten_nanometre_samples_weigh_what_e308_prints) {
  const Table table = test_table("colour/weights_a_10deg_10nm.csv");
  const Viewing& seen = viewing(Illuminant::a, Observer::deg10);
  constexpr std::size_t kSamples = 48;  // 360 to 830 nm by 10 nm
  ASSERT_EQ(table.rows(), kSamples);
  for (std::size_t row = 0; row < kSamples; ++row) {
    std::vector<double> impulse(kSamples, 0.0);
    impulse[row] = 1;
    const auto spectrum = resample(360, 10, impulse);
    ASSERT_TRUE(spectrum);
    const ViewedXyz w = xyz_under(*spectrum, seen);
    const Source source{"astm_e308", "weighting factors A, 10 degrees, 10 nm"};
    const std::string name = str(table, row, "wavelength_nm") + " nm";
    // E308 interpolates and sums by 1 nm, this floor by 5 nm: 0.006 of 100 between the two.
    EXPECT_PUBLISHED("weight in X of " + name, source, num(table, row, "w_x"), w.x, 0.006);
    EXPECT_PUBLISHED("weight in Y of " + name, source, num(table, row, "w_y"), w.y, 0.006);
    EXPECT_PUBLISHED("weight in Z of " + name, source, num(table, row, "w_z"), w.z, 0.006);
  }
}

// Samples every 50 nm put grid points at tenths of a step, so each printed coefficient is the
// interpolated value of a single sample of 1.
TEST(ColourSpectrum, interpolates_with_the_coefficients_of_e2022) {
  const Table table = test_table("colour/interpolation_coefficients.csv");
  const Source source{"astm_e2022", "Lagrange coefficients"};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const bool inner = str(table, row, "where") == "inner";
    const double share = num(table, row, "share");
    // Inner: between the second and third sample; end: between the first two.
    const double nm = 400 + 50 * (inner ? 1 + share : share);
    const auto band = static_cast<std::size_t>(std::lround((nm - kFirstNm) / kStepNm));
    for (std::size_t i = 0; i < (inner ? 4U : 3U); ++i) {
      std::vector<double> impulse(6, 0.0);
      impulse[i] = 1;
      const auto spectrum = resample(400, 50, impulse);
      ASSERT_TRUE(spectrum);
      const std::string column = "c" + std::to_string(i);
      EXPECT_PUBLISHED((inner ? "inner " : "end ") + column + " at " + str(table, row, "share"),
                       source, num(table, row, column), (*spectrum)[band], 5e-5);
    }
  }
}

}  // namespace
}  // namespace hw::colour::test
