#pragma once
// What was learned, in words.
#include <string>

#include "huewright/plan/learn.h"

namespace hw::plan {

/// "this client lifts 18 % faster than usual (4 to 33 %), from 3 checks".
[[nodiscard]] std::string factor_sentence(const Factor& factor);

}  // namespace hw::plan
