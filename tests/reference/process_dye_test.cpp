// Dyes, their size and what they share, against what was printed of them.
#include <algorithm>

#include "huewright/process/cylinder_series.h"
#include "huewright/process/dye.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using test::Source;
using test::test_table;

double cell(const Table& table, std::size_t row, const char* column) {
  return *table.number(row, column);
}

TEST(DyePublished, size_law_meets_its_two_measured_dyes) {
  const Table table = test_table("dyes/diffusion_in_hair.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string name = *table.text(row, "name");
    const double radius = cell(table, row, "radius_angstrom");
    // Radii are printed to half an ångström at best: a tenth of the value either way.
    const double water = cell(table, row, "water_m2_per_s");
    EXPECT_PUBLISHED("diffusion of " + name + " in water [m2/s]", {"holmes_1964", "p. 604"}, water,
                     water_diffusion_m2_per_s(radius), 0.1 * water);
    const double in_hair = cell(table, row, "hair_m2_per_s");
    EXPECT_PUBLISHED("diffusion of " + name + " in hair [m2/s]", {"holmes_1964", "p. 604"}, in_hair,
                     dye_diffusion_m2_per_s(radius), 0.1 * in_hair);
  }
  EXPECT_EQ(dye_diffusion_m2_per_s(7.9), 0);
  EXPECT_EQ(dye_diffusion_m2_per_s(9), 0);
  double before = 1;
  for (double radius = 1.5; radius < 7.9; radius += 0.1) {
    EXPECT_LT(dye_diffusion_m2_per_s(radius), before);
    before = dye_diffusion_m2_per_s(radius);
  }
}

TEST(DyePublished, ring_and_fill_after_thirty_minutes) {
  // Own derivation from the measured coefficients; ±2 points, as they are known to two digits.
  const Source derived{"own derivation", "crank_1975 ch. 5 with holmes_1964 p. 604"};
  EXPECT_PUBLISHED("fill by an acid azo dye, 30 min, 72 um [%]", derived, 18,
                   100 * fibre_fill(5e-15, 30, 72, kNoResistance), 2);
  EXPECT_PUBLISHED("fill by benzene sulphonic acid, 30 min, 72 um [%]", derived, 67,
                   100 * fibre_fill(9.2e-14, 30, 72, kNoResistance), 2);
  EXPECT_LT(fibre_fill(5e-15, 30, 72, 3), fibre_fill(5e-15, 30, 72, 30));
  EXPECT_NEAR(
      fibre_fill(5e-15, 0.0021, 72, kNoResistance) / fibre_fill(5e-15, 0.0084, 72, kNoResistance),
      0.5, 0.02);  // at first with the root of time
}

TEST(DyePublished, nitro_peaks_add_up_by_substituent) {
  const Table table = test_table("dyes/nitro_series.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (cell(table, row, "far_methyls_only") > 0) continue;  // two methyls twist the amine
    const NitroSubstituents at{cell(table, row, "near_alkyls") > 0,
                               static_cast<int>(cell(table, row, "far_alkyls"))};
    EXPECT_PUBLISHED(
        "nitro dye N1 " + *table.text(row, "n1") + ", N4 " + *table.text(row, "n4") + " [nm]",
        {"corbett_1984", "p. 307"}, cell(table, row, "peak_nm"), nitro_peak_nm(at), 11);
  }
  // Worked: 471 + 24 + 19 against 513 measured for a hydroxyethyl at either end.
  EXPECT_PUBLISHED("nitro dye with two hydroxyethyls [nm]", {"corbett_1984", "p. 307"}, 513,
                   nitro_peak_nm({true, 1}), 4);
}

TEST(DyePublished, table_holds_the_printed_bands) {
  struct Printed {
    const char* name;
    double nm, e;
    const char* where;
  };
  for (const Printed& printed :
       {Printed{"HC Red No. 3", 495, 4680, "p. 307"},
        {"HC Blue No. 2", 536, 3890, "p. 307"},
        Printed{"p-Phenylenediamine + Resorcinol", 484, 8500, "p. 114"},
        Printed{"p-Phenylenediamine + m-Aminophenol", 511, 9550, "p. 114"}}) {
    const auto dye = dye_named(printed.name);
    ASSERT_TRUE(dye) << printed.name;
    const Source source{dye->chemistry == "nitro" ? "corbett_1984" : "corbett_1973", printed.where};
    EXPECT_PUBLISHED(std::string(printed.name) + ", peak [nm]", source, printed.nm,
                     dye->peaks_nm.front(), 0.5);
    EXPECT_PUBLISHED(std::string(printed.name) + ", absorptivity [L/mol/cm]", source, printed.e,
                     dye->molar_absorptivity, 5);
    const auto shape = dye_shape(*dye);
    ASSERT_TRUE(shape);
    const auto top = std::max_element(shape->begin(), shape->end()) - shape->begin();
    EXPECT_NEAR(colour::wavelength_nm(static_cast<std::size_t>(top)), printed.nm, 2.5);
    const auto in_hair = dye_in_hair(*dye, 0.01);
    ASSERT_TRUE(in_hair);
    EXPECT_NEAR(*std::max_element(in_hair->begin(), in_hair->end()), 2.302585 * printed.e * 0.01,
                0.005 * printed.e * 0.02302585);
  }
}

TEST(DyePublished, primaries_share_a_coupler_by_their_moles) {
  const Table table = test_table("dyes/primaries.csv");
  constexpr double kSdPercent = 8;  // the largest of the three printed sds
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double moles[] = {cell(table, row, "ppd_moles"), cell(table, row, "pap_moles")};
    const auto shares = primary_shares(moles);
    EXPECT_PUBLISHED("share of the p-phenylenediamine dye [%]", {"primaries_1982", "p. 380"},
                     cell(table, row, "measured_percent"), 100 * shares[0], kSdPercent);
    EXPECT_NEAR(shares[0] + shares[1], 1, 1e-12);
  }
}

TEST(DyeTable, every_row_is_plausible_and_found_by_its_name) {
  EXPECT_GE(dyes().size(), 25u);
  for (const Dye& dye : dyes()) {
    EXPECT_TRUE(dye_named(dye.name)) << dye.name;
    EXPECT_GT(dye.radius_angstrom, 2.5) << dye.name;
    EXPECT_LT(dye.radius_angstrom, 5) << dye.name;
    EXPECT_EQ(dye.charge, dye.dye_class == DyeClass::cationic ? 1 : 0) << dye.name;
    EXPECT_FALSE(dye.source.empty()) << dye.name;
    EXPECT_EQ(dye_shape(dye).has_value(), !dye.peaks_nm.empty()) << dye.name;
  }
  EXPECT_EQ(dye_named("hc red no. 3")->name, "HC Red No. 3");
  const auto unknown = dye_named("HC Red No. 33");
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.error().hint.find("HC Red No. 3"), std::string::npos);
  const auto brown = dye_shape(*dye_named("Basic Brown 16"));
  ASSERT_FALSE(brown);
  EXPECT_EQ(brown.error().code, ErrorCode::missing);
}

}  // namespace
}  // namespace hw::process
