#include "huewright/plan/formula.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "formula_kernel.h"
#include "huewright/base/check.h"
#include "huewright/colour/difference.h"

namespace hw::plan {
namespace {

constexpr std::size_t kMostInBowl = 4;  // shades; the setting's upper end
constexpr std::size_t kBeam = 40;       // subsets of each size that are grown further

using Shares = std::array<double, kMostInBowl>;

/// A subset of shades with the best shares found for it.
struct Candidate {
  std::vector<std::size_t> shades;
  Shares shares{};
  double objective = 1e300;
};

struct Search {
  std::span<const FormulaShade> shades;
  const FormulaRules& rules;
  FormulaLanes lanes;
  std::vector<CoarseSpectrum> spectra;

  [[nodiscard]] double cap(std::size_t shade) const {
    return std::min(1.0, shades[shade].stock_g / rules.colour_g);
  }

  [[nodiscard]] double objective(const std::vector<std::size_t>& subset,
                                 const Shares& shares) const {
    CoarseSpectrum bowl{};
    double cost = 0;
    for (std::size_t i = 0; i < subset.size(); ++i) {
      for (std::size_t band = 0; band < kCoarseBands; ++band) {
        bowl[band] += shares[i] * spectra[subset[i]][band];
      }
      cost += shares[i] * rules.colour_g * shades[subset[i]].price_per_g;
    }
    return expected_de00(lanes, bowl) + rules.de_per_money * cost;
  }
};

/// Component `n` of a subset of n shades is clear: what the shares leave.
double part(const Shares& shares, std::size_t n, std::size_t i) {
  if (i < n) return shares[i];
  double left = 1;
  for (std::size_t k = 0; k < n; ++k) left -= shares[k];
  return left;
}

/// Moves share from one component to another as long as that helps, in ever smaller amounts.
void descend(const Search& search, Candidate& at, std::size_t& evaluations) {
  constexpr double kFirst = 0.25;
  constexpr int kHalvings = 6;  // down to 0.008 of the bowl, finer than a scale step
  const std::size_t n = at.shades.size();
  const std::size_t parts = n + (search.rules.clear ? 1 : 0);
  at.objective = search.objective(at.shades, at.shares);
  ++evaluations;
  double step = kFirst;
  for (int halving = 0; halving < kHalvings; ++halving, step /= 2) {
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t from = 0; from < parts; ++from) {
        for (std::size_t to = 0; to < parts; ++to) {
          const double amount =
              std::min({step, part(at.shares, n, from),
                        to < n ? search.cap(at.shades[to]) - at.shares[to] : step});
          if (from == to || amount <= 1e-9) continue;
          Shares tried = at.shares;
          if (from < n) tried[from] -= amount;
          if (to < n) tried[to] += amount;
          const double value = search.objective(at.shades, tried);
          ++evaluations;
          if (value < at.objective - 1e-9) {
            at.objective = value;
            at.shares = tried;
            moved = true;
          }
        }
      }
    }
  }
}

/// Lower bound of a subset: lightness between its lightest and darkest mixture.
double bound_of(const Search& search, const std::vector<std::size_t>& subset) {
  CoarseSpectrum least = search.spectra[subset[0]];
  CoarseSpectrum most = least;
  for (const std::size_t shade : subset) {
    for (std::size_t band = 0; band < kCoarseBands; ++band) {
      least[band] = std::min(least[band], search.spectra[shade][band]);
      most[band] = std::max(most[band], search.spectra[shade][band]);
    }
  }
  if (search.rules.clear) least.fill(0);
  return least_de00(search.lanes, least, most);
}

/// Starting shares of a grown subset: the smaller one's, with nothing yet of the newcomer; without
/// clear a single shade fills the bowl.
Candidate grown(const Candidate& smaller, std::size_t newcomer) {
  Candidate next = smaller;
  next.shades.push_back(newcomer);
  next.shares[next.shades.size() - 1] = 0;
  return next;
}

struct Level {
  std::vector<Candidate> searched;
  std::size_t subsets = 0, dropped = 0, evaluations = 0;
};

/// Searches every start of one subset size; starts of the same subset share its best.
Level search_level(const Search& search, std::vector<Candidate> starts, double incumbent,
                   Executor& executor) {
  Level level;
  level.subsets = starts.size();
  std::vector<std::size_t> evaluations(starts.size(), 0);
  std::vector<char> kept(starts.size(), 1);
  executor.run(starts.size(), [&](std::size_t i) {
    if (bound_of(search, starts[i].shades) > incumbent) {
      kept[i] = 0;
      return;
    }
    descend(search, starts[i], evaluations[i]);
  });
  for (std::size_t i = 0; i < starts.size(); ++i) {
    level.evaluations += evaluations[i];
    if (kept[i] == 0) ++level.dropped;
    if (kept[i] != 0) level.searched.push_back(std::move(starts[i]));
  }
  std::stable_sort(
      level.searched.begin(), level.searched.end(),
      [](const Candidate& a, const Candidate& b) { return a.objective < b.objective; });
  return level;
}

std::vector<Candidate> singles(const Search& search) {
  std::vector<Candidate> starts;
  for (std::size_t k = 0; k < search.shades.size(); ++k) {
    const double share = search.rules.clear ? 0.5 * search.cap(k) : 1.0;
    if (!search.rules.clear && search.cap(k) < 1) continue;  // cannot fill the bowl alone
    Candidate one;
    one.shades = {k};
    one.shares[0] = share;
    starts.push_back(one);
  }
  return starts;
}

std::vector<Candidate> grow(const Search& search, const std::vector<Candidate>& from) {
  std::vector<Candidate> starts;
  std::set<std::vector<std::size_t>> seen;
  for (std::size_t i = 0; i < from.size() && i < kBeam; ++i) {
    for (std::size_t k = 0; k < search.shades.size(); ++k) {
      const auto& subset = from[i].shades;
      if (std::find(subset.begin(), subset.end(), k) != subset.end()) continue;
      Candidate next = grown(from[i], k);
      std::vector<std::size_t> sorted = next.shades;
      std::sort(sorted.begin(), sorted.end());
      if (seen.insert(sorted).second) starts.push_back(std::move(next));
    }
  }
  return starts;
}

/// Whole steps of the scale near the best shares, searched by single steps.
Candidate rounded(const Search& search, Candidate at, std::size_t& evaluations) {
  const FormulaRules& rules = search.rules;
  const std::size_t n = at.shades.size();
  const double step = rules.step_g / rules.colour_g;
  const double least = rules.smallest_g / rules.colour_g;
  const auto allowed = [&](const Shares& shares) {
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (shares[i] < -1e-9 || (shares[i] > 1e-9 && shares[i] < least - 1e-9)) return false;
      if (shares[i] > search.cap(at.shades[i]) + 1e-9) return false;
      sum += shares[i];
    }
    return rules.clear ? sum <= 1 + 1e-9 : std::abs(sum - 1) <= 1e-9;
  };
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i) {
    at.shares[i] = std::floor(at.shares[i] / step + 1e-6) * step;
    if (at.shares[i] < least) at.shares[i] = 0;
    sum += at.shares[i];
  }
  if (!rules.clear) {  // the bowl must be full: the largest shade takes the rest
    const auto most = std::max_element(at.shares.begin(), at.shares.begin() + long(n));
    *most += std::round((1 - sum) / step) * step;
  }
  at.objective = allowed(at.shares) ? search.objective(at.shades, at.shares) : 1e300;
  for (bool moved = true; moved;) {
    moved = false;
    for (std::size_t from = 0; from <= n; ++from) {
      for (std::size_t to = 0; to <= n; ++to) {
        if (from == to || (!rules.clear && (from == n || to == n))) continue;
        for (const double jump : {step, std::max(step, least)}) {
          Shares tried = at.shares;
          if (from < n) tried[from] = tried[from] - jump < least - 1e-9 ? 0 : tried[from] - jump;
          if (to < n) tried[to] += from < n ? at.shares[from] - tried[from] : jump;
          if (!allowed(tried)) continue;
          const double value = search.objective(at.shades, tried);
          ++evaluations;
          if (value < at.objective - 1e-9) {
            at.objective = value;
            at.shares = tried;
            moved = true;
          }
        }
      }
    }
  }
  return at;
}

Formula formula_of(const Search& search, const Candidate& at, std::span<const FormulaZone> zones) {
  Formula formula;
  std::vector<double> shares(search.shades.size(), 0);
  double poured = 0;
  for (std::size_t i = 0; i < at.shades.size(); ++i) {
    if (at.shares[i] <= 0) continue;
    const double grams = std::round(at.shares[i] * search.rules.colour_g / search.rules.step_g) *
                         search.rules.step_g;
    formula.pours.push_back({at.shades[i], grams});
    formula.cost += grams * search.shades[at.shades[i]].price_per_g;
    shares[at.shades[i]] = at.shares[i];
    poured += grams;
  }
  std::stable_sort(formula.pours.begin(), formula.pours.end(),
                   [](const auto& a, const auto& b) { return a.grams > b.grams; });
  formula.clear_g = search.rules.clear ? search.rules.colour_g - poured : 0;
  formula.zone_de00 = score_shares(search.shades, zones, shares);
  double weight = 0;
  for (const FormulaZone& zone : zones) weight += zone.weight;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    formula.expected_de00 += formula.zone_de00[i] * zones[i].weight / weight;
  }
  formula.objective = formula.expected_de00 + search.rules.de_per_money * formula.cost;
  return formula;
}

Result<void> check(std::span<const FormulaShade> shades, std::span<const FormulaZone> zones,
                   const FormulaRules& rules) {
  if (shades.empty()) {
    return fail(ErrorCode::missing, "no shade to mix", "shades", "put colours on the shelf");
  }
  if (zones.empty()) return fail(ErrorCode::missing, "no zone to colour", "zones", "name a zone");
  if (rules.most_shades < 1 || rules.most_shades > kMostInBowl) {
    return fail(ErrorCode::out_of_range, fmt::format("{} shades in a bowl", rules.most_shades),
                "most_shades", "1 to 4");
  }
  if (!(rules.colour_g > 0) || !(rules.step_g > 0) || rules.step_g > rules.colour_g) {
    return fail(ErrorCode::out_of_range, "a bowl or a scale step of no grams", "colour_g",
                "give grams above 0, the step below the bowl");
  }
  for (const FormulaZone& zone : zones) {
    if (zone.uptake.size() != zone.canvas.size() || zone.uptake.empty()) {
      return fail(ErrorCode::conflict, "uptake has another length than the members", "zones", "");
    }
  }
  return {};
}

}  // namespace

std::vector<double> score_shares(std::span<const FormulaShade> shades,
                                 std::span<const FormulaZone> zones,
                                 std::span<const double> shares) {
  colour::Spectrum bowl{};
  for (std::size_t k = 0; k < shades.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) bowl[i] += shares[k] * shades[k].full[i];
  }
  std::vector<double> expected;
  for (const FormulaZone& zone : zones) {
    hair::TressMembers dyed = zone.canvas;
    dyed.dyes.push_back({bowl, zone.uptake});
    std::vector<colour::HairLab> labs(dyed.size());
    hair::tress_labs(dyed, labs);
    double sum = 0;
    for (const auto& lab : labs) sum += colour::delta_e_2000(zone.target, lab);
    expected.push_back(sum / static_cast<double>(labs.size()));
  }
  return expected;
}

Result<FormulaSearch> find_formulas(std::span<const FormulaShade> shades,
                                    std::span<const FormulaZone> zones, const FormulaRules& rules,
                                    Executor& executor) {
  if (const auto good = check(shades, zones, rules); !good) return tl::unexpected(good.error());
  Search search{shades, rules, representatives(zones), {}};
  for (const FormulaShade& shade : shades) search.spectra.push_back(coarse(shade.full));

  FormulaSearch found;
  std::vector<Candidate> all;
  double incumbent = 1e300;
  std::vector<Candidate> starts = singles(search);
  for (std::size_t size = 1; size <= rules.most_shades && !starts.empty(); ++size) {
    Level level = search_level(search, std::move(starts), incumbent, executor);
    found.subsets += level.subsets;
    found.dropped += level.dropped;
    found.evaluations += level.evaluations;
    if (!level.searched.empty()) {
      incumbent = std::min(incumbent, level.searched.front().objective);
    }
    starts = grow(search, level.searched);
    all.insert(all.end(), level.searched.begin(), level.searched.end());
  }
  std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
    return a.objective < b.objective;
  });
  std::set<std::vector<std::pair<std::size_t, long>>> seen;
  for (const Candidate& candidate : all) {
    if (found.best.size() >= rules.keep) break;
    const Candidate whole = rounded(search, candidate, found.evaluations);
    if (whole.objective >= 1e300) continue;
    std::vector<std::pair<std::size_t, long>> key;
    for (std::size_t i = 0; i < whole.shades.size(); ++i) {
      const long steps = std::lround(whole.shares[i] * rules.colour_g / rules.step_g);
      if (steps > 0) key.emplace_back(whole.shades[i], steps);
    }
    std::sort(key.begin(), key.end());
    if (seen.insert(key).second) found.best.push_back(formula_of(search, whole, zones));
  }
  if (found.best.empty()) {
    return fail(ErrorCode::unreachable, "no mixture of this shelf fills the bowl", "shelf",
                "add stock, or clear");
  }
  std::stable_sort(found.best.begin(), found.best.end(),
                   [](const Formula& a, const Formula& b) { return a.objective < b.objective; });
  return found;
}

}  // namespace hw::plan
