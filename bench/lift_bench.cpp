// What a lift, a strand chart and their parts cost.
#include <benchmark/benchmark.h>

#include <vector>

#include "cases.h"
#include "huewright/base/random.h"
#include "huewright/hair/tress.h"

namespace {

using namespace hw;

void per_member(benchmark::State& state, std::size_t members) {
  state.counters["per_member"] = benchmark::Counter(
      static_cast<double>(members),
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// threads: range(0).
void lift_with_colours(benchmark::State& state) {
  const auto executor = make_thread_pool(static_cast<unsigned>(state.range(0)));
  const process::LiftMembers zone = bench::one_zone();
  const process::Application bowl = bench::one_hour();
  for (auto _ : state) {
    const auto moments = process::simulate_lift(zone, {&bowl, 1}, bench::kLiftEveryMin, *executor);
    benchmark::DoNotOptimize(bench::all_colours(zone, moments, *executor));
  }
  per_member(state, zone.size());
}

void lift_alone(benchmark::State& state) {
  const auto executor = make_thread_pool(static_cast<unsigned>(state.range(0)));
  const process::LiftMembers zone = bench::one_zone();
  const process::Application bowl = bench::one_hour();
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        process::simulate_lift(zone, {&bowl, 1}, bench::kLiftEveryMin, *executor));
  }
  per_member(state, zone.size());
}

void strand_chart(benchmark::State& state) {
  const auto executor = make_thread_pool(static_cast<unsigned>(state.range(0)));
  const process::LiftMembers strand = bench::one_strand();
  const process::Application bowl = bench::one_hour();
  for (auto _ : state) {
    const auto moments =
        process::simulate_lift(strand, {&bowl, 1}, bench::kChartEveryMin, *executor);
    benchmark::DoNotOptimize(bench::all_colours(strand, moments, *executor));
  }
  per_member(state, strand.size());
}

void strand_chart_alone(benchmark::State& state) {
  const auto executor = make_thread_pool(static_cast<unsigned>(state.range(0)));
  const process::LiftMembers strand = bench::one_strand();
  const process::Application bowl = bench::one_hour();
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        process::simulate_lift(strand, {&bowl, 1}, bench::kChartEveryMin, *executor));
  }
  per_member(state, strand.size());
}

void colours_of_one_moment(benchmark::State& state) {
  InlineExecutor executor;
  const process::LiftMembers zone = bench::one_zone();
  const process::Application bowl = bench::one_hour();
  const auto moments = process::simulate_lift(zone, {&bowl, 1}, bench::kLiftEveryMin, executor);
  std::vector<colour::HairLab> out(zone.size());
  for (auto _ : state) {
    process::lift_colours(zone, moments.back(), out);
    benchmark::DoNotOptimize(out.data());
  }
  per_member(state, zone.size());
}

void draws_of_the_constants(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(process::draw_constants(Draws(1), bench::kLiftMembers));
  }
  per_member(state, bench::kLiftMembers);
}

BENCHMARK(lift_with_colours)
    ->Arg(1)
    ->Arg(bench::kThreads)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK(lift_alone)->Arg(1)->Arg(bench::kThreads)->UseRealTime()->Unit(benchmark::kMillisecond);
BENCHMARK(strand_chart)->Arg(1)->Arg(bench::kThreads)->UseRealTime()->Unit(benchmark::kMillisecond);
BENCHMARK(strand_chart_alone)
    ->Arg(1)
    ->Arg(bench::kThreads)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK(colours_of_one_moment)->Unit(benchmark::kMicrosecond);
BENCHMARK(draws_of_the_constants)->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
