#pragma once
// The work that is measured: the same heads and bowls for every benchmark and every reference.
#include <cstddef>
#include <span>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/process/lift.h"

namespace hw::bench {

inline constexpr std::size_t kLiftMembers = 512;  ///< of one zone
inline constexpr double kLiftEveryMin = 10;       ///< minutes between rows of a lift
inline constexpr std::size_t kChartPoints = 240;  ///< along the strand, and over the hour
inline constexpr double kChartEveryMin = 0.25;
inline constexpr unsigned kThreads = 2;  ///< the goals are stated for two cores
inline constexpr double kLiftGoalMs = 2;
inline constexpr double kChartGoalMs = 16;

/// The hour of a 1:2 bowl with 6 % developer, 3 g on each gram of hair, uncovered, 22 °C.
[[nodiscard]] process::Application one_hour();
/// 512 hypotheses about one zone: level 3 melanin, its strands and constants spread.
[[nodiscard]] process::LiftMembers one_zone(std::size_t members = kLiftMembers);
/// One hypothesis at 240 places along a strand: warm at the scalp, colder with each centimetre, and
/// more opened towards the tip.
[[nodiscard]] process::LiftMembers one_strand();

/// Colour of each member at each moment, moments shared out over the executor [D65/10°].
[[nodiscard]] std::vector<std::vector<colour::HairLab>> all_colours(
    const process::LiftMembers& members, std::span<const process::LiftMoment> moments,
    Executor& executor);

}  // namespace hw::bench
