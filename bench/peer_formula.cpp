#include "peer_formula.h"

#include <nlopt.h>

#include <cmath>
#include <numeric>
#include <vector>

#include "huewright/base/check.h"
#include "huewright/base/random.h"

namespace hw::bench {
namespace {

constexpr double kFeasible = 1e-9;  // of a bowl, over the brim

/// What the library's callback works on.
struct Asked {
  const plan::FormulaLanes& lanes;
  const plan::SearchShelf& shelf;
  plan::Mix mix;
  plan::Mix best;
  plan::Slopes slopes;
  std::size_t evaluations = 0;
};

double value_of(unsigned count, const double* shares, double* gradient, void* data) {
  auto& asked = *static_cast<Asked*>(data);
  double sum = 0;
  for (unsigned i = 0; i < count; ++i) {
    asked.mix.share[i] = shares[i];
    sum += shares[i];
  }
  plan::slopes_at(asked.lanes, plan::bowl_of(asked.shelf, asked.mix), asked.slopes);
  ++asked.evaluations;
  asked.mix.value = asked.slopes.value + plan::price_of(asked.shelf, asked.mix);
  if (sum <= 1 + kFeasible && asked.mix.value < asked.best.value) asked.best = asked.mix;
  if (gradient != nullptr) {
    for (unsigned i = 0; i < count; ++i) {
      const std::size_t shade = asked.mix.shade[i];
      gradient[i] = asked.shelf.price[shade];
      for (std::size_t band = 0; band < asked.lanes.grid->count; ++band) {
        gradient[i] += asked.slopes.first[band] * asked.shelf.spectra[shade][band];
      }
    }
  }
  return asked.mix.value;
}

double over_the_brim(unsigned count, const double* shares, double* gradient, void*) {
  if (gradient != nullptr) std::fill_n(gradient, count, 1.0);
  return std::accumulate(shares, shares + count, -1.0);
}

/// A random point of the simplex.
void random_start(const Draws& draws, std::uint64_t number, std::vector<double>& shares) {
  double sum = -std::log(draws.uniform(number, shares.size()));
  for (std::size_t i = 0; i < shares.size(); ++i) {
    shares[i] = -std::log(draws.uniform(number, i));
    sum += shares[i];
  }
  for (double& share : shares) share /= sum;
}

/// The next subset in order; false after the last one.
bool advance(std::vector<std::size_t>& subset, std::size_t shades) {
  const std::size_t count = subset.size();
  for (std::size_t i = count; i-- > 0;) {
    if (subset[i] >= shades - count + i) continue;
    ++subset[i];
    for (std::size_t k = i + 1; k < count; ++k) subset[k] = subset[k - 1] + 1;
    return true;
  }
  return false;
}

}  // namespace

PeerFound search_by_slsqp(const plan::FormulaLanes& lanes, const plan::SearchShelf& shelf,
                          std::size_t count, std::size_t starts) {
  HW_CHECK(shelf.clear && count <= plan::kMostInBowl && count <= shelf.size());
  constexpr double kEnough = 1e-5;  // CIEDE2000, and of a bowl
  constexpr int kMostEvaluations = 100;
  const Draws draws(1);
  Asked asked{lanes, shelf, {}, {}, {}, 0};
  nlopt_opt peer = nlopt_create(NLOPT_LD_SLSQP, static_cast<unsigned>(count));
  nlopt_set_min_objective(peer, value_of, &asked);
  nlopt_add_inequality_constraint(peer, over_the_brim, nullptr, kFeasible);
  nlopt_set_lower_bounds1(peer, 0);
  nlopt_set_ftol_abs(peer, kEnough);
  nlopt_set_xtol_abs1(peer, kEnough);
  nlopt_set_maxeval(peer, kMostEvaluations);
  PeerFound found;
  std::vector<std::size_t> subset(count);
  std::iota(subset.begin(), subset.end(), std::size_t{0});
  std::vector<double> shares(count);
  std::uint64_t number = 0;
  do {
    asked.mix = {};
    asked.mix.count = count;
    std::vector<double> cap;
    for (std::size_t i = 0; i < count; ++i) {
      asked.mix.shade[i] = subset[i];
      cap.push_back(shelf.cap[subset[i]]);
    }
    nlopt_set_upper_bounds(peer, cap.data());
    for (std::size_t start = 0; start < starts; ++start) {
      random_start(draws, number++, shares);
      double value = 0;
      if (nlopt_optimize(peer, shares.data(), &value) < 0) ++found.failures;
    }
    ++found.subsets;
  } while (advance(subset, shelf.size()));
  nlopt_destroy(peer);
  found.best = asked.best;
  found.evaluations = asked.evaluations;
  return found;
}

}  // namespace hw::bench
