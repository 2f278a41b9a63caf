#pragma once
// How likely a reading is, given a colour.
#include <span>

#include "huewright/plan/case.h"

namespace hw::plan {

/// Scatter of a level read by eye [levels]: common practice, no source: half a level.
inline constexpr double kEyeSdLevels = 0.5;
/// An instrument: re-laid tress (scanavez_2000) and what the colour law itself misses (ΔE00 0.8).
inline constexpr double kInstrumentLstarSd = 1.3;
inline constexpr double kInstrumentChromaSd = 1.1;

/// ln of the likelihood of all readings, up to a constant. dry: the member's colour;
/// bias: its reader's bias [levels].
[[nodiscard]] double log_likelihood(std::span<const Reading> readings, const colour::HairLab& dry,
                                    double bias, const hair::Ladder& ladder);

}  // namespace hw::plan
