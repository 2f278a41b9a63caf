#pragma once
// Heads and shelves drawn at random, over all that a case may say.
#include <cstdint>

#include "huewright/plan/case.h"

namespace hw::test {

/// Head number `index`: the same on every machine. 64 members.
[[nodiscard]] plan::Case random_head(std::uint64_t index);

}  // namespace hw::test
