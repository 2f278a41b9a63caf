// Closed forms and the diffusion kernel against published and worked-out values; data in
// tests/data/diffusion and tests/data/kinetics.
#include <gtest/gtest.h>

#include <cmath>

#include "huewright/process/cylinder_series.h"
#include "huewright/process/kinetics.h"
#include "huewright/process/lift_constants.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using hw::test::Source;
using hw::test::test_table;

const Source kSeries{"crank_1975", "ch. 5, summed with 30 digits"};
const Source kOneTermTable{"cengel_heat_transfer", "Table 4-2"};

double cell(const Table& table, std::size_t row, std::string_view column) {
  const auto value = table.number(row, column);
  EXPECT_TRUE(value.has_value()) << column << " in row " << row;
  return value.value_or(NAN);
}

std::string label(const std::string& what, const Table& table, std::size_t row,
                  std::initializer_list<const char*> columns) {
  std::string text = what;
  for (const char* column : columns) {
    text += std::string(" ") + column + " " + table.text(row, column).value_or("?");
  }
  return text;
}

// The kernel has 24 cells and is here given 400 steps. Against the exact series that leaves at most
// 1.3e-3 of uptake, most where the front is thinner than the outer cells (τ 0.001, no resistance);
// other gradings of 24 cells were tried and move the error about without lowering it. A share of
// 1.5e-3 is about 2 s of a 30 min bowl.
constexpr double kKernelTolerance = 1.5e-3;

TEST(CylinderKernel, takes_up_what_the_series_says_without_resistance) {
  const Table table = test_table("diffusion/cylinder_uptake.csv");
  ASSERT_EQ(table.rows(), 14U);
  constexpr double kNone = 1e9;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    EXPECT_PUBLISHED(label("kernel uptake", table, row, {"tau"}), kSeries,
                     cell(table, row, "uptake"), cylinder_uptake(cell(table, row, "tau"), kNone),
                     kKernelTolerance);
  }
}

TEST(CylinderKernel, takes_up_what_the_series_says_through_a_cuticle) {
  const Table table = test_table("diffusion/cylinder_resistance.csv");
  ASSERT_EQ(table.rows(), 43U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double got = cylinder_uptake(cell(table, row, "tau"), cell(table, row, "biot"));
    EXPECT_PUBLISHED(label("kernel uptake", table, row, {"biot", "tau"}), kSeries,
                     cell(table, row, "uptake"), got, kKernelTolerance);
  }
}

TEST(CylinderSeries, matches_the_sums_worked_out_with_many_digits) {
  const Table plain = test_table("diffusion/cylinder_uptake.csv");
  for (std::size_t row = 0; row < plain.rows(); ++row) {
    const double tau = cell(plain, row, "tau");
    EXPECT_PUBLISHED(label("series uptake", plain, row, {"tau"}), kSeries,
                     cell(plain, row, "uptake"), cylinder_uptake_series(tau, kNoResistance), 1e-10);
    if (plain.text(row, "axis").value_or("").empty()) continue;
    EXPECT_PUBLISHED(label("strength on the axis", plain, row, {"tau"}), kSeries,
                     cell(plain, row, "axis"), cylinder_strength_series(0, tau, kNoResistance),
                     1e-10);
    EXPECT_PUBLISHED(label("strength at half radius", plain, row, {"tau"}), kSeries,
                     cell(plain, row, "half_radius"),
                     cylinder_strength_series(0.5, tau, kNoResistance), 1e-10);
  }
  const Table behind = test_table("diffusion/cylinder_resistance.csv");
  for (std::size_t row = 0; row < behind.rows(); ++row) {
    EXPECT_PUBLISHED(
        label("series uptake", behind, row, {"biot", "tau"}), kSeries, cell(behind, row, "uptake"),
        cylinder_uptake_series(cell(behind, row, "tau"), cell(behind, row, "biot")), 1e-9);
  }
}

TEST(CylinderSeries, finds_every_root) {
  const Table table = test_table("diffusion/cylinder_roots.csv");
  ASSERT_EQ(table.rows(), 7U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    for (int n = 1; n <= 6; ++n) {
      const std::string column = "beta" + std::to_string(n);
      EXPECT_PUBLISHED(label("root " + std::to_string(n), table, row, {"biot"}), kSeries,
                       cell(table, row, column), cylinder_root(n, cell(table, row, "biot")), 2e-12);
    }
  }
  const Table zeros = test_table("diffusion/j0_zeros.csv");
  ASSERT_EQ(zeros.rows(), 11U);
  for (std::size_t row = 0; row < zeros.rows(); ++row) {
    const int n = static_cast<int>(cell(zeros, row, "n"));
    EXPECT_PUBLISHED(label("zero of J0", zeros, row, {"n"}),
                     Source{"besseljzero_table", "first 11"}, cell(zeros, row, "zero"),
                     cylinder_root(n, kNoResistance), 1e-13);
    EXPECT_PUBLISHED(label("J1 at the zero", zeros, row, {"n"}), kSeries, cell(zeros, row, "j1"),
                     std::cyl_bessel_j(1.0, cylinder_root(n, kNoResistance)), 1e-13);
  }
}

TEST(CylinderSeries, stands_on_sound_bessel_functions) {
  const Table table = test_table("diffusion/bessel.csv");
  ASSERT_EQ(table.rows(), 23U);
  const Source source{"cengel_heat_transfer", "Table 4-3"};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double x = cell(table, row, "x");
    EXPECT_PUBLISHED(label("J0", table, row, {"x"}), source, cell(table, row, "j0"),
                     std::cyl_bessel_j(0.0, x), 0.5e-4);
    // The table prints 0.4400 where J1(1) is 0.44005.
    EXPECT_PUBLISHED(label("J1", table, row, {"x"}), source, cell(table, row, "j1"),
                     std::cyl_bessel_j(1.0, x), 0.6e-4);
  }
}

TEST(OneTerm, matches_the_printed_table_for_three_shapes) {
  const Table table = test_table("diffusion/one_term.csv");
  ASSERT_EQ(table.rows(), 16U);
  constexpr double kPrinted = 0.6e-4;  // four decimals, the last one off by one in places
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double biot = cell(table, row, "biot");
    const struct {
      const char* shape;
      OneTerm got;
    } shapes[] = {{"sheet", sheet_one_term(biot)},
                  {"cylinder", cylinder_one_term(biot)},
                  {"sphere", sphere_one_term(biot)}};
    for (const auto& [shape, got] : shapes) {
      const std::string name = shape;
      EXPECT_PUBLISHED(label(name + " root", table, row, {"biot"}), kOneTermTable,
                       cell(table, row, name + "_root"), got.beta, kPrinted);
      EXPECT_PUBLISHED(label(name + " A1", table, row, {"biot"}), kOneTermTable,
                       cell(table, row, name + "_a1"), got.coefficient, kPrinted);
    }
  }
}

TEST(OneTerm, gives_the_axis_after_the_start) {
  // Within 2 % above τ = 0.2, the limit the textbook states.
  for (const double tau : {0.2, 0.4, 0.8}) {
    const OneTerm term = cylinder_one_term(5);
    const double missing = term.coefficient * std::exp(-term.beta * term.beta * tau);
    EXPECT_PUBLISHED("still missing on the axis by one term, over the whole series", kOneTermTable,
                     1, missing / (1 - cylinder_strength_series(0, tau, 5)), 0.02);
  }
}

TEST(OtherShapes, match_the_printed_examples) {
  const Table table = test_table("diffusion/sheet_sphere.csv");
  ASSERT_EQ(table.rows(), 2U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double tau = cell(table, row, "tau");
    const std::string shape = table.text(row, "shape").value_or("");
    EXPECT_PUBLISHED(label("uptake", table, row, {"shape", "tau"}),
                     Source{"polykin_manual", "diffusion examples"}, cell(table, row, "uptake"),
                     shape == "sheet" ? sheet_uptake_series(tau) : sphere_uptake_series(tau),
                     1e-12);
  }
}

TEST(TwoStep, matches_the_textbook_form) {
  const Table table = test_table("kinetics/two_step.csv");
  ASSERT_EQ(table.rows(), 4U);
  const Source source{"textbook_kinetics", "consecutive first-order reactions"};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const TwoStep got =
        two_step(cell(table, row, "k1"), cell(table, row, "k2"), cell(table, row, "t"));
    EXPECT_PUBLISHED(label("A", table, row, {"k1", "k2", "t"}), source, cell(table, row, "a"),
                     got.a, 1e-12);
    EXPECT_PUBLISHED(label("B", table, row, {"k1", "k2", "t"}), source, cell(table, row, "b"),
                     got.b, 1e-12);
    EXPECT_PUBLISHED(label("C", table, row, {"k1", "k2", "t"}), source, cell(table, row, "c"),
                     got.c, 1e-12);
  }
}

TEST(SecondOrder, matches_the_textbook_form) {
  const Table table = test_table("kinetics/second_order.csv");
  ASSERT_EQ(table.rows(), 2U);
  const Source source{"textbook_kinetics", "second-order reaction of two partners"};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double a0 = cell(table, row, "a0");
    const double b0 = cell(table, row, "b0");
    const double k = cell(table, row, "k");
    const double t = cell(table, row, "t");
    EXPECT_PUBLISHED(label("A", table, row, {"a0", "b0", "k", "t"}), source, cell(table, row, "a"),
                     second_order_left(a0, b0, k, t), 1e-12);
    EXPECT_PUBLISHED(label("B", table, row, {"a0", "b0", "k", "t"}), source, cell(table, row, "b"),
                     second_order_left(b0, a0, k, t), 1e-12);
    EXPECT_PUBLISHED(label("C", table, row, {"a0", "b0", "k", "t"}), source, cell(table, row, "c"),
                     a0 - second_order_left(a0, b0, k, t), 1e-12);
  }
}

TEST(Arrhenius, matches_the_definition) {
  const Table table = test_table("kinetics/arrhenius.csv");
  ASSERT_EQ(table.rows(), 2U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const double got = cell(table, row, "rate") * arrhenius_factor(cell(table, row, "kj_per_mol"),
                                                                   cell(table, row, "from_c"),
                                                                   cell(table, row, "to_c"));
    EXPECT_PUBLISHED(label("rate", table, row, {"kj_per_mol", "from_c", "to_c"}),
                     Source{"codata_2018", "molar gas constant; definition of activation energy"},
                     cell(table, row, "rate_then"), got, 1e-9);
  }
}

TEST(Arrhenius, peroxide_doubles_its_loss_in_ten_degrees) {
  const Source calorimetry{"piyamongkala_dsc", "activation energy 57.6 kJ/mol"};
  EXPECT_PUBLISHED("Q10 between 25 and 35 degC", calorimetry, 2.13, arrhenius_factor(57.6, 25, 35),
                   0.02);
  for (const ConstantNote& note : constant_notes()) {
    if (note.name != "q10") continue;
    EXPECT_PUBLISHED_RANGE("Q10 of the model, low", calorimetry, 1.8, 2.2, note.low);
    EXPECT_PUBLISHED_RANGE("Q10 of the model", calorimetry, 1.8, 2.2, note.central);
    EXPECT_PUBLISHED_RANGE("Q10 of the model, high", calorimetry, 1.8, 2.2, note.high);
  }
}

TEST(PeroxideLoss, lies_between_a_bath_with_and_without_metals) {
  const Table table = test_table("kinetics/bath_decay.csv");
  ASSERT_EQ(table.rows(), 11U);
  double low = 0;
  double high = 0;
  double central = 0;
  for (const ConstantNote& note : constant_notes()) {
    if (note.name != "decay_per_min") continue;
    low = note.low;
    high = note.high;
    central = note.central;
  }
  ASSERT_LT(low, central);
  ASSERT_LT(central, high);
  const Source bath{"edman_marti_1961", "Table 1"};
  double start = 0;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const bool chelated = table.text(row, "chelator").value_or("") == "yes";
    const double minute = cell(table, row, "minute");
    if (minute == 0) start = cell(table, row, "peroxide_percent");
    // Two points of a hundred for the chelated bath. The bare one slows down after two hours
    // (0.0053, then 0.0031 per minute), so one rate can only follow it to within 15 points.
    EXPECT_PUBLISHED(label("per cent of the peroxide left", table, row, {"chelator", "minute"}),
                     bath, 100 * cell(table, row, "peroxide_percent") / start,
                     100 * std::exp(-(chelated ? low : high) * minute), chelated ? 2 : 15);
  }
  // The two numbers the bath is remembered by.
  EXPECT_PUBLISHED("left of a chelated bath at 60 min", bath, 92, 100 * std::exp(-low * 60), 2);
  EXPECT_PUBLISHED("left of a chelated bath at 180 min", bath, 77, 100 * std::exp(-low * 180), 2);
}

}  // namespace
}  // namespace hw::process
