#include "huewright/plan/formula.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "formula_search.h"

namespace hw::plan {
namespace {

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
    if (zone.uptake.size() != zone.canvas.size() || zone.uptake.empty() ||
        zone.uptake.size() != zones.front().uptake.size()) {
      return fail(ErrorCode::conflict, "uptake has another length than the members", "zones", "");
    }
  }
  return {};
}

tl::unexpected<Error> nothing_fills() {
  return fail(ErrorCode::unreachable, "no mixture of this shelf fills the bowl", "shelf",
              "add stock, or clear");
}

/// How wide a search looks.
struct Effort {
  int relax_steps;                             ///< of all shades at once
  std::size_t beam;                            ///< subsets of a size that are grown
  std::array<std::size_t, kMostInBowl> taken;  ///< of each size, whose shares are truly sought
  int passes;                                  ///< each from a model at the best so far
  int refine_steps;
  std::size_t weighings;  ///< near each mix that are truly judged
  std::size_t settled;    ///< weighings, of all mixes, that are moved on by steps
};
constexpr Effort kFull{6, 48, {12, 24, 40, 40}, 3, 6, 6, 8};
constexpr Effort kQuick{6, 12, {1, 2, 3, 3}, 1, 3, 4, 1};

bool nearer(const Refined& a, const Refined& b) {
  return a.mix.value < b.mix.value;
}

std::vector<std::size_t> sorted_shades(const Mix& mix) {
  std::vector<std::size_t> shades(mix.shade.begin(),
                                  mix.shade.begin() + static_cast<std::ptrdiff_t>(mix.count));
  std::sort(shades.begin(), shades.end());
  return shades;
}

class Search {
 public:
  Search(const FormulaLanes& lanes, const SearchShelf& shelf, const FormulaRules& rules,
         const Effort& effort, Executor& executor)
      : lanes_(lanes), shelf_(shelf), rules_(rules), effort_(effort), executor_(executor) {}

  /// Refined mixes, the best first.
  std::vector<Refined> run(FormulaSearch& counts) {
    Relaxed relaxed = relax(lanes_, shelf_, effort_.relax_steps);
    counts.evaluations += relaxed.evaluations;
    if (relaxed.share.empty()) return {};
    Quadratic model = std::move(relaxed.model);
    for (int pass = 0; pass < effort_.passes; ++pass) {
      const double before = best();
      take(enumerate(model, shelf_, rules_.most_shades, effort_.beam), counts);
      constexpr double kEnough = 1e-3;  // CIEDE2000; another look would find the same
      if (refined_.empty() || before - best() < kEnough) break;
      model = model_at(lanes_, shelf_, refined_.front().mix);
      ++counts.evaluations;
    }
    return std::move(refined_);
  }

 private:
  [[nodiscard]] double best() const {
    return refined_.empty() ? 1e300 : refined_.front().mix.value;
  }

  void take(const Enumerated& enumerated, FormulaSearch& counts) {
    counts.subsets += enumerated.subsets;
    std::vector<Mix> chosen;
    for (std::size_t size = enumerated.by_size.size(); size-- > 0;) {
      const auto& mixes = enumerated.by_size[size];
      for (std::size_t i = 0; i < mixes.size() && i < effort_.taken[size]; ++i) {
        if (mixes[i].value >= 1e300) break;
        if (seen_.insert(sorted_shades(mixes[i])).second) chosen.push_back(mixes[i]);
      }
    }
    // In batches of a fixed size, so that what is dropped does not depend on the executor.
    constexpr std::size_t kBatch = 16;
    for (std::size_t first = 0; first < chosen.size(); first += kBatch) {
      search({chosen.data() + first, std::min(kBatch, chosen.size() - first)}, counts);
    }
  }

  void search(std::span<const Mix> batch, FormulaSearch& counts) {
    const double incumbent = best();
    std::vector<Refined> found(batch.size());
    executor_.run(batch.size(), [&](std::size_t i) {
      if (cannot_beat(batch[i], incumbent)) return;
      found[i] = refine(lanes_, shelf_, batch[i], effort_.refine_steps);
    });
    for (Refined& one : found) {
      counts.evaluations += one.evaluations;
      if (one.mix.count == 0) {
        ++counts.dropped;
      } else {
        refined_.push_back(std::move(one));
      }
    }
    std::stable_sort(refined_.begin(), refined_.end(), nearer);
  }

  /// By the lower bound over every mixture of these shades.
  [[nodiscard]] bool cannot_beat(const Mix& mix, double incumbent) const {
    SearchSpectrum least{};
    SearchSpectrum most{};
    double price = shelf_.clear ? 0 : 1e300;
    for (std::size_t i = 0; i < mix.count; ++i) {
      const std::size_t shade = mix.shade[i];
      for (std::size_t band = 0; band < kSearchBands; ++band) {
        const double full = shelf_.spectra[shade][band];
        most[band] = std::max(most[band], full);
        if (!shelf_.clear) least[band] = i == 0 ? full : std::min(least[band], full);
      }
      price = std::min(price, shelf_.price[shade]);
    }
    return least_de00(lanes_, least.data(), most.data()) + price > incumbent;
  }

  const FormulaLanes& lanes_;
  const SearchShelf& shelf_;
  const FormulaRules& rules_;
  const Effort& effort_;
  Executor& executor_;
  std::vector<Refined> refined_;
  std::set<std::vector<std::size_t>> seen_;
};

/// Whole steps of the scale of each mix, the best first, each weighing once.
std::vector<Mix> weighings(const std::vector<Refined>& refined, const FormulaLanes& lanes,
                           const SearchShelf& shelf, const FormulaRules& rules,
                           const Effort& effort, Executor& executor, std::size_t& evaluations) {
  std::vector<Mix> mixes(refined.size());
  std::vector<std::size_t> counts(refined.size(), 0);
  executor.run(refined.size(), [&](std::size_t i) {
    mixes[i] = weighed(lanes, shelf, refined[i], weighing_of(rules), effort.weighings, counts[i]);
  });
  const auto nearer_mix = [](const Mix& a, const Mix& b) { return a.value < b.value; };
  std::stable_sort(mixes.begin(), mixes.end(), nearer_mix);
  executor.run(std::min(effort.settled, mixes.size()), [&](std::size_t i) {
    if (mixes[i].value >= 1e300) return;
    mixes[i] = settled(lanes, shelf, mixes[i], weighing_of(rules), counts[i]);
  });
  std::stable_sort(mixes.begin(), mixes.end(), nearer_mix);
  for (const std::size_t count : counts) evaluations += count;
  std::set<std::vector<std::pair<std::size_t, long>>> seen;
  std::vector<Mix> kept;
  for (const Mix& mix : mixes) {
    if (mix.value >= 1e300) break;
    std::vector<std::pair<std::size_t, long>> key;
    for (std::size_t i = 0; i < mix.count; ++i) {
      const long steps = std::lround(mix.share[i] * rules.colour_g / rules.step_g);
      if (steps > 0) key.emplace_back(mix.shade[i], steps);
    }
    std::sort(key.begin(), key.end());
    if (seen.insert(key).second) kept.push_back(mix);
  }
  return kept;
}

/// Grams and cost of a weighing; how near it comes is filled in by the caller.
Formula grams_of(const Mix& mix, std::span<const FormulaShade> shades, const FormulaRules& rules) {
  Formula formula;
  double poured = 0;
  for (std::size_t i = 0; i < mix.count; ++i) {
    if (mix.share[i] <= 0) continue;
    const double grams = std::round(mix.share[i] * rules.colour_g / rules.step_g) * rules.step_g;
    formula.pours.push_back({mix.shade[i], grams});
    formula.cost += grams * shades[mix.shade[i]].price_per_g;
    poured += grams;
  }
  std::stable_sort(formula.pours.begin(), formula.pours.end(),
                   [](const auto& a, const auto& b) { return a.grams > b.grams; });
  formula.clear_g = rules.clear ? rules.colour_g - poured : 0;
  return formula;
}

void finish(Formula& formula, std::span<const double> zone_weight, const FormulaRules& rules) {
  formula.expected_de00 = 0;
  for (std::size_t i = 0; i < zone_weight.size(); ++i) {
    formula.expected_de00 += zone_weight[i] * formula.zone_de00[i];
  }
  formula.objective = formula.expected_de00 + rules.de_per_money * formula.cost;
}

/// Absorption [1/cm] of a formula's bowl, 5 nm.
colour::Spectrum bowl_of(const Formula& formula, std::span<const FormulaShade> shades,
                         double colour_g) {
  colour::Spectrum bowl{};
  for (const FormulaPour& pour : formula.pours) {
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      bowl[i] += pour.grams / colour_g * shades[pour.shade].full[i];
    }
  }
  return bowl;
}

/// Expected CIEDE2000 of bowls on all members and 5 nm: [bowl][zone]. Block by block, so that a
/// block's hair is laid out once and stays at hand for every bowl.
std::vector<std::vector<double>> score(std::span<const FormulaZone> zones,
                                       std::span<const colour::Spectrum> bowls,
                                       Executor& executor) {
  const std::vector<std::size_t> members = all_members(zones);
  const std::size_t blocks = block_count(zones.size(), members.size());
  std::vector<std::vector<double>> parts(blocks);
  executor.run(blocks, [&](std::size_t i) {
    const FormulaBlock block = make_block(zones, members, i, fine_grid());
    parts[i].assign(bowls.size() * zones.size(), 0);
    for (std::size_t bowl = 0; bowl < bowls.size(); ++bowl) {
      add_zone_de00(block, fine_grid(), bowls[bowl].data(), parts[i].data() + bowl * zones.size());
    }
  });
  std::vector<std::vector<double>> expected(bowls.size(), std::vector<double>(zones.size(), 0));
  for (const std::vector<double>& part : parts) {
    for (std::size_t bowl = 0; bowl < bowls.size(); ++bowl) {
      for (std::size_t zone = 0; zone < zones.size(); ++zone) {
        expected[bowl][zone] += part[bowl * zones.size() + zone];
      }
    }
  }
  return expected;
}

}  // namespace

std::vector<double> score_shares(std::span<const FormulaShade> shades,
                                 std::span<const FormulaZone> zones,
                                 std::span<const double> shares) {
  colour::Spectrum bowl{};
  for (std::size_t k = 0; k < shades.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) bowl[i] += shares[k] * shades[k].full[i];
  }
  InlineExecutor here;
  return score(zones, {&bowl, 1}, here).front();
}

Result<FormulaSearch> find_formulas(std::span<const FormulaShade> shades,
                                    std::span<const FormulaZone> zones, const FormulaRules& rules,
                                    Executor& executor) {
  if (const auto good = check(shades, zones, rules); !good) return tl::unexpected(good.error());
  const FormulaLanes lanes = lanes_of(zones, representatives(zones), coarse_grid());
  const SearchShelf shelf = search_shelf(shades, rules, coarse_grid());
  FormulaSearch found;
  std::vector<Refined> refined = Search(lanes, shelf, rules, kFull, executor).run(found);
  // Some weighings coincide, and some mixes cannot be weighed.
  refined.resize(std::min(refined.size(), 2 * rules.keep));
  std::vector<Mix> mixes =
      weighings(refined, lanes, shelf, rules, kFull, executor, found.evaluations);
  if (mixes.empty()) return nothing_fills();
  mixes.resize(std::min(mixes.size(), rules.keep));
  std::vector<colour::Spectrum> bowls;
  for (const Mix& mix : mixes) {
    found.best.push_back(grams_of(mix, shades, rules));
    bowls.push_back(bowl_of(found.best.back(), shades, rules.colour_g));
  }
  const auto scores = score(zones, bowls, executor);
  for (std::size_t i = 0; i < found.best.size(); ++i) {
    found.best[i].zone_de00 = scores[i];
    finish(found.best[i], lanes.zone_weight, rules);
  }
  std::stable_sort(found.best.begin(), found.best.end(),
                   [](const Formula& a, const Formula& b) { return a.objective < b.objective; });
  return found;
}

Result<Formula> quick_formula(std::span<const FormulaShade> shades,
                              std::span<const FormulaZone> zones, const FormulaRules& rules) {
  if (const auto good = check(shades, zones, rules); !good) return tl::unexpected(good.error());
  const FormulaLanes lanes = lanes_of(zones, representatives(zones), rough_grid());
  const SearchShelf shelf = search_shelf(shades, rules, rough_grid());
  InlineExecutor here;
  FormulaSearch counts;
  std::vector<Refined> refined = Search(lanes, shelf, rules, kQuick, here).run(counts);
  constexpr std::size_t kWeighed = 3;
  refined.resize(std::min(refined.size(), kWeighed));
  const std::vector<Mix> mixes =
      weighings(refined, lanes, shelf, rules, kQuick, here, counts.evaluations);
  if (mixes.empty()) return nothing_fills();
  Formula formula = grams_of(mixes.front(), shades, rules);
  const SearchSpectrum bowl = bowl_of(shelf, mixes.front());
  formula.zone_de00.assign(zones.size(), 0);
  for (const FormulaBlock& block : lanes.blocks) {
    add_zone_de00(block, *lanes.grid, bowl.data(), formula.zone_de00.data());
  }
  finish(formula, lanes.zone_weight, rules);
  return formula;
}

}  // namespace hw::plan
