#include "huewright/hair/ladder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "embedded.h"
#include "hair_tables.h"
#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

namespace hw::hair {
namespace {

using Rungs = std::array<double, kRungs>;

constexpr double kLightest = 100;              // L* of the perfect white: CIELAB
constexpr double kLastLevel = 10;              // trade scale: common practice
constexpr double kNeighbourCorrelation = 0.7;  // [1]: guess
constexpr double kLeastStep = 0.25;            // [L*]: guess, below what a colorimeter tells apart
constexpr double kBrightnessExponent = 0.766;  // [1]: dyed_hair_brightness_2023, abstract

/// The rung below a level and the share of the rung above it.
struct Position {
  std::size_t rung;
  double share;
};

Position position_of(double level) {
  const double from_first = std::clamp(level, 1.0, kLastLevel) - 1;
  const auto rung = std::min(static_cast<std::size_t>(from_first), kRungs - 2);
  return {rung, from_first - static_cast<double>(rung)};
}

/// A symmetric tridiagonal system: diagonal, and the entry beside it to the right.
struct Tridiagonal {
  Rungs diagonal{};
  Rungs beside{};

  /// Solves for x by elimination without pivoting, which is stable as the matrix is positive
  /// definite.
  [[nodiscard]] Rungs solve(const Rungs& right) const {
    Rungs pivot = diagonal;
    Rungs x = right;
    for (std::size_t i = 1; i < kRungs; ++i) {
      const double factor = beside[i - 1] / pivot[i - 1];
      pivot[i] -= factor * beside[i - 1];
      x[i] -= factor * x[i - 1];
    }
    x[kRungs - 1] /= pivot[kRungs - 1];
    for (std::size_t i = kRungs - 1; i-- > 0;) x[i] = (x[i] - beside[i] * x[i + 1]) / pivot[i];
    return x;
  }
};

/// Inverse covariance of rungs whose correlation is rho^|i − j| (a first-order chain).
Tridiagonal precision_of(const RungPrior& scatter) {
  const double rho = scatter.neighbour_correlation;
  const double scale = 1 / (1 - rho * rho);
  Tridiagonal precision;
  for (std::size_t i = 0; i < kRungs; ++i) {
    const bool end = i == 0 || i + 1 == kRungs;
    const double sd = scatter.sd_lstar[i];
    precision.diagonal[i] = scale * (end ? 1 : 1 + rho * rho) / (sd * sd);
    if (i + 1 < kRungs) precision.beside[i] = -scale * rho / (sd * scatter.sd_lstar[i + 1]);
  }
  return precision;
}

/// The nearest strictly rising ladder: pool-adjacent-violators on rungs less their least steps.
Rungs made_rising(const Rungs& wish, const Rungs& weights, double step) {
  struct Block {
    double value;
    double weight;
    std::size_t count;
  };
  std::vector<Block> blocks;
  for (std::size_t i = 0; i < kRungs; ++i) {
    blocks.push_back({wish[i] - step * static_cast<double>(i), weights[i], 1});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].value > blocks.back().value) {
      const Block last = blocks.back();
      blocks.pop_back();
      Block& into = blocks.back();
      const double weight = into.weight + last.weight;
      into.value = (into.value * into.weight + last.value * last.weight) / weight;
      into.weight = weight;
      into.count += last.count;
    }
  }
  Rungs rising{};
  std::size_t i = 0;
  for (const Block& block : blocks) {
    const double most = kLightest - step * static_cast<double>(kRungs - 1);
    const double value = std::clamp(block.value, 0.0, most);
    for (std::size_t k = 0; k < block.count; ++k, ++i) {
      rising[i] = value + step * static_cast<double>(i);
    }
  }
  return rising;
}

double smallest_step(const Rungs& rungs) {
  double step = kLightest;
  for (std::size_t i = 1; i < kRungs; ++i) step = std::min(step, rungs[i] - rungs[i - 1]);
  return step;
}

Result<void> check_swatch(const Swatch& swatch, std::size_t index) {
  const auto at = [index](const char* key) { return fmt::format("swatches[{}].{}", index, key); };
  if (!(swatch.level >= 1 && swatch.level <= kLastLevel)) {
    return fail(ErrorCode::out_of_range, fmt::format("{:g} is not a level", swatch.level),
                at("level"), "give a level from 1 to 10");
  }
  if (!(swatch.lstar >= 0 && swatch.lstar <= kLightest)) {
    return fail(ErrorCode::out_of_range, fmt::format("{:g} is not an L*", swatch.lstar),
                at("lstar"), "give the reading, 0 to 100, at D65 and 10 degrees");
  }
  if (!(swatch.sd_lstar > 0 && std::isfinite(swatch.sd_lstar))) {
    return fail(ErrorCode::out_of_range, fmt::format("{:g} is not a spread", swatch.sd_lstar),
                at("sd_lstar"), "give the sd of the reading in L*, above 0");
  }
  return {};
}

Result<void> check_scatter(const RungPrior& scatter) {
  for (std::size_t i = 0; i < kRungs; ++i) {
    if (!(scatter.sd_lstar[i] > 0 && std::isfinite(scatter.sd_lstar[i]))) {
      return fail(ErrorCode::out_of_range, fmt::format("{:g} is not a spread", scatter.sd_lstar[i]),
                  fmt::format("scatter.sd_lstar[{}]", i), "give an sd in L*, above 0");
    }
  }
  if (!(scatter.neighbour_correlation >= 0 && scatter.neighbour_correlation < 1)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{:g} is not a correlation", scatter.neighbour_correlation),
                "scatter.neighbour_correlation", "give 0 to below 1");
  }
  return {};
}

/// How far the most likely rungs lie from the prior ones. weights: certainty of each rung, out.
Rungs shift_towards(const Rungs& prior, std::span<const Swatch> swatches, const RungPrior& scatter,
                    Rungs& weights) {
  Tridiagonal precision = precision_of(scatter);
  Rungs pull{};
  for (const Swatch& swatch : swatches) {
    const auto [rung, share] = position_of(swatch.level);
    const double certainty = 1 / (swatch.sd_lstar * swatch.sd_lstar);
    const double below = 1 - share;
    const double miss = swatch.lstar - (below * prior[rung] + share * prior[rung + 1]);
    precision.diagonal[rung] += certainty * below * below;
    precision.diagonal[rung + 1] += certainty * share * share;
    precision.beside[rung] += certainty * below * share;
    pull[rung] += certainty * below * miss;
    pull[rung + 1] += certainty * share * miss;
  }
  weights = precision.diagonal;
  return precision.solve(pull);
}

}  // namespace

double Ladder::level_of(double lstar) const {
  if (lstar <= rungs_.front()) return 1;
  if (lstar >= rungs_.back()) return kLastLevel;
  const auto above = std::upper_bound(rungs_.begin(), rungs_.end(), lstar);
  const auto rung = static_cast<std::size_t>(above - rungs_.begin()) - 1;
  const double share = (lstar - rungs_[rung]) / (rungs_[rung + 1] - rungs_[rung]);
  return 1 + static_cast<double>(rung) + share;
}

double Ladder::lstar_of(double level) const {
  const auto [rung, share] = position_of(level);
  return (1 - share) * rungs_[rung] + share * rungs_[rung + 1];
}

Result<Ladder> make_ladder(std::span<const double> lstar) {
  if (lstar.size() != kRungs) {
    return fail(ErrorCode::malformed, fmt::format("has {} rungs, not {}", lstar.size(), kRungs),
                "ladder", "give one L* for each level from 1 to 10");
  }
  Rungs rungs{};
  for (std::size_t i = 0; i < kRungs; ++i) {
    const std::string where = fmt::format("ladder[{}]", i);
    if (!(lstar[i] >= 0 && lstar[i] <= kLightest)) {
      return fail(ErrorCode::out_of_range, fmt::format("{:g} is not an L*", lstar[i]), where,
                  "give an L* from 0 to 100");
    }
    if (i > 0 && !(lstar[i] > lstar[i - 1])) {
      return fail(
          ErrorCode::conflict,
          fmt::format("{:g} does not lie above the level before, {:g}", lstar[i], lstar[i - 1]),
          where, "let L* rise from each level to the next");
    }
    rungs[i] = lstar[i];
  }
  return Ladder(rungs);
}

const Ladder& default_ladder() {
  static const Ladder ladder = [] {
    const Table table = embedded(tables::ladder, "hair/ladder.csv");
    return sound(make_ladder(sound(table.numbers("lstar"))));
  }();
  return ladder;
}

const RungPrior& default_rung_prior() {
  static const RungPrior scatter = [] {
    const Table table = embedded(tables::ladder, "hair/ladder.csv");
    const std::vector<double> sd = sound(table.numbers("sd_lstar"));
    HW_CHECK(sd.size() == kRungs);
    RungPrior made;
    std::copy(sd.begin(), sd.end(), made.sd_lstar.begin());
    made.neighbour_correlation = kNeighbourCorrelation;
    return made;
  }();
  return scatter;
}

Result<Refit> refit(const Ladder& prior, std::span<const Swatch> swatches,
                    const RungPrior& scatter) {
  if (auto good = check_scatter(scatter); !good) return tl::unexpected(good.error());
  for (std::size_t i = 0; i < swatches.size(); ++i) {
    if (auto good = check_swatch(swatches[i], i); !good) return tl::unexpected(good.error());
  }
  if (swatches.empty()) return Refit{prior, {}, 0};

  const Rungs& before = prior.rungs();
  Rungs weights{};
  Rungs wish = shift_towards(before, swatches, scatter, weights);
  for (std::size_t i = 0; i < kRungs; ++i) wish[i] += before[i];

  const double step = std::min(kLeastStep, smallest_step(before));
  const Rungs after = made_rising(wish, weights, step);
  auto ladder = make_ladder(after);
  if (!ladder) return tl::unexpected(ladder.error());
  Refit result{*ladder, {}, 0};
  for (std::size_t i = 0; i < kRungs; ++i) {
    result.moved_lstar[i] = after[i] - before[i];
    // 1e-9 L* is above rounding and far below any reading.
    if (std::abs(after[i] - wish[i]) > 1e-9) ++result.pooled;
  }
  return result;
}

double perceived_depth(double lstar) {
  return lstar > 0 ? pow_portable(lstar, kBrightnessExponent) : 0;
}

}  // namespace hw::hair
