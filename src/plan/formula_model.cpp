#include "formula_model.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

/// Weights worked in, so that sums over lanes are sums over the belief.
void weigh(const FormulaLanes& lanes, const FormulaBlock& block, BlockMetric& metric) {
  for (std::size_t m = 0; m < block.count; ++m) {
    const double weight = lanes.zone_weight[block.zone[m]] * block.weight[m];
    const double root = std::sqrt(weight);
    metric.difference[m] *= weight;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      metric.turn[axis][m] *= weight;
      for (std::size_t row = 0; row < 3; ++row) metric.bend[row][axis][m] *= root;
    }
  }
}

double dot(const double* a, const double* b, std::size_t count) {
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) sum += a[i] * b[i];
  return sum;
}

/// Turns derivatives at shares `at` into a quadratic of the shares themselves. linear: the first
/// derivative on entry. Returns the constant.
double centre(std::size_t size, const double* bend, double* linear, double value,
              const double* at) {
  std::vector<double> bent(size);
  double constant = value;
  for (std::size_t i = 0; i < size; ++i) {
    bent[i] = dot(bend + i * size, at, size);
    constant += at[i] * (0.5 * bent[i] - linear[i]);
  }
  for (std::size_t i = 0; i < size; ++i) linear[i] -= bent[i];
  return constant;
}

}  // namespace

SearchSpectrum bowl_of(const SearchShelf& shelf, const Mix& mix) {
  SearchSpectrum bowl{};
  for (std::size_t i = 0; i < mix.count; ++i) {
    const SearchSpectrum& spectrum = shelf.spectra[mix.shade[i]];
    for (std::size_t band = 0; band < kSearchBands; ++band) {
      bowl[band] += mix.share[i] * spectrum[band];
    }
  }
  return bowl;
}

double price_of(const SearchShelf& shelf, const Mix& mix) {
  double price = 0;
  for (std::size_t i = 0; i < mix.count; ++i) price += mix.share[i] * shelf.price[mix.shade[i]];
  return price;
}

double objective(const FormulaLanes& lanes, const SearchShelf& shelf, const Mix& mix) {
  return expected_de00(lanes, bowl_of(shelf, mix).data()) + price_of(shelf, mix);
}

void slopes_at(const FormulaLanes& lanes, const SearchSpectrum& bowl, Slopes& slopes) {
  slopes.value = 0;
  slopes.first.fill(0);
  slopes.metric.resize(lanes.blocks.size());
  slopes.reflectance.resize(lanes.blocks.size());
  const BlockBands bands = lanes.grid->bands();
  for (std::size_t i = 0; i < lanes.blocks.size(); ++i) {
    const FormulaBlock& block = lanes.blocks[i];
    BlockMetric& metric = slopes.metric[i];
    slopes.reflectance[i].resize(bands.count * block.count);
    BlockXyz xyz;
    formula_slopes(block.hair(), bands, bowl.data(), xyz, slopes.reflectance[i].data());
    formula_metric(block.count, block.target(), bands.white, xyz, metric);
    weigh(lanes, block, metric);
    for (std::size_t m = 0; m < block.count; ++m) slopes.value += metric.difference[m];
    formula_first(block.count, bands, slopes.reflectance[i].data(), metric, slopes.first.data());
  }
}

void model_of_shelf(const FormulaLanes& lanes, const SearchShelf& shelf, const Slopes& slopes,
                    std::span<const double> at, Quadratic& model) {
  const std::size_t n = shelf.size();
  const std::size_t bands = lanes.grid->count;
  alignas(64) double bend[kSearchBands][kSearchBands] = {};
  for (std::size_t i = 0; i < lanes.blocks.size(); ++i) {
    formula_bend(lanes.blocks[i].count, lanes.grid->bands(), slopes.reflectance[i].data(),
                 slopes.metric[i], bend);
  }
  model.size = n;
  model.linear.resize(n);
  model.bend.resize(n * n);
  std::vector<double> bent(bands * n);
  formula_gram(bands, n, shelf.by_band.data(), bend, bent.data(), model.bend.data());
  double value = slopes.value;
  for (std::size_t k = 0; k < n; ++k) {
    model.linear[k] = shelf.price[k] + dot(slopes.first.data(), shelf.spectra[k].data(), bands);
    value += at[k] * shelf.price[k];
  }
  model.constant = centre(n, model.bend.data(), model.linear.data(), value, at.data());
}

FewShades few_at(const FormulaLanes& lanes, const SearchShelf& shelf, const Slopes& slopes,
                 const Mix& mix) {
  const std::size_t n = mix.count;
  FewShades few;
  few.size = n;
  alignas(64) double rows[kMostInBowl][3][kBlockLanes];
  for (std::size_t i = 0; i < lanes.blocks.size(); ++i) {
    const std::size_t count = lanes.blocks[i].count;
    for (std::size_t k = 0; k < n; ++k) {
      formula_jacobian(count, lanes.grid->bands(), slopes.reflectance[i].data(), slopes.metric[i],
                       shelf.spectra[mix.shade[k]].data(), rows[k]);
      for (std::size_t other = 0; other <= k; ++other) {
        for (std::size_t row = 0; row < 3; ++row) {
          few.bend[k * n + other] += dot(rows[k][row], rows[other][row], count);
        }
      }
    }
  }
  for (std::size_t k = 0; k < n; ++k) {
    few.cap[k] = shelf.cap[mix.shade[k]];
    few.linear[k] = shelf.price[mix.shade[k]] +
                    dot(slopes.first.data(), shelf.spectra[mix.shade[k]].data(), lanes.grid->count);
    for (std::size_t other = 0; other < k; ++other)
      few.bend[other * n + k] = few.bend[k * n + other];
  }
  few.constant = centre(n, few.bend.data(), few.linear.data(), slopes.value + price_of(shelf, mix),
                        mix.share.data());
  return few;
}

namespace {

/// The pair between which moving share helps most, by first derivative: from the one with most to
/// lose to the one with most to gain. Index `size` is clear, whose derivative is 0.
struct Move {
  std::size_t from = 0, to = 0;
  double gain = 0;
};
Move best_move(const ShareProblem& problem, const double* slope, const double* share, double left) {
  Move move;
  double most = -1e300;
  double least = 1e300;
  for (std::size_t i = 0; i < problem.size; ++i) {
    if (share[i] > problem.least && slope[i] > most) {
      most = slope[i];
      move.from = i;
    }
    if (share[i] < problem.cap[i] && slope[i] < least) {
      least = slope[i];
      move.to = i;
    }
  }
  if (problem.clear && left > 0 && 0 > most) {
    most = 0;
    move.from = problem.size;
  }
  if (problem.clear && 0 < least) {
    least = 0;
    move.to = problem.size;
  }
  move.gain = most - least;
  return move;
}

/// How far a move goes: to the end of its gain, of what there is to take or of what there is room
/// for.
double amount_of(const ShareProblem& problem, const Move& move, const double* share, double left) {
  constexpr double kLeastBend = 1e-9;
  const std::size_t n = problem.size;
  double bend = kLeastBend;
  if (move.from < n) bend += problem.bend[move.from * n + move.from];
  if (move.to < n) bend += problem.bend[move.to * n + move.to];
  if (move.from < n && move.to < n) bend -= 2 * problem.bend[move.from * n + move.to];
  double amount = move.gain / std::max(bend, kLeastBend);
  amount = std::min(amount, move.from < n ? share[move.from] - problem.least : left);
  if (move.to < n) amount = std::min(amount, problem.cap[move.to] - share[move.to]);
  return amount;
}

void shift(const ShareProblem& problem, std::size_t shade, double amount, double* slope,
           double* share, double& left) {
  if (shade == problem.size) {
    left += amount;
    return;
  }
  const double* bend = problem.bend + shade * problem.size;
  share[shade] += amount;
  for (std::size_t i = 0; i < problem.size; ++i) slope[i] += amount * bend[i];
}

}  // namespace

double best_shares(const ShareProblem& problem, double* share, double* slope) {
  constexpr int kMostMoves = 400;
  constexpr double kTolerance = 1e-3;  // CIEDE2000 that a whole bowl moved could still gain
  const std::size_t n = problem.size;
  double left = 1;
  for (std::size_t i = 0; i < n; ++i) {
    slope[i] = problem.linear[i] + dot(problem.bend + i * n, share, n);
    left -= share[i];
  }
  for (int moves = 0; moves < kMostMoves; ++moves) {
    const Move move = best_move(problem, slope, share, left);
    if (move.gain < kTolerance) break;
    const double amount = amount_of(problem, move, share, left);
    if (amount <= 0) break;
    shift(problem, move.from, -amount, slope, share, left);
    shift(problem, move.to, amount, slope, share, left);
  }
  double value = problem.constant;
  for (std::size_t i = 0; i < n; ++i) value += 0.5 * share[i] * (problem.linear[i] + slope[i]);
  return value;
}

FewShades few_of(const Quadratic& model, const SearchShelf& shelf, const Mix& mix) {
  FewShades few;
  few.size = mix.count;
  few.constant = model.constant;
  for (std::size_t i = 0; i < mix.count; ++i) {
    const std::size_t shade = mix.shade[i];
    few.linear[i] = model.linear[shade];
    few.cap[i] = shelf.cap[shade];
    for (std::size_t j = 0; j < mix.count; ++j) {
      few.bend[i * mix.count + j] = model.bend[shade * model.size + mix.shade[j]];
    }
  }
  return few;
}

}  // namespace hw::plan
