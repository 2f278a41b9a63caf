#include <cmath>
#include <sstream>

#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/pigment.h"
#include "huewright/process/absorption_fit.h"
#include "huewright/process/nnls.h"
#include "huewright/process/shade.h"
#include "support/reference.h"

namespace hw::process {
namespace {

std::vector<double> numbers_in(const std::string& text) {
  std::istringstream in(text);
  std::vector<double> list;
  for (double value = 0; in >> value;) list.push_back(value);
  return list;
}

Columns matrix_of(const std::string& text) {
  std::vector<std::vector<double>> rows;
  std::istringstream in(text);
  for (std::string row; std::getline(in, row, ';');) rows.push_back(numbers_in(row));
  Columns matrix(rows.size(), rows[0].size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j < rows[i].size(); ++j) matrix.at(i, j) = rows[i][j];
  }
  return matrix;
}

TEST(NonnegativeLeastSquares, meets_the_published_cases) {
  const Table table = test::test_table("fit/nonnegative.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string name = *table.text(row, "name");
    const auto got = nonnegative_least_squares(matrix_of(*table.text(row, "a")),
                                               numbers_in(*table.text(row, "b")));
    const test::Source source{"nnls_cases", name};
    const double printed = name == "cd_test" ? 1e-7 : 5e-5;
    EXPECT_PUBLISHED("non-negative fit " + name + ", misfit", source,
                     *table.number(row, "residual_norm"), got.residual_norm,
                     name == "scipy_nnls" ? 1e-7 : printed);
    const auto x = numbers_in(*table.text(row, "x"));
    for (std::size_t j = 0; j < x.size(); ++j) {
      EXPECT_PUBLISHED("non-negative fit " + name + ", unknown", source, x[j], got.x[j],
                       name == "cd_test" ? 1e-6 : printed);
    }
    for (const double value : got.x) EXPECT_GE(value, 0);
  }
}

TEST(NonnegativeLeastSquares, no_allowed_point_near_by_is_better) {
  const Draws draws(11);
  for (std::uint64_t trial = 0; trial < 200; ++trial) {
    const std::size_t rows = 3 + draws.below(6, 1, trial);
    const std::size_t cols = 1 + draws.below(6, 2, trial);
    Columns a(rows, cols);
    std::vector<double> b(rows);
    for (std::size_t i = 0; i < rows; ++i) {
      for (std::size_t j = 0; j < cols; ++j) {
        a.at(i, j) = draws.normal(100 + trial, i * cols + j);
        if (j > 0 && trial % 4 == 0) a.at(i, j) = a.at(i, 0) * static_cast<double>(j + 1);
      }
      b[i] = draws.normal(5000 + trial, i);
    }
    const auto best = nonnegative_least_squares(a, b);
    for (std::size_t j = 0; j < cols; ++j) {
      EXPECT_GE(best.x[j], 0);
      for (const double step : {1e-3, -1e-3}) {
        std::vector<double> x = best.x;
        x[j] = std::max(0.0, x[j] + step);
        double sum = 0;
        for (std::size_t i = 0; i < rows; ++i) {
          double miss = -b[i];
          for (std::size_t k = 0; k < cols; ++k) miss += a.at(i, k) * x[k];
          sum += miss * miss;
        }
        EXPECT_GE(std::sqrt(sum), best.residual_norm - 1e-9) << trial;
      }
    }
  }
}

TEST(LeastSquares, a_column_that_others_give_gets_nothing) {
  Columns a(3, 2);
  for (std::size_t i = 0; i < 3; ++i) {
    a.at(i, 0) = static_cast<double>(i + 1);
    a.at(i, 1) = 2 * a.at(i, 0);
  }
  const auto got = least_squares(a, {2, 4, 6});
  EXPECT_NEAR(got.x[0], 2, 1e-12);
  EXPECT_EQ(got.x[1], 0);
  EXPECT_NEAR(got.residual_norm, 0, 1e-12);
}

TEST(AbsorptionFit, finds_the_amounts_that_made_a_colour) {
  const FitStrand white{hair::base_absorption(hair::kWhiteBase), Micrometres(70),
                        hair::kSurfaceTerm};
  const auto& parts = effective_colourants();
  for (const std::array<double, 3>& made :
       {std::array{20.0, 35.0, 9.0}, std::array{2.0, 1.0, 60.0}, std::array{300.0, 250.0, 200.0},
        std::array{5.0, 0.0, 0.0}}) {
    colour::Spectrum mu = white.absorption;
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      for (std::size_t k = 0; k < 3; ++k) mu[i] += made[k] * parts[k][i];
    }
    const auto wanted =
        colour::lab_of(hair::tress_reflectance(mu, white.strand, white.surface_term));
    const auto fit = fit_absorptions(wanted, white, parts);
    EXPECT_LT(fit.miss, 1e-4);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(fit.amounts[k], made[k], 0.02 * made[k] + 0.01);
  }
}

TEST(AbsorptionFit, ends_at_the_nearest_colour_that_absorption_can_give) {
  const FitStrand white{hair::base_absorption(hair::kWhiteBase), Micrometres(70),
                        hair::kSurfaceTerm};
  for (const colour::HairLab& wanted : {colour::HairLab{95, 0, 0}, {30, -40, 0}, {60, 70, 70}}) {
    const auto fit = fit_absorptions(wanted, white, effective_colourants());
    EXPECT_GT(fit.miss, 10);
    for (std::size_t k = 0; k < 3; ++k) {
      for (const double step : {0.3, -0.3}) {
        colour::Spectrum mu = white.absorption;
        for (std::size_t i = 0; i < colour::kBands; ++i) {
          for (std::size_t j = 0; j < 3; ++j) {
            const double amount = std::max(0.0, fit.amounts[j] + (j == k ? step : 0));
            mu[i] += amount * effective_colourants()[j][i];
          }
        }
        const auto lab =
            colour::lab_of(hair::tress_reflectance(mu, white.strand, white.surface_term));
        EXPECT_GE(colour::delta_e_76(wanted, lab), fit.miss - 1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace hw::process
