#include "huewright/plan/bowl_groups.h"

#include <fmt/format.h>

#include <algorithm>

namespace hw::plan {
namespace {

constexpr std::size_t kMostZones = 12;

/// Zones that lie side by side.
struct Stretch {
  std::size_t first = 0;
  std::size_t count = 0;
};

/// The stretches of a row of zones that is cut after zone i where bit i of `cuts` is set.
std::vector<Stretch> cut(std::size_t zones, unsigned cuts) {
  std::vector<Stretch> stretches = {{0, 0}};
  for (std::size_t z = 0; z < zones; ++z) {
    ++stretches.back().count;
    if (z + 1 < zones && (cuts >> z & 1U) != 0) stretches.push_back({z + 1, 0});
  }
  return stretches;
}

class Row {
 public:
  Row(std::span<const FormulaShade> shades, std::span<const FormulaZone> zones,
      const BowlRules& rules, double trouble)
      : shades_(shades), zones_(zones), rules_(rules), trouble_(trouble) {
    for (const FormulaZone& zone : zones) whole_ += zone.weight;
  }

  /// The quick formula of every stretch.
  void try_all(Executor& executor) {
    std::vector<Stretch> stretches;
    for (std::size_t first = 0; first < zones_.size(); ++first) {
      for (std::size_t count = 1; first + count <= zones_.size(); ++count) {
        stretches.push_back({first, count});
      }
    }
    quick_.assign(zones_.size() * (zones_.size() + 1), fail(ErrorCode::missing, "", "", ""));
    executor.run(stretches.size(), [&](std::size_t i) {
      const Stretch& s = stretches[i];
      quick_[index(s)] =
          quick_formula(shades_, zones_.subspan(s.first, s.count), rules_(s.first, s.count));
    });
  }

  [[nodiscard]] const Result<Formula>& quick(const Stretch& stretch) const {
    return quick_[index(stretch)];
  }

  /// By the quick formulas; 1e300 where a bowl cannot be mixed, or not all of them together.
  [[nodiscard]] double judged(std::span<const Stretch> stretches) const {
    std::vector<BowlGroup> groups;
    for (const Stretch& stretch : stretches) {
      if (!quick(stretch)) return 1e300;
      groups.push_back({stretch.first, stretch.count, *quick(stretch)});
    }
    return value_of(groups);
  }

  /// The full search of each bowl.
  [[nodiscard]] Result<std::vector<BowlGroup>> search(std::span<const Stretch> stretches,
                                                      Executor& executor) const {
    std::vector<BowlGroup> groups;
    for (const Stretch& s : stretches) {
      auto found = find_formulas(shades_, zones_.subspan(s.first, s.count),
                                 rules_(s.first, s.count), executor);
      if (!found) return tl::unexpected(found.error());
      groups.push_back({s.first, s.count, std::move(found->best.front())});
    }
    return groups;
  }

  /// Expected CIEDE2000, price of colour and trouble; 1e300 where stock runs out.
  [[nodiscard]] double value_of(const std::vector<BowlGroup>& groups) const {
    constexpr double kRounding = 1e-6;  // g
    std::vector<double> grams(shades_.size(), 0);
    double value = trouble_ * static_cast<double>(groups.size() - 1);
    for (const BowlGroup& group : groups) {
      for (const FormulaPour& pour : group.formula.pours) grams[pour.shade] += pour.grams;
      value += share_of(group) * group.formula.expected_de00 + group.formula.objective -
               group.formula.expected_de00;
    }
    for (std::size_t k = 0; k < grams.size(); ++k) {
      if (grams[k] > shades_[k].stock_g + kRounding) return 1e300;
    }
    return value;
  }

  [[nodiscard]] double expected_of(const std::vector<BowlGroup>& groups) const {
    double sum = 0;
    for (const BowlGroup& group : groups) sum += share_of(group) * group.formula.expected_de00;
    return sum;
  }

 private:
  [[nodiscard]] std::size_t index(const Stretch& stretch) const {
    return stretch.first * (zones_.size() + 1) + stretch.count;
  }
  [[nodiscard]] double share_of(const BowlGroup& group) const {
    double weight = 0;
    for (const FormulaZone& zone : zones_.subspan(group.first, group.count)) weight += zone.weight;
    return weight / whole_;
  }

  std::span<const FormulaShade> shades_;
  std::span<const FormulaZone> zones_;
  const BowlRules& rules_;
  double trouble_;
  double whole_ = 0;
  std::vector<Result<Formula>> quick_;
};

}  // namespace

Result<BowlGrouping> group_bowls(std::span<const FormulaShade> shades,
                                 std::span<const FormulaZone> zones, const BowlRules& rules,
                                 Executor& executor, double trouble) {
  if (zones.empty()) return fail(ErrorCode::missing, "no zone to colour", "zones", "name a zone");
  if (zones.size() > kMostZones) {
    return fail(ErrorCode::out_of_range, fmt::format("{} zones", zones.size()), "zones",
                fmt::format("at most {}", kMostZones));
  }
  Row row(shades, zones, rules, trouble);
  const std::vector<Stretch> together = {{0, zones.size()}};
  BowlGrouping grouping;
  std::vector<Stretch> chosen = together;
  if (zones.size() > 1) {
    row.try_all(executor);
    double best = row.judged(together);
    for (unsigned cuts = 1; cuts < 1U << (zones.size() - 1); ++cuts) {
      auto stretches = cut(zones.size(), cuts);
      const double value = row.judged(stretches);
      if (value < best) {
        best = value;
        chosen = std::move(stretches);
      }
    }
  }
  grouping.ways = std::size_t{1} << (zones.size() - 1);
  auto common = row.search(together, executor);
  if (common) grouping.common_de00 = row.expected_of(*common);
  if (chosen.size() > 1) {
    // What the quick formulas promised must hold on all members.
    auto several = row.search(chosen, executor);
    const double apart = several ? row.value_of(*several) : 1e300;
    if (apart < 1e300 && (!common || apart < row.value_of(*common))) {
      grouping.groups = *std::move(several);
    }
  }
  if (grouping.groups.empty()) {
    if (!common) return tl::unexpected(common.error());
    grouping.groups = *std::move(common);
  }
  grouping.expected_de00 = row.expected_of(grouping.groups);
  return grouping;
}

}  // namespace hw::plan
