#pragma once
// How likely a reading is, given a colour.
#include <span>

#include "huewright/plan/case.h"

namespace hw::plan {

/// ln of the likelihood of all readings, up to a constant. dry: the member's colour;
/// bias: its reader's bias [levels].
[[nodiscard]] double log_likelihood(std::span<const Reading> readings, const colour::HairLab& dry,
                                    double bias, const hair::Ladder& ladder);

}  // namespace hw::plan
