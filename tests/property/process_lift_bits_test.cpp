// The same seed gives the same bits of the process state at any number of threads and on every
// instruction set, and time steps are short enough. The kernels are compiled here again, once for
// each set (tests/process.cmake), and compared with the ones the program picks by itself.
#include <gtest/gtest.h>

#include <bit>
#include <cstdio>
#include <cstring>
#include <memory>

#include "lift_kernel.h"
#include "process_lift_cases.h"
#include "tress_kernel.h"

namespace hw::process {

void lift_steps_baseline(LiftBlock&, const LiftLanes&, const RadialGrid&, const double*,
                         std::size_t);
void pigment_means_baseline(PigmentLanes&, const LiftBlock&, const RadialGrid&);
#if defined(HW_TEST_X86_SETS)
void lift_steps_avx2(LiftBlock&, const LiftLanes&, const RadialGrid&, const double*, std::size_t);
void pigment_means_avx2(PigmentLanes&, const LiftBlock&, const RadialGrid&);
void lift_steps_avx512f(LiftBlock&, const LiftLanes&, const RadialGrid&, const double*,
                        std::size_t);
void pigment_means_avx512f(PigmentLanes&, const LiftBlock&, const RadialGrid&);
#endif

}  // namespace hw::process

namespace hw::hair {

void tress_kernel_baseline(TressLanes&, const TressTables&);
void tress_y_kernel_baseline(TressLanes&, const TressTables&, std::size_t);
#if defined(HW_TEST_X86_SETS)
void tress_kernel_avx2(TressLanes&, const TressTables&);
void tress_y_kernel_avx2(TressLanes&, const TressTables&, std::size_t);
void tress_kernel_avx512f(TressLanes&, const TressTables&);
void tress_y_kernel_avx512f(TressLanes&, const TressTables&, std::size_t);
#endif

}  // namespace hw::hair

namespace hw::process {
namespace {

using namespace hw::process::test;

/// The three kernels as compiled for one instruction set.
struct Kernels {
  const char* set;
  bool runs_here;
  decltype(&lift_steps) steps;
  decltype(&pigment_means) means;
  decltype(&hair::tress_kernel) tress;
  decltype(&hair::tress_y_kernel) tress_y;
};

std::vector<Kernels> all_kernels() {
  std::vector<Kernels> list{{"picked by itself", true, lift_steps, pigment_means,
                             hair::tress_kernel, hair::tress_y_kernel},
                            {"baseline", true, lift_steps_baseline, pigment_means_baseline,
                             hair::tress_kernel_baseline, hair::tress_y_kernel_baseline}};
#if defined(HW_TEST_X86_SETS)
  __builtin_cpu_init();
  list.push_back({"avx2", __builtin_cpu_supports("avx2") != 0, lift_steps_avx2, pigment_means_avx2,
                  hair::tress_kernel_avx2, hair::tress_y_kernel_avx2});
  list.push_back({"avx512f", __builtin_cpu_supports("avx512f") != 0, lift_steps_avx512f,
                  pigment_means_avx512f, hair::tress_kernel_avx512f, hair::tress_y_kernel_avx512f});
#endif
  std::vector<Kernels> here;
  for (const Kernels& kernels : list) {
    if (kernels.runs_here) {
      here.push_back(kernels);
    } else {
      std::printf("THIS PROCESSOR LACKS %s: its bits are NOT compared here\n", kernels.set);
    }
  }
  return here;
}

/// Bytes of what a kernel left behind.
template <class T>
std::string bytes_of(const T& value) {
  return {reinterpret_cast<const char*>(&value), sizeof(T)};
}

/// A block in the middle of its second bowl, and the pigment then.
struct Outcome {
  std::unique_ptr<LiftBlock> block = std::make_unique<LiftBlock>();
  std::unique_ptr<PigmentLanes> pigment = std::make_unique<PigmentLanes>();
};

Outcome run_kernels(const Kernels& kernels, std::uint64_t number) {
  const Case c = random_case(number, kLanes);
  Outcome outcome;
  LiftBlock& block = *outcome.block;
  auto lanes = std::make_unique<LiftLanes>();
  std::vector<double> dt;
  for (double step = 0.02; dt.size() < 70; step = std::min(1.25, step * 1.1)) dt.push_back(step);
  for (int bowl = 0; bowl < 2; ++bowl) {
    for (std::size_t m = 0; m < kLanes; ++m) {
      set_lane(*lanes, m, c.hair, m, c.bowl);
      lanes->wear_at_mixing[m] = block.wear[m];
      block.activity[m] = 1;
    }
    block.dt_before = 0;
    kernels.steps(block, *lanes, radial_grid(), dt.data(), dt.size());
  }
  for (std::size_t m = 0; m < kLanes; ++m) {
    const LiftConstants& k = c.hair.constants[m];
    outcome.pigment->dark_rate[m] = k.dark_rate_per_min;
    outcome.pigment->warm_rate[m] = k.warm_rate_per_min;
    outcome.pigment->dye_rate[m] = k.dark_rate_per_min * k.dye_rate_ratio;
  }
  kernels.means(*outcome.pigment, block, radial_grid());
  return outcome;
}

TEST(LiftBits, are_the_same_on_every_instruction_set) {
  const auto kernels = all_kernels();
  ASSERT_GE(kernels.size(), 2U);
  for (std::uint64_t number = 0; number < 20; ++number) {
    const Outcome first = run_kernels(kernels[0], number);
    ASSERT_GT(first.block->exposure[kCells - 1][5], 1) << "the kernel did nothing";
    for (std::size_t i = 1; i < kernels.size(); ++i) {
      const Outcome other = run_kernels(kernels[i], number);
      EXPECT_EQ(bytes_of(*other.block), bytes_of(*first.block)) << kernels[i].set;
      EXPECT_EQ(bytes_of(*other.pigment), bytes_of(*first.pigment)) << kernels[i].set;
    }
  }
}

TEST(TressBits, are_the_same_on_every_instruction_set) {
  const auto kernels = all_kernels();
  const auto dye = hair::old_colour_absorption("red");
  const auto base = hair::base_absorption(hair::kLiftedBase);
  const auto white = hair::base_absorption(hair::kWhiteBase);
  const auto& light = colour::daylight_10deg();
  const Draws random(19);
  for (const double white_share : {0.0, 0.35}) {
    hair::TressTables tables{};
    tables.eumelanin = hair::eumelanin_per_percent().data();
    tables.pheomelanin = hair::pheomelanin_per_percent().data();
    tables.lifted_base = base.data();
    tables.white_base = white.data();
    tables.dye[0] = dye.data();
    tables.dye_count = 1;
    tables.weight_x = light.x.data();
    tables.weight_y = light.y.data();
    tables.weight_z = light.z.data();
    tables.white_share = white_share;
    std::string first;
    for (const Kernels& one : kernels) {
      auto lanes = std::make_unique<hair::TressLanes>();
      for (std::size_t m = 0; m < hair::kTressLanes; ++m) {
        lanes->eumelanin[m] = 3 * random.uniform(1, m);
        lanes->pheo_like[m] = 0.4 * random.uniform(2, m);
        lanes->base_share[m] = random.uniform(3, m);
        lanes->dye[0][m] = 30 * random.uniform(4, m);
        lanes->radius_cm[m] = (20 + 40 * random.uniform(5, m)) * 1e-4;
        lanes->surface[m] = 0.0175 + 0.0135 * random.uniform(6, m);
      }
      one.tress(*lanes, tables);
      std::string now = bytes_of(lanes->x) + bytes_of(lanes->y) + bytes_of(lanes->z);
      one.tress_y(*lanes, tables, colour::kBands);
      now += bytes_of(lanes->y);
      if (first.empty()) first = now;
      EXPECT_EQ(now, first) << one.set;
    }
  }
}

std::vector<std::uint64_t> bits_of(const std::vector<LiftMoment>& moments) {
  std::vector<std::uint64_t> bits;
  for (const LiftMoment& moment : moments) {
    for (const auto* array : {&moment.eumelanin_left, &moment.pheomelanin_left, &moment.warm,
                              &moment.dye_left, &moment.wear, &moment.opened, &moment.exposure}) {
      for (const double value : *array) bits.push_back(std::bit_cast<std::uint64_t>(value));
    }
  }
  return bits;
}

TEST(LiftBits, are_the_same_at_any_number_of_threads) {
  constexpr std::size_t kMembers = 333;  // five blocks and a part
  for (std::uint64_t number = 0; number < 5; ++number) {
    const Case c = random_case(number, kMembers);
    const std::vector<Application> bowls{c.bowl, c.bowl};
    const auto alone = bits_of(run(c.hair, bowls, 7));
    for (const unsigned threads : {1U, 2U, 3U}) {
      const auto pool = make_thread_pool(threads);
      EXPECT_EQ(bits_of(simulate_lift(c.hair, bowls, 7, *pool)), alone) << threads << " threads";
    }
  }
}

TEST(LiftBits, of_a_member_do_not_depend_on_the_others) {
  const Case c = random_case(6, 130);
  const auto together = run(c.hair, {c.bowl, c.bowl}, 10);
  for (const std::size_t m : {0U, 63U, 64U, 129U}) {
    LiftMembers alone;
    alone.resize(1);
    alone.constants[0] = c.hair.constants[m];
    alone.eumelanin_percent[0] = c.hair.eumelanin_percent[m];
    alone.pheomelanin_percent[0] = c.hair.pheomelanin_percent[m];
    alone.warm_percent[0] = c.hair.warm_percent[m];
    alone.strand_um[0] = c.hair.strand_um[m];
    alone.opened[0] = c.hair.opened[m];
    alone.wear[0] = c.hair.wear[m];
    const auto single = run(alone, {c.bowl, c.bowl}, 10);
    for (std::size_t i = 0; i < single.size(); ++i) {
      EXPECT_EQ(single[i].eumelanin_left[0], together[i].eumelanin_left[m]);
      EXPECT_EQ(single[i].exposure[0], together[i].exposure[m]);
      EXPECT_EQ(single[i].wear[0], together[i].wear[m]);
      EXPECT_NEAR(labs_of(alone, single[i])[0].l, labs_of(c.hair, together[i])[m].l, 1e-9);
      EXPECT_NEAR(labs_of(alone, single[i])[0].b, labs_of(c.hair, together[i])[m].b, 1e-9);
    }
  }
}

/// Largest difference in L* between two ways of cutting time, over members and reported minutes.
double worst_difference(const LiftMembers& hair, const std::vector<Application>& bowls,
                        const LiftSteps& one, const LiftSteps& other) {
  const auto left = run(hair, bowls, 5, one);
  const auto right = run(hair, bowls, 5, other);
  double worst = 0;
  for (std::size_t i = 0; i < left.size(); ++i) {
    const auto a = lstars_of(hair, left[i]);
    const auto b = lstars_of(hair, right[i]);
    for (std::size_t m = 0; m < hair.size(); ++m) worst = std::max(worst, std::abs(a[m] - b[m]));
  }
  return worst;
}

/// Steps `times` as fine: shorter at both ends, and growing as much over the same time.
LiftSteps finer(double times) {
  LiftSteps steps;
  steps.first_min /= times;
  steps.growth = std::pow(steps.growth, 1 / times);
  steps.longest_min /= times;
  return steps;
}

TEST(LiftSteps, default_keeps_colours_within_a_twentieth) {
  constexpr double kPromise = 0.05;  // L*, lift.h
  Application cold = bowl_of(4, 100.0 / 3, 60);
  cold.temperature_c = 18;
  Application soap = bowl_of(2.4, 20, 60);
  soap.temperature_c = 32;
  soap.water_per_hair = 0.5;
  Application strong = bowl_of(8, 50, 60);
  strong.temperature_c = 35;
  strong.mix_per_hair = 1;
  Application covered = bowl_of(6, 100.0 / 3, 60);
  covered.covered = true;
  double coarse = 0;
  double standard = 0;
  double halved = 0;
  for (const double level : {1.0, 2.0, 4.0, 6.0, 8.0}) {
    for (const double um : {45.0, 73.0, 110.0}) {
      for (const double opened : {1.0, 5.0}) {
        LiftMembers hair = hair_of_level(32, level, um, 7);
        for (double& factor : hair.opened) factor = opened;
        for (Application bowl : {cold, soap, strong, covered}) {
          std::vector<Application> bowls{bowl, bowl};
          bowls[1].minutes = 20;
          coarse = std::max(coarse, worst_difference(hair, bowls, finer(0.5), finer(8)));
          standard = std::max(standard, worst_difference(hair, bowls, finer(1), finer(8)));
          halved = std::max(halved, worst_difference(hair, bowls, finer(2), finer(8)));
        }
      }
    }
  }
  std::printf("largest error of L*: steps twice as long %.4f, default %.4f, half as long %.4f\n",
              coarse, standard, halved);
  EXPECT_LE(standard, kPromise);
  // A second-order scheme quarters its error; the outer front leaves some of it at first order.
  EXPECT_LT(standard, 0.45 * coarse);
  EXPECT_LT(halved, 0.45 * standard);
}

TEST(LiftSteps, reports_at_other_minutes_change_little) {
  const LiftMembers hair = hair_of_level(64, 2);
  const auto bowl = bowl_of(4, 100.0 / 3, 60);
  const double seldom = mean_lstar(hair, run(hair, {bowl}, 60).back());
  for (const double every : {0.5, 1.0, 7.0, 25.0}) {
    EXPECT_NEAR(mean_lstar(hair, run(hair, {bowl}, every).back()), seldom, 0.01) << every;
  }
}

}  // namespace
}  // namespace hw::process
