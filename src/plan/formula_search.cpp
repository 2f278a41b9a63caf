#include "formula_search.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace hw::plan {
namespace {

/// Shares that keep to the caps and fill the bowl where there is no clear.
std::vector<double> start_of_all(const SearchShelf& shelf) {
  const double all = std::accumulate(shelf.cap.begin(), shelf.cap.end(), 0.0);
  constexpr double kFilled = 0.5;  // with clear: half a bowl of colour to start from
  const double wanted = shelf.clear ? std::min(kFilled, all) : 1;
  std::vector<double> share;
  if (all < wanted) return share;
  for (const double cap : shelf.cap) share.push_back(all > 0 ? cap * wanted / all : 0);
  return share;
}

SearchSpectrum bowl_of_all(const SearchShelf& shelf, std::span<const double> share) {
  SearchSpectrum bowl{};
  for (std::size_t k = 0; k < shelf.size(); ++k) {
    if (share[k] <= 0) continue;
    for (std::size_t band = 0; band < kSearchBands; ++band) {
      bowl[band] += share[k] * shelf.spectra[k][band];
    }
  }
  return bowl;
}

double value_of_all(const SearchShelf& shelf, const Slopes& slopes, std::span<const double> share) {
  double value = slopes.value;
  for (std::size_t k = 0; k < shelf.size(); ++k) value += share[k] * shelf.price[k];
  return value;
}

}  // namespace

SearchShelf search_shelf(std::span<const FormulaShade> shades, const FormulaRules& rules,
                         const FormulaGrid& grid) {
  SearchShelf shelf;
  shelf.clear = rules.clear;
  for (const FormulaShade& shade : shades) {
    shelf.spectra.push_back(sampled(shade.full, grid));
    shelf.cap.push_back(std::clamp(shade.stock_g / rules.colour_g, 0.0, 1.0));
    shelf.price.push_back(rules.de_per_money * rules.colour_g * shade.price_per_g);
  }
  for (std::size_t band = 0; band < kSearchBands; ++band) {
    for (const SearchSpectrum& spectrum : shelf.spectra) shelf.by_band.push_back(spectrum[band]);
  }
  return shelf;
}

bool can_fill(const SearchShelf& shelf, const Mix& mix) {
  if (shelf.clear) return true;
  constexpr double kRounding = 1e-9;
  double room = 0;
  for (std::size_t i = 0; i < mix.count; ++i) room += shelf.cap[mix.shade[i]];
  return room >= 1 - kRounding;
}

Relaxed relax(const FormulaLanes& lanes, const SearchShelf& shelf, int most_steps) {
  constexpr double kEnough = 0.01;  // CIEDE2000 gained in a step; a model needs no more
  Relaxed relaxed;
  relaxed.share = start_of_all(shelf);
  if (relaxed.share.empty()) return relaxed;
  Slopes slopes;
  slopes_at(lanes, bowl_of_all(shelf, relaxed.share), slopes);
  ++relaxed.evaluations;
  double value = value_of_all(shelf, slopes, relaxed.share);
  std::vector<double> slope(shelf.size());
  Slopes tried_slopes;
  for (int step = 0; step < most_steps; ++step) {
    model_of_shelf(lanes, shelf, slopes, relaxed.share, relaxed.model);
    std::vector<double> wanted = relaxed.share;
    best_shares({shelf.size(), relaxed.model.constant, relaxed.model.linear.data(),
                 relaxed.model.bend.data(), shelf.cap.data(), 0, shelf.clear},
                wanted.data(), slope.data());
    double gained = 0;
    for (double length = 1; length > 0.1; length /= 2) {
      std::vector<double> tried(shelf.size());
      for (std::size_t k = 0; k < shelf.size(); ++k) {
        tried[k] = relaxed.share[k] + length * (wanted[k] - relaxed.share[k]);
      }
      slopes_at(lanes, bowl_of_all(shelf, tried), tried_slopes);
      ++relaxed.evaluations;
      const double there = value_of_all(shelf, tried_slopes, tried);
      if (there >= value) continue;
      gained = value - there;
      value = there;
      relaxed.share = std::move(tried);
      std::swap(slopes, tried_slopes);
      break;
    }
    if (gained < kEnough) break;
  }
  model_of_shelf(lanes, shelf, slopes, relaxed.share, relaxed.model);
  return relaxed;
}

Quadratic model_at(const FormulaLanes& lanes, const SearchShelf& shelf, const Mix& mix) {
  Slopes slopes;
  slopes_at(lanes, bowl_of(shelf, mix), slopes);
  std::vector<double> share(shelf.size(), 0);
  for (std::size_t i = 0; i < mix.count; ++i) share[mix.shade[i]] = mix.share[i];
  Quadratic model;
  model_of_shelf(lanes, shelf, slopes, share, model);
  return model;
}

Refined refine(const FormulaLanes& lanes, const SearchShelf& shelf, Mix mix, int most_steps) {
  constexpr double kEnough = 2e-3;  // CIEDE2000 still to be gained, by the model
  Refined refined;
  Slopes slopes;
  Slopes tried_slopes;
  slopes_at(lanes, bowl_of(shelf, mix), slopes);
  ++refined.evaluations;
  mix.value = slopes.value + price_of(shelf, mix);
  for (int step = 0;; ++step) {
    refined.few = few_at(lanes, shelf, slopes, mix);
    if (step == most_steps) break;
    Mix wanted = mix;
    std::array<double, kMostInBowl> slope{};
    wanted.value = best_shares(refined.few.problem(shelf.clear), wanted.share.data(), slope.data());
    if (mix.value - wanted.value < kEnough) break;
    bool moved = false;
    for (double length = 1; length > 0.1 && !moved; length /= 2) {
      Mix tried = mix;
      for (std::size_t i = 0; i < mix.count; ++i) {
        tried.share[i] += length * (wanted.share[i] - mix.share[i]);
      }
      slopes_at(lanes, bowl_of(shelf, tried), tried_slopes);
      ++refined.evaluations;
      tried.value = tried_slopes.value + price_of(shelf, tried);
      if (tried.value >= mix.value) continue;
      mix = tried;
      std::swap(slopes, tried_slopes);
      moved = true;
    }
    if (!moved) break;
  }
  refined.mix = mix;
  return refined;
}

}  // namespace hw::plan
