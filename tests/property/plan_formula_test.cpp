// The solver on many random shelves: how near the quick formula comes to the full search, that the
// lower bound is one, that the model's derivatives are those of the objective.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

#include "formula_search.h"
#include "huewright/colour/difference.h"
#include "huewright/colour/light.h"
#include "support/formula_shelf.h"

namespace hw::plan {
namespace {

using test::random_shelf;
using test::random_zones;

std::vector<double> shares_of(const Formula& formula, std::size_t shades, double colour_g) {
  std::vector<double> shares(shades, 0);
  for (const FormulaPour& pour : formula.pours) shares[pour.shade] = pour.grams / colour_g;
  return shares;
}

double expected(const std::vector<FormulaShade>& shelf, const std::vector<FormulaZone>& zones,
                const std::vector<double>& shares) {
  const auto by_zone = score_shares(shelf, zones, shares);
  double sum = 0;
  double weight = 0;
  for (std::size_t z = 0; z < zones.size(); ++z) {
    sum += zones[z].weight * by_zone[z];
    weight += zones[z].weight;
  }
  return sum / weight;
}

/// The first sixteenth of the members, as a planner hands them to the quick formula.
std::vector<FormulaZone> a_sixteenth(const std::vector<FormulaZone>& zones) {
  return test::first_members(zones, zones.front().uptake.size() / 16);
}

TEST(QuickFormula, comes_within_half_a_unit_of_the_full_search) {
  constexpr double kPromise = 0.5;  // CIEDE2000, formula.h
  constexpr std::size_t kShelves = 60;
  constexpr std::size_t kMembers = 256;
  const auto pool = make_thread_pool(2);
  std::vector<double> behind;
  for (std::uint64_t seed = 1; seed <= kShelves; ++seed) {
    const Draws draws(seed);
    const auto shelf = random_shelf(draws, 4 + draws.below(27, 1, 0));
    const auto zones = random_zones(draws, 1 + draws.below(4, 2, 0), kMembers);
    FormulaRules rules;
    rules.clear = draws.uniform(3, 0) < 0.7;
    rules.most_shades = 3 + draws.below(2, 4, 0);
    const auto full = find_formulas(shelf, zones, rules, *pool);
    const auto quick = quick_formula(shelf, a_sixteenth(zones), rules);
    ASSERT_TRUE(full && quick) << seed;
    const double found = expected(shelf, zones, shares_of(*quick, shelf.size(), rules.colour_g));
    behind.push_back(found - full->best.front().expected_de00);
  }
  std::sort(behind.begin(), behind.end());
  std::printf("quick behind full over %zu shelves: median %.3f, 95 %% %.3f, most %.3f CIEDE2000\n",
              kShelves, behind[kShelves / 2], behind[kShelves * 95 / 100], behind.back());
  EXPECT_LE(behind[kShelves * 95 / 100], kPromise);
}

/// Every weighing of at most three of the shades, on all members.
class EveryWeighing {
 public:
  EveryWeighing(const std::vector<FormulaShade>& shelf, const std::vector<FormulaZone>& zones,
                const FormulaRules& rules)
      : shelf_(shelf), zones_(zones), rules_(rules), grams_(shelf.size(), 0) {
    pour(0, static_cast<int>(rules.colour_g), 0);
  }
  [[nodiscard]] double best() const { return best_; }
  [[nodiscard]] std::size_t count() const { return count_; }

 private:
  void pour(std::size_t shade, int left, std::size_t used) {
    if (shade == shelf_.size()) {
      if (left == 0 || rules_.clear) judge();
      return;
    }
    pour(shade + 1, left, used);
    if (used == rules_.most_shades) return;
    const int most = std::min(left, static_cast<int>(shelf_[shade].stock_g));
    for (int grams = static_cast<int>(rules_.smallest_g); grams <= most; ++grams) {
      grams_[shade] = grams;
      pour(shade + 1, left - grams, used + 1);
    }
    grams_[shade] = 0;
  }
  void judge() {
    std::vector<double> shares(shelf_.size());
    double cost = 0;
    for (std::size_t k = 0; k < shelf_.size(); ++k) {
      shares[k] = grams_[k] / rules_.colour_g;
      cost += grams_[k] * shelf_[k].price_per_g;
    }
    ++count_;
    best_ = std::min(best_, expected(shelf_, zones_, shares) + rules_.de_per_money * cost);
  }

  const std::vector<FormulaShade>& shelf_;
  const std::vector<FormulaZone>& zones_;
  const FormulaRules& rules_;
  std::vector<double> grams_;
  double best_ = 1e300;
  std::size_t count_ = 0;
};

TEST(FormulaSearch, is_as_good_as_trying_every_weighing_of_a_small_shelf) {
  constexpr double kPromise = 0.05;  // CIEDE2000
  constexpr std::size_t kShelves = 120;
  InlineExecutor executor;
  double worst = 0;
  std::size_t tried = 0;
  for (std::uint64_t seed = 1; seed <= kShelves; ++seed) {
    const Draws draws(1000 + seed);
    auto shelf = random_shelf(draws, 3 + draws.below(2, 1, 0));
    // Representatives are all members: what is compared is the search.
    const auto zones = random_zones(draws, 1 + draws.below(2, 2, 0), 16);
    FormulaRules rules;
    rules.colour_g = 10 + static_cast<double>(draws.below(9, 3, 0));
    rules.smallest_g = 1 + static_cast<double>(draws.below(3, 4, 0));
    rules.clear = draws.uniform(5, 0) < 0.6;
    rules.de_per_money = draws.uniform(6, 0) < 0.5 ? 0 : 0.2;
    for (std::size_t k = 0; k < shelf.size(); ++k) {
      if (draws.uniform(7, k) < 0.25) shelf[k].stock_g = std::floor(12 * draws.uniform(8, k));
    }
    const EveryWeighing all(shelf, zones, rules);
    const auto found = find_formulas(shelf, zones, rules, executor);
    tried += all.count();
    if (all.best() >= 1e300) {
      EXPECT_FALSE(found) << seed;
      continue;
    }
    ASSERT_TRUE(found) << seed << one_line(found.error());
    EXPECT_GE(found->best.front().objective, all.best() - 1e-9) << seed;
    EXPECT_LE(found->best.front().objective, all.best() + kPromise) << seed;
    worst = std::max(worst, found->best.front().objective - all.best());
  }
  std::printf("%zu shelves, %zu weighings: the search is at most %.4f CIEDE2000 behind\n", kShelves,
              tried, worst);
}

TEST(FormulaKernel, gives_the_published_difference) {
  // colour::delta_e_2000 is held to all pairs of sharma2005; the kernel has no arc tangent.
  const Draws draws(2);
  constexpr std::size_t kPairs = 4096;
  double worst = 0;
  double worst_near = 0;
  for (std::size_t first = 0; first < kPairs; first += kBlockLanes) {
    alignas(64) double l[kBlockLanes], a[kBlockLanes], b[kBlockLanes], found[kBlockLanes];
    std::vector<colour::HairLab> seen;
    BlockXyz xyz;
    for (std::size_t m = 0; m < kBlockLanes; ++m) {
      const std::size_t i = first + m;
      l[m] = 100 * draws.uniform(1, i);
      a[m] = 160 * draws.uniform(2, i) - 80;
      b[m] = 160 * draws.uniform(3, i) - 80;
      const bool close = i % 2 == 0;  // near pairs and far ones by turns
      const double reach = close ? 5 : 160;
      const auto held = [](double v, double least, double most) {
        return std::clamp(v, least, most);
      };
      seen.push_back({held(l[m] + reach * (draws.uniform(4, i) - 0.5), 1, 100),
                      held(a[m] + reach * (draws.uniform(5, i) - 0.5), -80, 80),
                      held(b[m] + reach * (draws.uniform(6, i) - 0.5), -80, 80)});
      const auto as_xyz = colour::lab_to_xyz(seen.back());
      // The kernel holds negative light to none; so does this check.
      xyz.x[m] = std::max(0.0, as_xyz.x);
      xyz.y[m] = std::max(0.0, as_xyz.y);
      xyz.z[m] = std::max(0.0, as_xyz.z);
      seen.back() = colour::xyz_to_lab(colour::HairXyz{xyz.x[m], xyz.y[m], xyz.z[m]});
    }
    formula_differences(kBlockLanes, {l, a, b}, fine_grid().white.data(), xyz, found);
    for (std::size_t m = 0; m < kBlockLanes; ++m) {
      const colour::HairLab target{l[m], a[m], b[m]};
      // Opposite hues sit on a jump of the formula (colour/difference.h).
      const double turned = std::abs(target.a * seen[m].b - target.b * seen[m].a);
      if (turned < 0.02 * std::hypot(target.a, target.b) * std::hypot(seen[m].a, seen[m].b)) {
        continue;
      }
      const double exact = colour::delta_e_2000(target, seen[m]);
      worst = std::max(worst, std::abs(found[m] - exact));
      if (exact < 10) worst_near = std::max(worst_near, std::abs(found[m] - exact));
    }
  }
  std::printf("largest error of the kernel's CIEDE2000: %.2g, of differences below 10: %.2g\n",
              worst, worst_near);
  EXPECT_LE(worst, 2e-4);
  EXPECT_LE(worst_near, 1e-5);
}

TEST(FormulaGrid, few_bands_see_what_many_see) {
  double coarse = 0;
  double rough = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Draws draws(seed);
    const auto shelf = random_shelf(draws, 12);
    const auto zones = random_zones(draws, 2, 16);
    const auto members = all_members(zones);
    const FormulaLanes fine_lanes = lanes_of(zones, members, fine_grid());
    const FormulaLanes coarse_lanes = lanes_of(zones, members, coarse_grid());
    const FormulaLanes rough_lanes = lanes_of(zones, members, rough_grid());
    for (const FormulaShade& shade : shelf) {
      const double exact = expected_de00(fine_lanes, shade.full.data());
      coarse = std::max(
          coarse,
          std::abs(expected_de00(coarse_lanes, sampled(shade.full, coarse_grid()).data()) - exact));
      rough = std::max(
          rough,
          std::abs(expected_de00(rough_lanes, sampled(shade.full, rough_grid()).data()) - exact));
    }
  }
  std::printf("largest error of 10 nm: %.4f, of 20 nm: %.4f CIEDE2000\n", coarse, rough);
  EXPECT_LE(coarse, 0.05);
  EXPECT_LE(rough, 0.2);
}

TEST(FormulaModel, has_the_slope_of_the_objective) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Draws draws(seed);
    const auto shelf = search_shelf(random_shelf(draws, 8), {}, coarse_grid());
    const auto zones = random_zones(draws, 2, 40);
    const FormulaLanes lanes = lanes_of(zones, representatives(zones), coarse_grid());
    Mix mix{3, {0, 3, 5, 0}, {0.2, 0.3, 0.1, 0}, 0};
    const Quadratic model = model_at(lanes, shelf, mix);
    const double here = objective(lanes, shelf, mix);
    for (std::size_t i = 0; i < mix.count; ++i) {
      constexpr double kStep = 1e-4;
      Mix up = mix;
      up.share[i] += kStep;
      Mix down = mix;
      down.share[i] -= kStep;
      const double slope =
          (objective(lanes, shelf, up) - objective(lanes, shelf, down)) / (2 * kStep);
      double by_model = model.linear[mix.shade[i]];
      for (std::size_t j = 0; j < mix.count; ++j) {
        by_model += model.bend[mix.shade[i] * model.size + mix.shade[j]] * mix.share[j];
      }
      EXPECT_NEAR(by_model, slope, 1e-3 * (1 + std::abs(slope))) << seed;
    }
    double by_model = model.constant;
    for (std::size_t i = 0; i < mix.count; ++i) {
      by_model += mix.share[i] * model.linear[mix.shade[i]];
      for (std::size_t j = 0; j < mix.count; ++j) {
        by_model += 0.5 * mix.share[i] * mix.share[j] *
                    model.bend[mix.shade[i] * model.size + mix.shade[j]];
      }
    }
    EXPECT_NEAR(by_model, here, 1e-6);
  }
}

TEST(FormulaBound, lies_below_every_mixture) {
  std::size_t useful = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Draws draws(seed);
    const auto shelf = search_shelf(random_shelf(draws, 2), {}, coarse_grid());
    const auto zones = random_zones(draws, 2, 16);
    const FormulaLanes lanes = lanes_of(zones, all_members(zones), coarse_grid());
    SearchSpectrum least{};
    SearchSpectrum most{};
    for (std::size_t band = 0; band < kSearchBands; ++band) {
      least[band] = std::min(shelf.spectra[0][band], shelf.spectra[1][band]);
      most[band] = std::max(shelf.spectra[0][band], shelf.spectra[1][band]);
    }
    const double bound = least_de00(lanes, least.data(), most.data());
    double best = 1e300;
    for (int i = 0; i <= 20; ++i) {
      const Mix mix{2, {0, 1, 0, 0}, {i / 20.0, 1 - i / 20.0, 0, 0}, 0};
      best = std::min(best, objective(lanes, shelf, mix));
    }
    EXPECT_LE(bound, best + 1e-9) << seed;
    useful += bound > 0.5 * best ? 1 : 0;
  }
  std::printf("lower bound above half of the best pair's difference: %zu of 40 shelves\n", useful);
  EXPECT_GT(useful, 5U);
}

}  // namespace
}  // namespace hw::plan
