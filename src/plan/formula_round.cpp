#include <algorithm>
#include <cmath>

#include "formula_search.h"

namespace hw::plan {
namespace {

/// The quadratic at given shares.
double value_at(const FewShades& few, const std::array<double, kMostInBowl>& share) {
  double value = few.constant;
  for (std::size_t i = 0; i < few.size; ++i) {
    double bent = 0;
    for (std::size_t j = 0; j < few.size; ++j) bent += few.bend[i * few.size + j] * share[j];
    value += share[i] * (few.linear[i] + 0.5 * bent);
  }
  return value;
}

/// Weighings by the model, the best few kept in order.
class BestWeighings {
 public:
  explicit BestWeighings(std::size_t most) : most_(most) {}
  void offer(const Mix& mix) {
    if (best_.size() == most_ && mix.value >= best_.back().value) return;
    for (const Mix& other : best_) {
      if (other.share == mix.share) return;
    }
    best_.insert(std::upper_bound(best_.begin(), best_.end(), mix,
                                  [](const Mix& a, const Mix& b) { return a.value < b.value; }),
                 mix);
    if (best_.size() > most_) best_.pop_back();
  }
  [[nodiscard]] const std::vector<Mix>& list() const { return best_; }

 private:
  std::size_t most_;
  std::vector<Mix> best_;
};

/// The quadratic with all but the kept shades left out.
struct Kept {
  FewShades few;
  std::array<std::size_t, kMostInBowl> index{};
};
Kept kept_of(const FewShades& few, unsigned mask) {
  Kept kept;
  kept.few.constant = few.constant;
  for (std::size_t i = 0; i < few.size; ++i) {
    if ((mask >> i & 1U) != 0) kept.index[kept.few.size++] = i;
  }
  const std::size_t n = kept.few.size;
  for (std::size_t i = 0; i < n; ++i) {
    kept.few.linear[i] = few.linear[kept.index[i]];
    kept.few.cap[i] = few.cap[kept.index[i]];
    for (std::size_t j = 0; j < n; ++j) {
      kept.few.bend[i * n + j] = few.bend[kept.index[i] * few.size + kept.index[j]];
    }
  }
  return kept;
}

/// Shares that keep to least and cap and fill the bowl where there is no clear; false: none do.
bool fill(const FewShades& few, bool clear, double least, std::array<double, kMostInBowl>& share) {
  constexpr double kRounding = 1e-9;
  double left = 1;
  for (std::size_t i = 0; i < few.size; ++i) {
    if (few.cap[i] < least) return false;
    share[i] = std::clamp(share[i], least, few.cap[i]);
    left -= share[i];
  }
  for (std::size_t i = 0; i < few.size && left < 0; ++i) {
    const double less = std::min(-left, share[i] - least);
    share[i] -= less;
    left += less;
  }
  if (left < -kRounding) return false;
  if (clear) return true;
  for (std::size_t i = 0; i < few.size; ++i) {
    const double more = std::min(left, few.cap[i] - share[i]);
    share[i] += more;
    left -= more;
  }
  return left < kRounding;
}

struct Steps {
  long whole = 0;  ///< of the scale in a bowl
  long least = 0;
  std::array<long, kMostInBowl> cap{};
};

/// Every weighing within a step or two of the shares.
void offer_near(const Kept& kept, const std::array<double, kMostInBowl>& share, const Mix& mix,
                const Steps& steps, double step, bool clear, BestWeighings& best) {
  const std::size_t n = kept.few.size;
  const long around = n < kMostInBowl ? 2 : 1;  // 125 weighings of three shades, 81 of four
  std::array<long, kMostInBowl> first{};
  for (std::size_t i = 0; i < n; ++i) first[i] = std::lround(share[i] / step) - around;
  const auto choices = static_cast<std::size_t>(2 * around + 1);
  // Without clear the last shade takes what the others leave.
  const std::size_t free = clear ? n : n - 1;
  std::size_t count = 1;
  for (std::size_t i = 0; i < free; ++i) count *= choices;
  for (std::size_t number = 0; number < count; ++number) {
    std::array<long, kMostInBowl> units{};
    long sum = 0;
    std::size_t rest = number;
    for (std::size_t i = 0; i < free; ++i, rest /= choices) {
      units[i] = first[i] + static_cast<long>(rest % choices);
      sum += units[i];
    }
    if (!clear) units[n - 1] = steps.whole - sum;
    if (clear && sum > steps.whole) continue;
    bool allowed = true;
    for (std::size_t i = 0; i < n; ++i) {
      allowed = allowed && units[i] >= steps.least && units[i] <= steps.cap[kept.index[i]];
    }
    if (!allowed) continue;
    Mix weighing = mix;
    weighing.share.fill(0);
    std::array<double, kMostInBowl> few_share{};
    for (std::size_t i = 0; i < n; ++i) {
      few_share[i] = static_cast<double>(units[i]) * step;
      weighing.share[kept.index[i]] = few_share[i];
    }
    weighing.value = value_at(kept.few, few_share);
    best.offer(weighing);
  }
}

}  // namespace

Weighing weighing_of(const FormulaRules& rules) {
  return {rules.step_g / rules.colour_g, rules.smallest_g / rules.colour_g};
}

Mix weighed(const FormulaLanes& lanes, const SearchShelf& shelf, const Refined& refined,
            const Weighing& weighing, std::size_t tried, std::size_t& evaluations) {
  constexpr double kRounding = 1e-6;  // of a step
  const double step = weighing.step;
  Steps steps;
  steps.whole = std::lround(std::floor(1 / step + kRounding));
  steps.least = std::max(1L, std::lround(std::ceil(weighing.least / step - kRounding)));
  for (std::size_t i = 0; i < refined.mix.count; ++i) {
    steps.cap[i] = std::lround(std::floor(refined.few.cap[i] / step + kRounding));
  }
  BestWeighings best(tried);
  // A pour too small to weigh is left out or made the smallest pour; the others follow.
  for (unsigned mask = 0; mask < 1U << refined.mix.count; ++mask) {
    if (mask == 0 && !shelf.clear) continue;
    const Kept kept = kept_of(refined.few, mask);
    std::array<double, kMostInBowl> share{};
    for (std::size_t i = 0; i < kept.few.size; ++i) share[i] = refined.mix.share[kept.index[i]];
    const double least = static_cast<double>(steps.least) * step;
    if (!fill(kept.few, shelf.clear, least, share)) continue;
    std::array<double, kMostInBowl> slope{};
    best_shares(kept.few.problem(shelf.clear, least), share.data(), slope.data());
    offer_near(kept, share, refined.mix, steps, step, shelf.clear, best);
  }
  Mix chosen = refined.mix;
  chosen.value = 1e300;
  for (Mix mix : best.list()) {
    mix.value = objective(lanes, shelf, mix);
    ++evaluations;
    if (mix.value < chosen.value) chosen = mix;
  }
  return chosen;
}

Mix settled(const FormulaLanes& lanes, const SearchShelf& shelf, Mix mix, const Weighing& weighing,
            std::size_t& evaluations) {
  constexpr double kRounding = 1e-9;
  const std::size_t n = mix.count;
  const double least =
      std::max(1.0, std::ceil(weighing.least / weighing.step - 1e-6)) * weighing.step;
  const auto allowed = [&](std::size_t i, double share) {
    return share <= kRounding ||
           (share >= least - kRounding && share <= shelf.cap[mix.shade[i]] + kRounding);
  };
  // A step from one shade to another, or all that a shade holds; index n is clear.
  for (bool moved = true; moved;) {
    moved = false;
    const Mix before = mix;
    for (std::size_t from = 0; from <= n; ++from) {
      for (std::size_t to = 0; to <= n; ++to) {
        if (from == to || (!shelf.clear && (from == n || to == n))) continue;
        double left = 1;
        for (std::size_t i = 0; i < n; ++i) left -= before.share[i];
        const double held = from < n ? before.share[from] : left;
        const double first = to < n && before.share[to] <= kRounding ? least : weighing.step;
        double last = 0;
        for (const double amount : {first, least, from < n ? held : 0}) {
          if (amount <= last + kRounding || amount > held + kRounding) continue;
          last = amount;
          Mix tried = before;
          if (from < n) tried.share[from] = std::max(0.0, held - amount);
          if (to < n) tried.share[to] += amount;
          if (from < n && !allowed(from, tried.share[from])) continue;
          if (to < n && !allowed(to, tried.share[to])) continue;
          tried.value = objective(lanes, shelf, tried);
          ++evaluations;
          if (tried.value < mix.value - kRounding) {
            mix = tried;
            moved = true;
          }
        }
      }
    }
  }
  return mix;
}

}  // namespace hw::plan
