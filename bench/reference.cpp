// The lift kernel against SUNDIALS CVODE: where the error comes from, work against precision, and
// the goals that rest on both. Ends with 1 when both do not solve the same equations.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cases.h"
#include "goals.h"
#include "huewright/base/statistics.h"
#include "huewright/hair/ladder.h"
#include "huewright/plan/strand_chart.h"
#include "precision.h"

namespace {

using namespace hw;
using bench::Setting;

constexpr int kRepeats = 9;

void print_table(const char* title, const std::vector<Setting>& settings) {
  fmt::print("\n### {}\n\n| setting | time [ms] | max error [L*] | mean error [L*] |\n", title);
  fmt::print("|---|---:|---:|---:|\n");
  for (const Setting& s : settings) {
    fmt::print("| {} | {:.2f} | {:.5f} | {:.5f} |\n", s.name, s.ms, s.error.most, s.error.mean);
  }
}

/// How far each number of cells is from 192 cells, both in time as exact as can be told.
void print_cells(const bench::Work& work) {
  constexpr double kRelative = 1e-7;
  constexpr std::size_t kFinest = 192;
  const bench::Rows limit = bench::fine_limit(work, bench::Cells(kFinest), kRelative);
  fmt::print("\n### Error of the cells, against {} cells\n\n", kFinest);
  fmt::print("| cells | max error [L*] | mean error [L*] |\n|---:|---:|---:|\n");
  for (const std::size_t count : {12, 16, 24, 32, 48, 96}) {
    const auto error =
        bench::lstar_error(bench::fine_limit(work, bench::Cells(count), kRelative), limit);
    fmt::print("| {}{} | {:.4f} | {:.4f} |\n", count, count == process::kCells ? " (kernel)" : "",
               error.most, error.mean);
  }
  InlineExecutor one;
  const auto both = bench::lstar_error(
      bench::all_colours(work.members,
                         process::simulate_lift(work.members, {&work.bowl, 1}, work.every_min, one),
                         one),
      limit);
  fmt::print("| kernel at its default steps, cells and time | {:.4f} | {:.4f} |\n", both.most,
             both.mean);
}

/// A head and its bowls, for the error of the default steps beyond the standard hour.
struct Head {
  const char* name;
  double strand_um, opened, warmth_c;
  std::vector<process::Application> bowls;
};

std::vector<Head> other_heads() {
  process::Application hour = bench::one_hour();
  process::Application strong = hour;  // 1:1 with 12 %
  strong.peroxide_percent = 6;
  strong.powder_percent = 50;
  process::Application cap = hour;  // one part each of lightener, 3 % developer, shampoo and water
  cap.peroxide_percent = 0.75;
  cap.powder_percent = 25;
  process::Application thin = hour;
  thin.mix_per_hair = 0.7;
  process::Application developer = hour;
  developer.powder_percent = 0;
  process::Application half = hour;
  half.minutes = 30;
  return {{"the standard hour", 73, 1, 0, {hour}},
          {"fine strand, opened, warm", 45, 3, 12, {hour}},
          {"coarse strand, cold", 110, 1, -4, {hour}},
          {"1:1 with 12 %, fine and opened", 45, 3, 12, {strong}},
          {"soap cap with 3 %", 73, 1, 0, {cap}},
          {"0.7 g of mix per gram of hair", 73, 2, 0, {thin}},
          {"two bowls of half an hour", 73, 1, 0, {half, half}},
          {"the strong bowl, then developer alone", 60, 2, 5, {strong, developer}}};
}

/// Default steps against the kernel's own limit of fine ones.
void print_heads() {
  const process::LiftSteps fine{0.002, 1.02, 0.05};
  InlineExecutor one;
  constexpr std::size_t kMembers = 256;
  fmt::print("\n### Error of the default steps, against steps of at most {:g} min\n\n",
             fine.longest_min);
  fmt::print("| head and bowl | max error [L*] | mean error [L*] |\n|---|---:|---:|\n");
  for (const Head& head : other_heads()) {
    process::LiftMembers zone = bench::one_zone(kMembers);
    std::fill(zone.strand_um.begin(), zone.strand_um.end(), head.strand_um);
    std::fill(zone.opened.begin(), zone.opened.end(), head.opened);
    std::fill(zone.warmth_c.begin(), zone.warmth_c.end(), head.warmth_c);
    const auto rows = [&](const process::LiftSteps& steps) {
      constexpr double kEveryMin = 2;
      return bench::all_colours(
          zone, process::simulate_lift(zone, head.bowls, kEveryMin, one, steps), one);
    };
    const auto error = bench::lstar_error(rows(process::LiftSteps{}), rows(fine));
    fmt::print("| {} | {:.4f} | {:.4f} |\n", head.name, error.most, error.mean);
  }
}

/// Both sides by turns, so that other work on the machine slows both alike.
struct Turns {
  bench::Timing kernel, reference;  ///< medians
  double ratio = 0;                 ///< median of the turns' ratios of processor time
};
Turns take_turns(const std::function<void()>& kernel, const std::function<void()>& reference) {
  constexpr int kKernelRuns = 5;  // of which one turn takes the median
  std::vector<double> kernel_wall, kernel_processor, reference_wall, reference_processor, ratio;
  for (int turn = 0; turn < kRepeats; ++turn) {
    const bench::Timing ours = bench::median_timing(kKernelRuns, kernel);
    const bench::Timing theirs = reference ? bench::median_timing(1, reference) : bench::Timing{};
    kernel_wall.push_back(ours.wall_ms);
    kernel_processor.push_back(ours.processor_ms);
    reference_wall.push_back(theirs.wall_ms);
    reference_processor.push_back(theirs.processor_ms);
    ratio.push_back(theirs.processor_ms / ours.processor_ms);
  }
  return {{quantile(kernel_wall, 0.5), quantile(kernel_processor, 0.5)},
          {quantile(reference_wall, 0.5), quantile(reference_processor, 0.5)},
          quantile(ratio, 0.5)};
}

/// A goal in milliseconds of wall clock on kThreads threads, and on one in processor time. `run` is
/// handed the executor; `reference` does the same work on one thread, and may be empty.
void goal_in_ms(const std::string& name, double goal_ms, const std::function<void(Executor&)>& run,
                const std::function<void()>& reference) {
  InlineExecutor one;
  const Turns alone = take_turns([&] { run(one); }, reference);
  const std::string goal = fmt::format("≤ {:g} ms", goal_ms);
  const auto if_compared = [&](double value, const char* unit) {
    return reference ? fmt::format("{:.0f} {}", value, unit) : std::string();
  };
  const std::string cvode = if_compared(alone.reference.processor_ms, "ms");
  bench::report_goal({name + ", 1 thread", goal,
                      fmt::format("{:.2f} ms", alone.kernel.processor_ms),
                      alone.kernel.processor_ms <= goal_ms, cvode, if_compared(alone.ratio, "×")});
  const auto pool = make_thread_pool(bench::kThreads);
  const Turns shared = take_turns([&] { run(*pool); }, reference);
  // On a machine that others use, two threads get less than two cores: say how much they got.
  const double cores = shared.kernel.processor_ms / shared.kernel.wall_ms;
  bench::report_goal({fmt::format("{}, {} threads", name, bench::kThreads), goal,
                      fmt::format("{:.2f} ms on {:.1f} cores", shared.kernel.wall_ms, cores),
                      shared.kernel.wall_ms <= goal_ms, cvode,
                      if_compared(shared.reference.processor_ms / shared.kernel.wall_ms, "×")});
}

/// Integration, pigment and colours of a piece of work, against CVODE with the same colour code.
void goal_of_work(const std::string& name, double goal_ms, const bench::Work& work,
                  const Setting& reference) {
  bench::Rows rows;
  goal_in_ms(
      name, goal_ms,
      [&](Executor& executor) {
        const auto moments =
            process::simulate_lift(work.members, {&work.bowl, 1}, work.every_min, executor);
        rows = bench::all_colours(work.members, moments, executor);
      },
      [&] {
        InlineExecutor one;
        rows = bench::all_colours(work.members, reference.solve(), one);
      });
}

void goal_of_ratio(const char* name, const Setting& kernel, const Setting& reference) {
  constexpr double kGoal = 50;
  std::vector<process::LiftMoment> kept;
  const Turns turns = take_turns([&] { kept = kernel.solve(); }, [&] { kept = reference.solve(); });
  const std::string ratio = fmt::format("{:.0f} ×", turns.ratio);
  bench::report_goal({name, fmt::format("≥ {:g} ×", kGoal),
                      fmt::format("{:.2f} ms", turns.kernel.processor_ms), turns.ratio >= kGoal,
                      fmt::format("{:.0f} ms", turns.reference.processor_ms), ratio});
  fmt::print(
      "\n{}: {:.2f} ms ({}, max error {:.3f} L*) against {:.1f} ms ({}, max error {:.3f} "
      "L*): {}.\n",
      name, turns.kernel.processor_ms, kernel.name, kernel.error.most, turns.reference.processor_ms,
      reference.name, reference.error.most, ratio);
}

/// The chart as the program computes it, places of one warmth being one: a lift, then a colour.
void goal_of_chart(const process::Application& bowl) {
  constexpr double kColourMin = 35;
  plan::ChartCourse course;
  plan::ChartEvent lift;
  lift.stop_min = bowl.minutes;
  lift.what = plan::ChartLift{{bowl}};
  plan::ChartColour red;
  red.bowl.developer_percent = 6;
  red.pours = {{*process::shade_from_words("red", process::DyeClass::permanent, 5, "red"), 0.5}};
  plan::ChartEvent colour;
  colour.step = 1;
  colour.on_min = colour.from_min = bowl.minutes;
  colour.stop_min = bowl.minutes + kColourMin;
  colour.what = red;
  course.zones.push_back({"lengths", 0, 20, bench::one_zone(1), {lift, colour}});
  course.end_min = colour.stop_min;
  std::vector<colour::HairLab> kept;
  goal_in_ms(
      "strand chart 240 × 240 of lift and colour, with its level lines", bench::kChartGoalMs,
      [&](Executor& executor) {
        kept = plan::strand_chart(course, bench::kChartPoints, bench::kChartPoints,
                                  hair::default_ladder(), executor)
                   .lab;
      },
      nullptr);
}

}  // namespace

int main() {
  const bench::Cells cells(process::kCells);
  const bench::Work lift =
      bench::work_of(bench::one_zone(), bench::one_hour(), bench::kLiftEveryMin);
  fmt::print(
      "## Lift: {} members, 60 min, rows every {:g} min\n\n"
      "Kernel and CVODE (BDF, banded direct solver, analytic band, memory reused from member\n"
      "to member) solve the same equations with the same constants on the same {} cells and\n"
      "compute the pigment of the same rows, one thread each, in processor time; colours are\n"
      "not timed. The kernel runs members side by side with the best instruction set of this\n"
      "machine; CVODE is the system's library, its equations compiled with the kernel's flags.\n",
      lift.members.size(), bench::kLiftEveryMin, cells.size());
  print_cells(lift);
  print_heads();

  const bench::Rows limit = bench::fine_limit(lift, cells);
  std::vector<Setting> kernel = bench::kernel_settings(lift);
  std::vector<Setting> cvode = bench::cvode_settings(lift, cells);
  bench::measure(kernel, lift, limit, kRepeats);
  bench::measure(cvode, lift, limit, 1);
  print_table("The kernel over its steps: what no other setting beats", bench::undominated(kernel));
  print_table("The default steps", {kernel.front()});
  print_table("CVODE over its tolerances: what no other setting beats", bench::undominated(cvode));

  const Setting& tuned = bench::fastest_within(cvode, bench::kLstarGoal);
  goal_of_work("one lift with its colours", bench::kLiftGoalMs, lift, tuned);
  goal_of_ratio("lift against CVODE, both at 0.05 L*",
                bench::fastest_within(kernel, bench::kLstarGoal), tuned);
  goal_of_ratio("lift against CVODE, both at the error of the default steps", kernel.front(),
                bench::fastest_within(cvode, kernel.front().error.most));

  const bench::Work chart =
      bench::work_of(bench::one_strand(), bench::one_hour(), bench::kChartEveryMin);
  std::vector<Setting> chart_cvode = bench::cvode_settings(chart, cells);
  bench::measure(chart_cvode, chart, bench::fine_limit(chart, cells), 1);
  goal_of_work("240 × 240 places and moments, each simulated", bench::kChartGoalMs, chart,
               bench::fastest_within(chart_cvode, bench::kLstarGoal));
  goal_of_chart(chart.bowl);

  constexpr double kSame = 0.005;  // L*; the finest steps tried are well below this
  const auto finest = bench::lstar_error(
      bench::all_colours(lift.members, kernel.back().solve(), *make_thread_pool(1)), limit);
  if (finest.most > kSame) {
    fmt::print(stderr,
               "The kernel's limit of fine steps is {:.4f} L* from CVODE's: they no longer "
               "solve the same equations (bench/cvode_lift.cpp).\n",
               finest.most);
    return 1;
  }
  return 0;
}
