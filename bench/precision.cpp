#include "precision.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ctime>
#include <memory>

#include "cases.h"
#include "huewright/base/check.h"
#include "huewright/base/statistics.h"

namespace hw::bench {

LstarError lstar_error(const Rows& rows, const Rows& limit) {
  HW_CHECK(rows.size() >= limit.size() && !limit.empty());
  const std::size_t passed_over = rows.size() - limit.size();
  LstarError error;
  double count = 0;
  for (std::size_t i = 0; i < limit.size(); ++i) {
    for (std::size_t m = 0; m < limit[i].size(); ++m) {
      const double off = std::abs(rows[i + passed_over][m].l - limit[i][m].l);
      error.most = std::max(error.most, off);
      error.mean += off;
      ++count;
    }
  }
  error.mean /= count;
  return error;
}

Work work_of(process::LiftMembers members, const process::Application& bowl, double every_min) {
  Work work{std::move(members), bowl, every_min, {}};
  const auto rows = static_cast<int>(std::lround(bowl.minutes / every_min));
  for (int i = 1; i <= rows; ++i) work.stops.push_back(i * every_min);
  return work;
}

std::vector<Setting> kernel_settings(const Work& work) {
  std::vector<process::LiftSteps> grid{process::LiftSteps{}};
  for (const double first : {0.02, 0.05, 0.1, 0.2}) {
    for (const double growth : {1.1, 1.15, 1.2, 1.25, 1.3, 1.5}) {
      for (const double longest : {0.5, 1.0, 1.5, 2.0, 3.0})
        grid.push_back({first, growth, longest});
    }
  }
  grid.push_back({0.01, 1.05, 0.25});
  grid.push_back({0.005, 1.02, 0.05});
  std::vector<Setting> settings;
  for (const process::LiftSteps& steps : grid) {
    settings.push_back(
        {fmt::format("{}first {:g} min, growth {:g}, longest {:g} min",
                     settings.empty() ? "default: " : "", steps.first_min, steps.growth,
                     steps.longest_min),
         [&work, steps] {
           InlineExecutor one;
           return process::simulate_lift(work.members, {&work.bowl, 1}, work.every_min, one, steps);
         },
         0,
         {}});
  }
  return settings;
}

std::vector<Setting> cvode_settings(const Work& work, const Cells& cells) {
  std::vector<Setting> settings;
  for (const Exposure exposure : {Exposure::in_state, Exposure::quadrature}) {
    for (const double looser : {1.0, 10.0}) {
      for (const double relative :
           {3e-2, 1e-2, 7e-3, 5e-3, 3e-3, 2e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6}) {
        Tolerance tolerances = tolerance(relative);
        tolerances.peroxide_percent *= looser;
        const auto solver = std::make_shared<CvodeLift>(cells, exposure, tolerances);
        settings.push_back(
            {fmt::format("{}, rtol {:g}, atol {:g} % and {:g} min",
                         exposure == Exposure::in_state ? "in the state" : "quadrature", relative,
                         tolerances.peroxide_percent, tolerances.exposure_min),
             [&work, &cells, solver] {
               return reference_lift(work.members, work.bowl, work.stops, cells, *solver);
             },
             0,
             {}});
      }
    }
  }
  return settings;
}

Timing median_timing(int repeats, const std::function<void()>& run) {
  using Clock = std::chrono::steady_clock;
  constexpr double kMsPerSecond = 1000;
  std::vector<double> wall;
  std::vector<double> processor;
  for (int i = 0; i < repeats; ++i) {
    const auto wall_begin = Clock::now();
    const std::clock_t processor_begin = std::clock();
    run();
    processor.push_back(kMsPerSecond * static_cast<double>(std::clock() - processor_begin) /
                        CLOCKS_PER_SEC);
    wall.push_back(std::chrono::duration<double, std::milli>(Clock::now() - wall_begin).count());
  }
  return {quantile(wall, 0.5), quantile(processor, 0.5)};
}

void measure(std::vector<Setting>& settings, const Work& work, const Rows& limit, int repeats) {
  InlineExecutor one;
  for (Setting& setting : settings) {
    setting.error = lstar_error(all_colours(work.members, setting.solve(), one), limit);
    std::vector<process::LiftMoment> kept;
    setting.ms = median_timing(repeats, [&] { kept = setting.solve(); }).processor_ms;
  }
}

std::vector<Setting> undominated(std::vector<Setting> settings) {
  std::sort(settings.begin(), settings.end(),
            [](const Setting& a, const Setting& b) { return a.ms < b.ms; });
  std::vector<Setting> front;
  for (const Setting& setting : settings) {
    if (front.empty() || setting.error.most < front.back().error.most) front.push_back(setting);
  }
  return front;
}

const Setting& fastest_within(const std::vector<Setting>& settings, double most) {
  const Setting* best = nullptr;
  const Setting* most_exact = &settings.front();
  for (const Setting& setting : settings) {
    if (setting.error.most < most_exact->error.most) most_exact = &setting;
    if (setting.error.most <= most && (best == nullptr || setting.ms < best->ms)) best = &setting;
  }
  return best != nullptr ? *best : *most_exact;
}

Rows fine_limit(const Work& work, const Cells& cells, double relative) {
  InlineExecutor one;
  CvodeLift solver(cells, Exposure::quadrature, tolerance(relative));
  return all_colours(work.members,
                     reference_lift(work.members, work.bowl, work.stops, cells, solver), one);
}

}  // namespace hw::bench
