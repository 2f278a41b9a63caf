#pragma once
// A refusal or a caution is an ordinary value: shown, stored, never thrown.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hw::process {

/// never: this product or step is not used on this person now.
/// not_until: a test or an agreement is missing; plans stay drafts until it is there.
/// caution: to be acknowledged before going on.
enum class RefusalKind { never, not_until, caution };

/// "never", "not_until" or "caution".
[[nodiscard]] std::string_view name_of(RefusalKind kind);

/// The kind a word means; empty when none has that word.
[[nodiscard]] std::optional<RefusalKind> refusal_kind_of(std::string_view word);

/// One rule that holds now.
struct Refusal {
  std::string id;  ///< names the rule in data/process/rules.csv
  RefusalKind kind = RefusalKind::caution;
  std::string text;    ///< one sentence for the colourist
  std::string source;  ///< law, paper or habit the rule stands on

  bool operator==(const Refusal&) const = default;
};

/// True when any of them keeps a bowl sheet or a timer from starting (never or not_until).
[[nodiscard]] bool holds_back(const std::vector<Refusal>& refusals);

/// True when any of them drops the step altogether (never).
[[nodiscard]] bool forbids(const std::vector<Refusal>& refusals);

}  // namespace hw::process
