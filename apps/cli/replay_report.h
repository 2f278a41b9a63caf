#pragma once
// A past visit step by step, for a person.
#include <string>

#include "huewright/book/replay.h"

namespace hw::apps {

/// Minutes, zones, grams, what was found beside what was expected, and the reasons.
[[nodiscard]] std::string replay_report(const book::Replay& replay);

}  // namespace hw::apps
