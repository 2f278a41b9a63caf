#pragma once
// Collects the rules that hold, then writes them out in the one order of the house.
#include <cstddef>
#include <map>
#include <optional>
#include <string_view>
#include <vector>

#include "huewright/process/rules.h"

namespace hw::process {

class Findings {
 public:
  explicit Findings(const RuleSettings& settings) : settings_(settings) {}

  /// Raises a stated rule when the fact holds. id: a stated rule of the table.
  void raise_if(std::string_view id, bool fact);

  /// Raises a rule with a limit when the value lies beyond it. A second value for the same rule
  /// stays only when it lies further out. id: a rule of the table that has a limit.
  void raise_beyond(std::string_view id, double value);

  /// True when the rule has been raised.
  [[nodiscard]] bool has(std::string_view id) const;

  /// Raises a rule with a limit for a reason other than its number; value: shown as found.
  void raise_anyway(std::string_view id, double value);

  [[nodiscard]] double limit(std::string_view id) const;

  /// never, not_until, caution; each in table order.
  [[nodiscard]] std::vector<Refusal> list() const;

 private:
  const RuleSettings& settings_;
  std::map<std::size_t, std::optional<double>> raised_;  // row of the table → value found
};

/// Row of a rule in rules(). id must be there.
[[nodiscard]] std::size_t row_of(std::string_view id);

}  // namespace hw::process
