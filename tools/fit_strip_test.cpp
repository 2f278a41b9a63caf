// Fits the lift constants to the published strip test and prints draws as
// data/process/strip_test_draws.csv; the leave-one-out errors go to standard error.
//
//   build/release/tools/fit_strip_test > data/process/strip_test_draws.csv
//   tools/seal_table data/process/strip_test_draws.csv
//
// Method: 64 Metropolis chains side by side (one per lane of the kernel) over nine unknowns: the
// two rates, the warm yield, the activity time, diffusion, cuticle, opening, order, and the
// melanin. Priors: wide for what is fitted, data/process/lift_constants.csv for the rest.
// Likelihood: normal in scale steps, sd 0.25 (whole steps read by eye: uniform over half a step
// either side is 0.29).
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <string_view>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/hair/tress.h"
#include "huewright/process/lift.h"
#include "huewright/process/strip_scale.h"

namespace {

using hw::process::Application;
using hw::process::LiftConstants;
using hw::process::LiftMembers;

constexpr std::size_t kChains = 64;
constexpr std::size_t kUnknowns = 9;
constexpr int kBurnIn = 5000;
constexpr int kThin = 400;
constexpr double kStepSd = 0.25;
constexpr double kStrandUm = 80;  // equal-area mean of Asian hair, 80.3
constexpr double kPheomelaninShare = 0.05;

// What is known of strength and diameter, seen from outside (docs/science/lift.md): time shrinks
// with strength to the power 1.0 (strip tests at other strengths, 0.75 to 1.4), and grows with
// diameter to about the first power (trade timing of fine against coarse hair, wide, a guess).
constexpr double kStrengthOrder = 1.0;
constexpr double kStrengthSd = 0.15;
constexpr double kDiameterOrder = 1.0;
constexpr double kDiameterSd = 0.6;

struct Reading {
  double minute, step;
};
constexpr std::array<Reading, 8> kReadings{
    {{10, 9}, {20, 11}, {30, 13}, {50, 14}, {120, 15}, {240, 16}, {300, 16}, {600, 16}}};

/// Prior of one unknown in its own scale: normal (mean, sd), or uniform where sd is 0.
struct Prior {
  std::string_view name;
  double mean, sd, low, high;
  double jump;
};
const std::array<Prior, kUnknowns> kPriors{{
    {"ln dark rate", std::log(0.3), 1.5, -9, 9, 0.12},
    {"ln warm rate", std::log(0.02), 1.5, -9, 9, 0.12},
    {"ln warm yield", std::log(0.3), 1.0, -9, 0, 0.12},
    {"ln activity", std::log(95.0), 0.35, -9, 9, 0.10},
    {"ln diffusion", std::log(1.2e-13), 0.7, -40, 9, 0.15},
    {"ln cuticle", std::log(1.5), 0.8, -9, 9, 0.20},
    {"opening power", 0.3, 0, 0.0, 0.65, 0.06},
    {"melanin", 2.19, 0.08, 2.0, 3.0, 0.08},
    {"order", 1.1, 0, 0.75, 1.4, 0.08},
}};

using Point = std::array<double, kUnknowns>;

LiftConstants constants_at(const Point& at) {
  LiftConstants k = hw::process::central_constants();
  k.dark_rate_per_min = std::exp(at[0]);
  k.warm_rate_per_min = std::exp(at[1]);
  k.warm_yield = std::exp(at[2]);
  k.activity_min = std::exp(at[3]);
  k.diffusion_m2_per_s = std::exp(at[4]);
  k.cuticle_um = std::exp(at[5]);
  k.opening_power = at[6];
  k.order = at[8];
  return k;
}

/// Wear constant of a draw: four hourly fresh bowls on ordinary strands use up the cap.
double wear_constant(LiftConstants k) {
  hw::InlineExecutor inline_executor;
  Application bowl{4, 100.0 / 3, true, 3, 22, 60, false, 0};
  const std::vector<Application> day(4, bowl);
  for (int round = 0; round < 12; ++round) {
    LiftMembers one;
    one.resize(1);
    one.constants[0] = k;
    const auto end = hw::process::simulate_lift(one, day, 60, inline_executor).back();
    // x is held at the cap, so aim just under it.
    k.wear_per_root_min *= std::sqrt(0.995 * hw::process::kWearCap / end.wear[0]);
    if (end.wear[0] >= hw::process::kWearCap) k.wear_per_root_min *= 0.9;
  }
  return k.wear_per_root_min;
}

/// Strands of a diameter with the strip test's starting colour (melanin times radius stays).
LiftMembers strands(const std::vector<Point>& points, double strand_um) {
  LiftMembers members;
  members.resize(points.size());
  for (std::size_t m = 0; m < points.size(); ++m) {
    const double melanin = points[m][7] * kStrandUm / strand_um;
    members.constants[m] = constants_at(points[m]);
    members.strand_um[m] = strand_um;
    members.eumelanin_percent[m] = melanin * (1 - kPheomelaninShare);
    members.pheomelanin_percent[m] = melanin * kPheomelaninShare;
  }
  return members;
}

/// Minutes until each point's strands reach the L* asked of it; linear between rows 2 min apart.
std::vector<double> minutes_to(const LiftMembers& members, const Application& bowl,
                               const std::vector<double>& lstar) {
  hw::InlineExecutor inline_executor;
  const auto moments =
      hw::process::simulate_lift(members, {&bowl, 1}, 2, inline_executor, {0.1, 1.3, 2});
  std::vector<double> minutes(lstar.size(), bowl.minutes);
  std::vector<hw::colour::HairLab> labs(lstar.size());
  std::vector<double> before(lstar.size(), 0);
  for (std::size_t i = 0; i < moments.size(); ++i) {
    hw::process::lift_colours(members, moments[i], labs);
    for (std::size_t m = 0; m < lstar.size(); ++m) {
      if (i > 0 && before[m] < lstar[m] && labs[m].l >= lstar[m]) {
        minutes[m] = moments[i].minute - 2 * (labs[m].l - lstar[m]) / (labs[m].l - before[m]);
      }
      before[m] = labs[m].l;
    }
  }
  return minutes;
}

/// How strength and diameter act on time, seen from outside: the orders p with t ∝ C^−p and t ∝
/// d^p.
struct Orders {
  double strength, diameter;
};
std::vector<Orders> outer_orders(const std::vector<Point>& points) {
  constexpr double kAtMinute = 20;
  hw::InlineExecutor inline_executor;
  const Application whole{4, 100.0 / 3, true, 3, 22, kAtMinute, false, 0};
  const LiftMembers members = strands(points, kStrandUm);
  const auto end =
      hw::process::simulate_lift(members, {&whole, 1}, kAtMinute, inline_executor, {0.1, 1.3, 2});
  std::vector<hw::colour::HairLab> labs(points.size());
  hw::process::lift_colours(members, end.back(), labs);
  std::vector<double> lstar;
  for (const auto& lab : labs) lstar.push_back(lab.l);
  const Application half{2, 100.0 / 3, true, 3, 22, 90, false, 0};
  const Application longer{4, 100.0 / 3, true, 3, 22, 90, false, 0};
  const std::vector<double> weak = minutes_to(members, half, lstar);
  constexpr double kFineUm = 50;
  const std::vector<double> fine = minutes_to(strands(points, kFineUm), longer, lstar);
  std::vector<Orders> orders;
  for (std::size_t m = 0; m < points.size(); ++m) {
    orders.push_back({std::log(weak[m] / kAtMinute) / std::log(2.0),
                      std::log(kAtMinute / fine[m]) / std::log(kStrandUm / kFineUm)});
  }
  return orders;
}

std::vector<std::array<double, kReadings.size()>> predict(const std::vector<Point>& points) {
  hw::InlineExecutor inline_executor;
  const LiftMembers members = strands(points, kStrandUm);
  const std::vector<Application> bowl{{4, 100.0 / 3, true, 3, 22, 600, false, 0}};
  const auto moments =
      hw::process::simulate_lift(members, bowl, 10, inline_executor, {0.1, 1.3, 4});
  std::vector<std::array<double, kReadings.size()>> steps(points.size());
  std::vector<hw::colour::HairLab> labs(points.size());
  for (std::size_t r = 0; r < kReadings.size(); ++r) {
    hw::process::lift_colours(members, moments[static_cast<std::size_t>(kReadings[r].minute / 10)],
                              labs);
    for (std::size_t m = 0; m < points.size(); ++m) {
      steps[m][r] = hw::process::step_of_lstar(labs[m].l);
    }
  }
  return steps;
}

double log_posterior(const Point& at, const std::array<double, kReadings.size()>& steps,
                     const Orders& orders, std::size_t left_out) {
  double sum = -0.5 * std::pow((orders.strength - kStrengthOrder) / kStrengthSd, 2) -
               0.5 * std::pow((orders.diameter - kDiameterOrder) / kDiameterSd, 2);
  for (std::size_t i = 0; i < kUnknowns; ++i) {
    const Prior& prior = kPriors[i];
    if (at[i] < prior.low || at[i] > prior.high) return -1e300;
    if (prior.sd > 0) sum -= 0.5 * std::pow((at[i] - prior.mean) / prior.sd, 2);
  }
  if (std::exp(at[1]) > 0.8 * std::exp(at[0])) return -1e300;  // the dark pool is the faster one
  for (std::size_t r = 0; r < kReadings.size(); ++r) {
    if (r == left_out) continue;
    sum -= 0.5 * std::pow((steps[r] - kReadings[r].step) / kStepSd, 2);
  }
  return sum;
}

struct Fit {
  std::vector<Point> draws;
  Point best{};
  double best_posterior = -1e300;
};

Fit sample(std::uint64_t seed, std::size_t left_out, int rounds) {
  const hw::Draws random(seed);
  std::vector<Point> at(kChains);
  for (std::size_t c = 0; c < kChains; ++c) {
    for (std::size_t i = 0; i < kUnknowns; ++i) {
      const Prior& p = kPriors[i];
      at[c][i] = p.sd > 0 ? p.mean + 0.3 * p.sd * random.normal(i, c)
                          : p.low + (p.high - p.low) * random.uniform(i, c);
    }
  }
  std::vector<double> now(kChains);
  const auto start = predict(at);
  const auto start_orders = outer_orders(at);
  for (std::size_t c = 0; c < kChains; ++c) {
    now[c] = log_posterior(at[c], start[c], start_orders[c], left_out);
  }
  Fit fit;
  std::uint64_t stream = 100;
  for (int round = 1; round <= kBurnIn + rounds * kThin; ++round) {
    std::vector<Point> tried = at;
    for (std::size_t c = 0; c < kChains; ++c) {
      // Half of the moves go along the line through two other chains (differential evolution),
      // which follows the correlations; half are plain jumps.
      const std::size_t other = random.below(kChains, stream, c);
      const std::size_t third = random.below(kChains, stream + 1, c);
      const bool along = random.uniform(stream + 2, c) < 0.5;
      const double scale = along ? 0.6 : 0.7;
      for (std::size_t i = 0; i < kUnknowns; ++i) {
        const double jitter = kPriors[i].jump * random.normal(stream + 3 + i, c);
        tried[c][i] +=
            along ? scale * (at[other][i] - at[third][i]) + 0.02 * jitter : scale * jitter;
      }
    }
    const auto steps = predict(tried);
    const auto orders = outer_orders(tried);
    for (std::size_t c = 0; c < kChains; ++c) {
      const double then = log_posterior(tried[c], steps[c], orders[c], left_out);
      if (std::log(random.uniform(stream + 20, c)) < then - now[c]) {
        at[c] = tried[c];
        now[c] = then;
      }
      if (now[c] > fit.best_posterior) {
        fit.best_posterior = now[c];
        fit.best = at[c];
      }
    }
    stream += 32;
    if (round > kBurnIn && (round - kBurnIn) % kThin == 0) {
      fit.draws.insert(fit.draws.end(), at.begin(), at.end());
    }
  }
  return fit;
}

void print_row(const Point& at) {
  const LiftConstants k = constants_at(at);
  fmt::print("{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g}\n",
             k.dark_rate_per_min, k.warm_rate_per_min, k.warm_yield, k.activity_min,
             k.diffusion_m2_per_s, k.cuticle_um, k.opening_power, k.order, wear_constant(k), at[7]);
}

void report(const char* label, const Point& at) {
  fmt::print(stderr, "{}:", label);
  const auto steps = predict({at});
  for (const double step : steps[0]) fmt::print(stderr, " {:.2f}", step);
  const Orders orders = outer_orders({at})[0];
  fmt::print(stderr, "; order in strength {:.2f}, in diameter {:.2f}\n", orders.strength,
             orders.diameter);
}

void leave_one_out() {
  fmt::print(stderr, "leave one out (sd of a reading {}):\n", kStepSd);
  for (std::size_t r = 0; r < kReadings.size(); ++r) {
    const Fit fit = sample(100 + r, r, 1);
    double mean = 0;
    for (const auto& steps : predict(fit.draws)) mean += steps[r] / double(fit.draws.size());
    fmt::print(stderr, "  {:3.0f} min: read {:2.0f}, predicted {:.2f}, error {:+.2f} steps\n",
               kReadings[r].minute, kReadings[r].step, mean, mean - kReadings[r].step);
  }
}

}  // namespace

int main(int argc, char**) {
  constexpr std::size_t kNone = 99;
  const Fit fit = sample(1, kNone, 2);
  fmt::print(
      "# Draws of the lift constants that fit the strip test together; the first row is the most "
      "likely one.\n");
  fmt::print(
      "dark_rate_per_min,warm_rate_per_min,warm_yield,activity_min,diffusion_m2_per_s,"
      "cuticle_um,opening_power,order,wear_per_root_min,strip_melanin_percent\n");
  print_row(fit.best);
  for (const Point& point : fit.draws) print_row(point);
  fmt::print(stderr, "best log posterior {:.3f}\n", fit.best_posterior);
  report("best", fit.best);
  for (const double melanin : {2.0, 2.2, 2.5, 3.0}) {
    Point other = fit.best;
    other[7] = melanin;
    report(fmt::format("  with {} % melanin", melanin).c_str(), other);
  }
  for (std::size_t i = 0; i < kUnknowns; ++i) {
    double mean = 0, squares = 0;
    for (const Point& p : fit.draws) {
      mean += p[i] / double(fit.draws.size());
      squares += p[i] * p[i] / double(fit.draws.size());
    }
    fmt::print(stderr, "  {:14s} best {:8.4f} mean {:8.4f} sd {:.4f}\n", kPriors[i].name,
               fit.best[i], mean, std::sqrt(squares - mean * mean));
  }
  if (argc < 2) leave_one_out();
}
