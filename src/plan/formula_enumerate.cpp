#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_set>

#include "formula_search.h"

namespace hw::plan {
namespace {

bool nearer(const Mix& a, const Mix& b) {
  return a.value < b.value;
}

/// The shades of a mix, whatever their order, in one number.
std::uint64_t key_of(const Mix& mix) {
  constexpr unsigned kBits = 16;
  std::array<std::uint64_t, kMostInBowl> sorted{};
  for (std::size_t i = 0; i < mix.count; ++i) {
    std::size_t at = i;
    for (; at > 0 && sorted[at - 1] < mix.shade[i] + 1; --at) sorted[at] = sorted[at - 1];
    sorted[at] = mix.shade[i] + 1;
  }
  std::uint64_t key = 0;
  for (const std::uint64_t shade : sorted) key = key << kBits | shade;
  return key;
}

/// Shares to start from: those of the smaller mix; without clear the bowl is filled in order.
void start(const SearchShelf& shelf, Mix& mix) {
  if (shelf.clear) return;
  double left = 1;
  for (std::size_t i = 0; i < mix.count; ++i) left -= mix.share[i];
  for (std::size_t i = 0; i < mix.count; ++i) {
    const double more = std::min(left, shelf.cap[mix.shade[i]] - mix.share[i]);
    mix.share[i] += more;
    left -= more;
  }
}

/// Where the quadratic is flat, by Cholesky's factors; false where that breaks a rule, or where the
/// shades are so alike that it cannot be told.
bool flat_point(const FewShades& few, std::array<double, kMostInBowl>& share) {
  constexpr double kAlike = 1e-9;  // of the bend
  const std::size_t n = few.size;
  std::array<double, kMostInBowl * kMostInBowl> root{};
  std::array<double, kMostInBowl> x{};
  for (std::size_t i = 0; i < n; ++i) {
    double sum = -few.linear[i];
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = few.bend[i * n + j];
      for (std::size_t k = 0; k < j; ++k) rest -= root[i * n + k] * root[j * n + k];
      if (j < i) {
        root[i * n + j] = rest / root[j * n + j];
        sum -= root[i * n + j] * x[j];
      } else {
        if (rest <= kAlike * few.bend[i * n + i]) return false;
        root[i * n + i] = std::sqrt(rest);
        x[i] = sum / root[i * n + i];
      }
    }
  }
  double all = 0;
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) x[i] -= root[k * n + i] * x[k];
    x[i] /= root[i * n + i];
    if (x[i] < 0 || x[i] > few.cap[i]) return false;
    all += x[i];
  }
  if (all > 1) return false;
  share = x;
  return true;
}

/// Best shares by the model; 1e300 where the shades cannot fill the bowl.
void judge(const Quadratic& model, const SearchShelf& shelf, Mix& mix) {
  if (!can_fill(shelf, mix)) {
    mix.value = 1e300;
    return;
  }
  const FewShades few = few_of(model, shelf, mix);
  if (shelf.clear && flat_point(few, mix.share)) {
    mix.value = few.constant;
    for (std::size_t i = 0; i < mix.count; ++i) mix.value += 0.5 * mix.share[i] * few.linear[i];
    return;
  }
  start(shelf, mix);
  std::array<double, kMostInBowl> slope{};
  mix.value = best_shares(few.problem(shelf.clear), mix.share.data(), slope.data());
}

Mix with(const Mix& smaller, std::size_t shade) {
  Mix mix = smaller;
  mix.shade[mix.count] = shade;
  mix.share[mix.count] = 0;
  ++mix.count;
  return mix;
}

/// Whether a newcomer helps by the model: the quadratic is convex, so it does when its first
/// derivative at the smaller mix's best lies below that of what is poured.
class Helps {
 public:
  Helps(const Quadratic& model, const SearchShelf& shelf, const Mix& smaller)
      : model_(model), smaller_(smaller), all_(smaller.value >= 1e300) {
    double sum = 0;
    for (std::size_t i = 0; i < smaller.count; ++i) {
      sum += smaller.share[i];
      if (smaller.share[i] > 0) poured_ = std::max(poured_, slope_of(smaller.shade[i]));
    }
    if (shelf.clear && sum < 1) poured_ = std::max(poured_, 0.0);
  }
  [[nodiscard]] bool operator()(std::size_t newcomer) const {
    return all_ || slope_of(newcomer) < poured_;
  }

 private:
  [[nodiscard]] double slope_of(std::size_t shade) const {
    double slope = model_.linear[shade];
    for (std::size_t i = 0; i < smaller_.count; ++i) {
      slope += smaller_.share[i] * model_.bend[smaller_.shade[i] * model_.size + shade];
    }
    return slope;
  }
  const Quadratic& model_;
  const Mix& smaller_;
  bool all_;
  double poured_ = -1e300;
};

/// All pairs that are better than both of their shades.
std::vector<Mix> pairs(const Quadratic& model, const SearchShelf& shelf,
                       const std::vector<Mix>& singles) {
  std::vector<Mix> found;
  found.reserve(singles.size() * singles.size() / 2);
  for (std::size_t i = 0; i < singles.size(); ++i) {
    const Helps helps(model, shelf, singles[i]);
    for (std::size_t j = i + 1; j < singles.size(); ++j) {
      if (!helps(singles[j].shade[0])) continue;
      found.push_back(with(singles[i], singles[j].shade[0]));
      judge(model, shelf, found.back());
    }
  }
  return found;
}

/// What the best smaller mixes grow into, where the newcomer helps.
std::vector<Mix> grown(const Quadratic& model, const SearchShelf& shelf,
                       std::span<const Mix> smaller) {
  std::vector<Mix> found;
  std::unordered_set<std::uint64_t> seen;
  seen.reserve(2 * smaller.size() * shelf.size());
  for (const Mix& mix : smaller) {
    const Helps helps(model, shelf, mix);
    for (std::size_t k = 0; k < shelf.size(); ++k) {
      const auto* end = mix.shade.data() + mix.count;
      if (std::find(mix.shade.data(), end, k) != end) continue;
      const Mix next = with(mix, k);
      // Where the newcomer does not help the better smaller mix, it need not be tried from another.
      if (!seen.insert(key_of(next)).second || !helps(k)) continue;
      found.push_back(next);
      judge(model, shelf, found.back());
    }
  }
  return found;
}

}  // namespace

Enumerated enumerate(const Quadratic& model, const SearchShelf& shelf, std::size_t most_shades,
                     std::size_t beam) {
  Enumerated found;
  std::vector<Mix> mixes;
  for (std::size_t k = 0; k < shelf.size(); ++k) {
    mixes.push_back(with({}, k));
    judge(model, shelf, mixes.back());
  }
  std::stable_sort(mixes.begin(), mixes.end(), nearer);
  for (std::size_t size = 1;; ++size) {
    found.subsets += mixes.size();
    // Later sizes grow from the best of this one; only those need their order.
    const std::size_t kept = size == 1 ? mixes.size() : std::min(beam, mixes.size());
    const auto middle = mixes.begin() + static_cast<std::ptrdiff_t>(kept);
    std::partial_sort(mixes.begin(), middle, mixes.end(), [](const Mix& a, const Mix& b) {
      return a.value != b.value ? a.value < b.value : key_of(a) < key_of(b);
    });
    mixes.erase(middle, mixes.end());
    found.by_size.push_back(mixes);
    if (size >= std::min(most_shades, shelf.size())) break;
    std::vector<Mix> larger = size == 1 ? pairs(model, shelf, mixes) : grown(model, shelf, mixes);
    if (larger.empty()) break;
    mixes = std::move(larger);
  }
  return found;
}

}  // namespace hw::plan
