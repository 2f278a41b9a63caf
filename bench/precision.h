#pragma once
// Work against precision: how long one way of solving takes, and how far its L* lies from the limit
// of fine steps.
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "cvode_lift.h"
#include "huewright/base/executor.h"
#include "huewright/process/lift.h"

namespace hw::bench {

/// L* a head may be off [L*]: what both sides are tuned to.
inline constexpr double kLstarGoal = 0.05;

using Rows = std::vector<std::vector<colour::HairLab>>;  ///< by moment, then by member

/// |ΔL*| over all moments and members.
struct LstarError {
  double most = 0;
  double mean = 0;
};
/// Compares the last rows of both: a minute-0 row that only one side has is passed over.
[[nodiscard]] LstarError lstar_error(const Rows& rows, const Rows& limit);

/// Members under one bowl, read at each multiple of every_min.
struct Work {
  process::LiftMembers members;
  process::Application bowl;
  double every_min;
  std::vector<double> stops;  ///< [min]
};
[[nodiscard]] Work work_of(process::LiftMembers members, const process::Application& bowl,
                           double every_min);

/// One setting of one solver.
struct Setting {
  std::string name;
  std::function<std::vector<process::LiftMoment>()> solve;
  double ms = 0;  ///< of processor time, one thread, colours not counted
  LstarError error;
};
/// The kernel over a grid of first step, growth and longest step; the first entry is the default.
[[nodiscard]] std::vector<Setting> kernel_settings(const Work& work);
/// CVODE over both ways to carry exposure and a grid of tolerances. `cells` must outlive the
/// result.
[[nodiscard]] std::vector<Setting> cvode_settings(const Work& work, const Cells& cells);

/// Medians over some runs. Processor time counts every thread and leaves out what the machine did
/// for others meanwhile; where work runs on one thread it is the steadier of the two.
struct Timing {
  double wall_ms = 0;
  double processor_ms = 0;
};
[[nodiscard]] Timing median_timing(int repeats, const std::function<void()>& run);
/// Times each setting and compares it with the limit.
void measure(std::vector<Setting>& settings, const Work& work, const Rows& limit, int repeats);
/// The settings that no other beats in both time and largest error, fastest first.
[[nodiscard]] std::vector<Setting> undominated(std::vector<Setting> settings);
/// The fastest with no error above `most` [L*]; the most exact one where none is as good as that.
[[nodiscard]] const Setting& fastest_within(const std::vector<Setting>& settings, double most);

/// CVODE at 1e-10 on these cells.
[[nodiscard]] Rows fine_limit(const Work& work, const Cells& cells, double relative = 1e-10);

}  // namespace hw::bench
