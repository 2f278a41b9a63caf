#pragma once
// Answers that the network gives itself, and what every answer wears.
#include <string>
#include <string_view>

#include "route.h"

namespace hw::server {

/// An error as JSON under its own status.
[[nodiscard]] Reply refusal(int status, std::string what, std::string where, std::string mend);
/// The headers that keep a page of ours apart from every other page (no inline script or style, no
/// frames, no other origin), and "no-store" where the answer does not say how long it is good.
void dress(Reply& reply);

}  // namespace hw::server
