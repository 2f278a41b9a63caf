// The tress law against measured tresses and published spectra; data in tests/data/hair_measured.
#include <gtest/gtest.h>

#include <algorithm>

#include "huewright/colour/difference.h"
#include "huewright/hair/tress.h"
#include "support/reference.h"

namespace hw::hair {
namespace {

using hw::test::Source;
using hw::test::test_table;

constexpr Micrometres kUsual{70};  // radius 35 µm, at which the measured amounts are stated
constexpr double kPheomelaninShare = 0.05;  // brown hair, borges_2001

colour::HairLab natural(double melanin_percent, Micrometres strand_um = kUsual,
                        double surface_term = kSurfaceTerm) {
  return tress_lab({melanin_percent * (1 - kPheomelaninShare), melanin_percent * kPheomelaninShare,
                    0, strand_um, surface_term});
}

/// Decadic extinction [1/cm per mg/mL] that an absorption per cent stands for.
double extinction(const colour::Spectrum& per_percent, int nm) {
  const double mg_per_ml = 10 * kHairDensity;
  return per_percent[static_cast<std::size_t>((nm - 380) / 5)] / (std::log(10.0) * mg_per_ml);
}

TEST(Melanin, extinction_is_that_of_the_published_curve) {
  const Source curve{"jacques_melanin", "points read off figure 16.3-a of sarna_swartz_2006"};
  const struct {
    int nm;
    double eumelanin, pheomelanin;
  } rows[] = {{400, 14.64, 12.11}, {450, 10.74, 7.99}, {500, 8.14, 5.08}, {550, 5.79, 3.00},
              {600, 4.30, 1.61},   {650, 3.18, 1.21},  {700, 2.42, 0.80}, {750, 1.94, 0.41}};
  for (const auto& row : rows) {
    EXPECT_PUBLISHED("eumelanin at " + std::to_string(row.nm) + " nm", curve, row.eumelanin,
                     extinction(eumelanin_per_percent(), row.nm), 0.05);
    EXPECT_PUBLISHED("pheomelanin at " + std::to_string(row.nm) + " nm", curve, row.pheomelanin,
                     extinction(pheomelanin_per_percent(), row.nm), 0.05);
  }
}

TEST(Melanin, eumelanin_is_an_exponential_and_no_power_law) {
  double worst_exponential = 0;
  double worst_power = 0;
  for (int nm = 400; nm <= 700; nm += 5) {
    const double table = extinction(eumelanin_per_percent(), nm);
    worst_exponential =
        std::max(worst_exponential, std::abs(5.894 * std::exp(-0.00603 * (nm - 550)) / table - 1));
    worst_power = std::max(worst_power, std::abs(5.648 * std::pow(nm / 550.0, -3.25) / table - 1));
  }
  const Source fits{"jacques_melanin", "own least-squares fits over 400 to 700 nm"};
  EXPECT_PUBLISHED_RANGE("largest error of 5.894 exp(-0.00603 (nm - 550))", fits, 0, 0.03,
                         worst_exponential);
  EXPECT_PUBLISHED("largest error of 5.648 (nm / 550)^-3.25", fits, 0.082, worst_power, 0.01);
}

TEST(TressLaw, has_the_published_constant) {
  const Source law{"chiang_2016", "D as a polynomial in azimuthal roughness"};
  EXPECT_PUBLISHED("D at roughness 0.3", law, 5.8884, tress_d(0.3), 0.5e-4);
  EXPECT_PUBLISHED("D used for tresses", law, tress_d(0.3), kTressD, 0.001);
  // Half the light comes back at an optical radius of (ln 2 / D)².
  colour::Spectrum half{};
  half.fill(0.5);
  const auto mu = absorption_from(half, kUsual, 0);
  ASSERT_TRUE(mu.has_value());
  EXPECT_PUBLISHED("absorption times radius at reflectance 1/2", law, 0.01386, (*mu)[0] * 35e-4,
                   0.5e-5);
}

TEST(TressLaw, turned_round_returns_both_melanins) {
  for (const double eu : {0.05, 0.3, 0.8}) {
    for (const double pheo : {0.02, 0.1}) {
      const Strand strand{
          .eumelanin_percent = eu, .pheomelanin_percent = pheo, .strand_um = kUsual};
      const auto r = tress_reflectance(absorption(strand), kUsual, kSurfaceTerm);
      ASSERT_GT(*std::min_element(r.begin(), r.end()) - kSurfaceTerm, 1e-4);
      const auto mu = absorption_from(r, kUsual, kSurfaceTerm);
      ASSERT_TRUE(mu.has_value());
      // Least squares of mu on the two tables.
      double ee = 0, ep = 0, pp = 0, em = 0, pm = 0;
      for (std::size_t i = 0; i < colour::kBands; ++i) {
        const double e = eumelanin_per_percent()[i];
        const double p = pheomelanin_per_percent()[i];
        ee += e * e;
        ep += e * p;
        pp += p * p;
        em += e * (*mu)[i];
        pm += p * (*mu)[i];
      }
      const double det = ee * pp - ep * ep;
      const Source law{"chiang_2016", "linear in every pigment once turned round"};
      EXPECT_PUBLISHED("eumelanin back from its own reflectance", law, eu,
                       (em * pp - pm * ep) / det, 1e-3 * eu);
      EXPECT_PUBLISHED("pheomelanin back from its own reflectance", law, pheo,
                       (pm * ee - em * ep) / det, 1e-3 * pheo);
    }
  }
}

TEST(MeasuredTress, black_hair_needs_no_more_than_the_surface_term) {
  const auto black = natural(3);
  const Source source{"scanavez_2000", "Table IV: L* 18.00 and 18.37"};
  EXPECT_PUBLISHED_RANGE("L* of 3 % melanin", source, 18, 19.5, black.l);
  EXPECT_PUBLISHED_RANGE("chroma of 3 % melanin", source, 0, 1.5, std::hypot(black.a, black.b));
  EXPECT_PUBLISHED("L* of 3 % melanin as black hair", source, 18, black.l, 1);
}

TEST(MeasuredTress, dark_brown_is_about_one_per_cent_of_melanin) {
  const colour::HairLab measured{22.7, 3.9, 4.8};  // mean of the settings in Table III
  double best = 100;
  for (double melanin = 1.0; melanin <= 1.3; melanin += 0.005) {
    best = std::min(best, colour::delta_e_2000(measured, natural(melanin)));
  }
  const Source source{"scanavez_2000", "Table III, mean of one tress"};
  EXPECT_PUBLISHED_RANGE("least dE00 of 1.0 to 1.3 % melanin to dark brown", source, 0, 1.4, best);
  EXPECT_PUBLISHED("L* of 1.1 % melanin as dark brown", source, 23, natural(1.1).l, 1.5);
}

TEST(MeasuredTress, each_setting_is_met_with_the_amount_of_pigment_alone) {
  const Table table = test_table("hair_measured/tresses.csv");
  ASSERT_EQ(table.rows(), 12U);
  int brown = 0;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "hair") != "dark brown" || *table.number(row, "observer_deg") != 10)
      continue;
    ++brown;
    const colour::HairLab measured{*table.number(row, "l"), *table.number(row, "a"),
                                   *table.number(row, "b")};
    double best = 100;
    for (double melanin = 0.8; melanin <= 1.6; melanin += 0.005) {
      best = std::min(best, colour::delta_e_2000(measured, natural(melanin)));
    }
    EXPECT_PUBLISHED_RANGE("least dE00 to dark brown, " + *table.text(row, "geometry"),
                           Source{"scanavez_2000", *table.text(row, "place")}, 0, 1.4, best);
  }
  EXPECT_EQ(brown, 6);
}

TEST(MeasuredTress, surface_term_and_amount_meet_the_washed_black_tress) {
  const colour::HairLab measured{21.55, 1.73, 1.67};
  double best = 100;
  for (double surface = 0.026; surface <= 0.036; surface += 0.0002) {
    for (double melanin = 1.2; melanin <= 3.5; melanin += 0.02) {
      const auto lab = natural(melanin, kUsual, surface);
      best = std::min(best, colour::delta_e_2000(measured, lab));
    }
  }
  EXPECT_PUBLISHED_RANGE("least dE00 to an ethanol-washed black tress, surface term free",
                         Source{"scanavez_2000", "Table VIII p. 299"}, 0, 0.3, best);
}

/// Highest value of a coordinate along a path of colours, and the L* where it stands.
struct Peak {
  double value = -100, lstar = 0;
  void see(double candidate, double l) {
    if (candidate > value) {
      value = candidate;
      lstar = l;
    }
  }
};

// The next four come from the law alone; they hold its shape where nothing was measured.
const Source kLawAlone{"chiang_2016", "own computation from the law and the melanin tables"};

TEST(NaturalHair, warms_and_cools_again_as_melanin_falls) {
  Peak a, b;
  double before = 0;
  for (double melanin = 4; melanin > 0.005; melanin *= 0.99) {
    const auto lab = natural(melanin);
    EXPECT_GT(lab.l, before);
    before = lab.l;
    a.see(lab.a, lab.l);
    b.see(lab.b, lab.l);
  }
  EXPECT_PUBLISHED_RANGE("highest a* of natural hair", kLawAlone, 7.6, 8.0, a.value);
  EXPECT_PUBLISHED_RANGE("L* where a* is highest", kLawAlone, 34, 42, a.lstar);
  EXPECT_PUBLISHED_RANGE("highest b* of natural hair", kLawAlone, 18.4, 19.0, b.value);
  EXPECT_PUBLISHED_RANGE("L* where b* is highest", kLawAlone, 45, 53, b.lstar);
}

TEST(LiftedHair, needs_more_than_less_eumelanin_to_turn_orange) {
  Peak eumelanin, residue;
  for (double percent = 4; percent > 0.005; percent *= 0.99) {
    const auto dark = tress_lab({.eumelanin_percent = percent, .strand_um = kUsual});
    eumelanin.see(dark.a, dark.l);
    const auto warm = tress_lab({.warm_percent = percent, .strand_um = kUsual});
    residue.see(warm.a, warm.l);
  }
  EXPECT_PUBLISHED_RANGE("highest a* of eumelanin alone", kLawAlone, 7, 7.9, eumelanin.value);
  EXPECT_PUBLISHED("highest a* of warm residue", kLawAlone, 14.6, residue.value, 0.3);
  EXPECT_PUBLISHED_RANGE("L* where warm residue is reddest", kLawAlone, 36, 41, residue.lstar);
}

TEST(NaturalHair, coarse_strands_of_the_same_melanin_read_darker) {
  EXPECT_PUBLISHED("L* of 0.3 % melanin, radius 25 um", kLawAlone, 45.1,
                   natural(0.3, Micrometres{50}).l, 0.5);
  EXPECT_PUBLISHED("L* of 0.3 % melanin, radius 50 um", kLawAlone, 33.5,
                   natural(0.3, Micrometres{100}).l, 0.5);
}

TEST(NaturalHair, melanin_of_a_level_follows_from_the_law) {
  const struct {
    double lstar, percent, tolerance;
  } rungs[] = {
      {18.6, 3.4, 0.5}, {21.5, 1.2, 0.05}, {30, 0.55, 0.02}, {43, 0.24, 0.01}, {60, 0.08, 0.01}};
  for (const auto& rung : rungs) {
    const auto melanin = melanin_for_lstar(rung.lstar, kPheomelaninShare, kUsual, kSurfaceTerm);
    ASSERT_TRUE(melanin.has_value());
    EXPECT_PUBLISHED("melanin of L* " + std::to_string(rung.lstar), kLawAlone, rung.percent,
                     *melanin, rung.tolerance);
  }
}

TEST(BareStrand, is_not_white) {
  // Guess behind the lifted base: L* 74 at its centre, 68 to 80 over its spread.
  const Source guess{"common practice, no source",
                     "a fully lifted strand is pale yellow, not white"};
  for (const double scale : {0.55, 1.0, 1.8}) {
    Base base = kLiftedBase;
    base.flat_per_cm *= scale;
    base.blue_per_cm *= scale;
    const auto bare = tress_lab({.strand_um = kUsual, .base = base});
    EXPECT_PUBLISHED("L* of a bare strand, base times " + std::to_string(scale), guess, 74, bare.l,
                     7);
    EXPECT_PUBLISHED_RANGE("b* of a bare strand", guess, 10, 30, bare.b);
  }
  const auto white = tress_lab({.strand_um = kUsual, .base = kWhiteBase});
  EXPECT_PUBLISHED_RANGE("dE00 of white hair to (70, 1.5, 15), from memory", guess, 0, 1.4,
                         colour::delta_e_2000(colour::HairLab{70, 1.5, 15}, white));
}

}  // namespace
}  // namespace hw::hair
