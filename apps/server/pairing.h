#pragma once
// Codes that let a device in once: six digits, read from a screen and typed on another.
#include <chrono>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "route.h"

namespace hw::server {

using Clock = std::chrono::steady_clock;  // codes and limits do not care what a wall clock says

/// How long a code is good [min]; house rule, no source.
inline constexpr std::chrono::minutes kCodeTime{5};

/// Codes that wait to be typed; of any thread.
class Pairing {
 public:
  /// A new code. here_only: good on this machine alone, and in the place of the last such code.
  std::string issue(Role role, bool here_only, Clock::time_point now);
  /// The role of a code, which is then used up; none where it is unknown, old, or not for this
  /// door.
  std::optional<Role> redeem(std::string_view digits, bool is_here, Clock::time_point now);
  /// Whether a code for this machine alone waits.
  [[nodiscard]] bool waits_here(Clock::time_point now) const;

 private:
  struct Code {
    std::string digits;
    Role role;
    bool here_only;
    Clock::time_point until;
  };
  void drop_old(Clock::time_point now);
  mutable std::mutex mutex_;
  std::vector<Code> codes_;
};

}  // namespace hw::server
