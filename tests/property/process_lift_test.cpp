// What must hold for every head and bowl, whatever the constants: more of a good thing never lifts
// less. Cases and members are random but repeatable.
#include <gtest/gtest.h>

#include <functional>

#include "huewright/process/lift.h"
#include "property/process_lift_cases.h"

namespace hw::process {
namespace {

using namespace hw::process::test;

constexpr std::uint64_t kCases = 60;
constexpr std::size_t kMembers = 64;
constexpr double kRounding = 1e-10;  // of a share

/// Runs each case twice, as drawn and changed, and compares the eumelanin left at every fifth
/// minute of 45, the longest a label allows. allowed: how much more the changed one may have left
/// [share].
void expect_never_slower(
    const std::function<void(Case&)>& change, double allowed = kRounding,
    const std::function<void(Case&)>& set = [](Case&) {}) {
  double worst = 0;
  for (std::uint64_t number = 0; number < kCases; ++number) {
    Case plain = random_case(number, kMembers);
    plain.bowl.minutes = 45;
    set(plain);
    Case changed = plain;
    change(changed);
    const auto one = run(plain.hair, {plain.bowl}, 5);
    const auto other = run(changed.hair, {changed.bowl}, 5);
    ASSERT_EQ(one.size(), other.size());
    for (std::size_t i = 1; i < one.size(); ++i) {
      for (std::size_t m = 0; m < kMembers; ++m) {
        worst = std::max(worst, other[i].eumelanin_left[m] - one[i].eumelanin_left[m]);
        worst = std::max(worst, other[i].pheomelanin_left[m] - one[i].pheomelanin_left[m]);
      }
    }
  }
  EXPECT_LE(worst, allowed) << "share of a pigment left over by the changed bowl or strand";
}

TEST(LiftProperty, stronger_developer_is_never_slower) {
  expect_never_slower([](Case& c) { c.bowl.peroxide_percent *= 1.5; });
  expect_never_slower([](Case& c) { c.bowl.peroxide_percent += 0.1; });
}

TEST(LiftProperty, more_powder_is_never_slower) {
  expect_never_slower([](Case& c) { c.bowl.powder_percent += 5; });
}

TEST(LiftProperty, alkali_is_never_slower) {
  expect_never_slower([](Case& c) { c.bowl.alkaline = true; }, kRounding,
                      [](Case& c) { c.bowl.alkaline = false; });
}

TEST(LiftProperty, a_cover_is_never_slower) {
  expect_never_slower([](Case& c) { c.bowl.covered = true; }, kRounding,
                      [](Case& c) { c.bowl.covered = false; });
}

TEST(LiftProperty, damp_hair_is_never_faster) {
  expect_never_slower([](Case& c) { c.bowl.water_per_hair = 0; });
}

TEST(LiftProperty, more_mix_is_never_slower) {
  expect_never_slower([](Case& c) { c.bowl.mix_per_hair *= 1.4; });
}

TEST(LiftProperty, warmth_is_never_slower_within_a_label) {
  expect_never_slower([](Case& c) { c.bowl.temperature_c += 3; });
}

TEST(LiftProperty, a_faster_head_is_never_slower) {
  expect_never_slower([](Case& c) {
    for (double& rate : c.hair.rate) rate *= 1.3;
  });
}

void make_finer(Case& c) {
  for (double& um : c.hair.strand_um) um *= 0.8;
}
void make_opened(Case& c) {
  for (double& opened : c.hair.opened) opened *= 2;
}

TEST(LiftProperty, finer_and_opened_are_never_slower_where_oxidant_is_ample) {
  // What wear takes from the bowl is switched off; then it holds to the last digits.
  const auto no_wear = [](Case& c) {
    for (auto& k : c.hair.constants) k.wear_per_root_min = 0;
  };
  expect_never_slower(make_finer, kRounding, no_wear);
  expect_never_slower(make_opened, kRounding, no_wear);
}

TEST(LiftProperty, finer_and_opened_are_never_slower_under_an_ordinary_bowl) {
  // Faster access also wears faster and so uses up the bowl; at 3 g/g and more that leaves at most
  // 1e-4 of the pigment behind in 45 min, which is below 0.01 L*.
  const auto ordinary = [](Case& c) {
    c.bowl.mix_per_hair = std::max(3.0, c.bowl.mix_per_hair);
    c.bowl.peroxide_percent = std::max(2.0, c.bowl.peroxide_percent);
  };
  expect_never_slower(make_finer, 1e-4, ordinary);
  expect_never_slower(make_opened, 1e-4, ordinary);
}

TEST(LiftProperty, finer_strands_of_the_same_colour_lift_sooner) {
  for (const double level : {1.0, 3.0, 6.0}) {
    double before = 100;
    for (const double um : {50.0, 65.0, 80.0, 100.0}) {
      const LiftMembers hair = hair_of_level(kMembers, level, um);
      const double lstar = mean_lstar(hair, run(hair, {bowl_of(4, 100.0 / 3, 20)}).back());
      EXPECT_LT(lstar, before) << level << " at " << um << " um";
      before = lstar;
    }
  }
}

TEST(LiftProperty, a_fresh_bowl_is_never_worse_than_the_old_one) {
  double worst = 0;
  for (std::uint64_t number = 0; number < kCases; ++number) {
    const Case c = random_case(number, kMembers);
    Application first = c.bowl;
    first.minutes = 25;
    Application second = c.bowl;
    second.minutes = 20;
    Application whole = c.bowl;
    whole.minutes = 45;
    const auto left_on = run(c.hair, {whole}).back();
    const auto renewed = run(c.hair, {first, second}).back();
    for (std::size_t m = 0; m < kMembers; ++m) {
      worst = std::max(worst, renewed.eumelanin_left[m] - left_on.eumelanin_left[m]);
    }
  }
  // A new bowl starts its time steps afresh, so the two differ by the error of time steps too.
  EXPECT_LE(worst, 2e-4);
}

TEST(LiftProperty, pigment_never_rises_and_shares_stay_shares) {
  for (std::uint64_t number = 0; number < kCases; ++number) {
    const Case c = random_case(number, kMembers);
    const auto moments = run(c.hair, {c.bowl, c.bowl}, 3);
    for (std::size_t i = 1; i < moments.size(); ++i) {
      for (std::size_t m = 0; m < kMembers; ++m) {
        EXPECT_LE(pigment_of(c.hair, moments[i], m), pigment_of(c.hair, moments[i - 1], m));
        EXPECT_LE(moments[i].eumelanin_left[m], moments[i - 1].eumelanin_left[m]);
        EXPECT_LE(moments[i].dye_left[m], moments[i - 1].dye_left[m]);
        EXPECT_GE(moments[i].wear[m], moments[i - 1].wear[m]);
        EXPECT_GE(moments[i].opened[m], moments[i - 1].opened[m]);
        EXPECT_LE(moments[i].wear[m], kWearCap);
        for (const double share : {moments[i].eumelanin_left[m], moments[i].pheomelanin_left[m],
                                   moments[i].warm[m], moments[i].dye_left[m]}) {
          EXPECT_GE(share, 0);
          EXPECT_LE(share, 1);
        }
      }
    }
  }
}

TEST(LiftProperty, more_minutes_are_never_darker) {
  Application hot = bowl_of(8, 50, 600);
  hot.temperature_c = 35;
  Application damp = bowl_of(2.4, 20, 60);
  damp.water_per_hair = 0.5;
  const std::vector<Application> bowls{bowl_of(4, 100.0 / 3, 60), bowl_of(3, 0, 60), hot, damp};
  constexpr std::size_t kAll = 512;
  for (int level = 1; level <= 10; ++level) {
    for (const double um : {45.0, 73.0, 110.0}) {
      const LiftMembers hair = hair_of_level(kAll, level, um, 3);
      for (const Application& bowl : bowls) {
        const auto moments = run(hair, {bowl}, bowl.minutes / 12);
        auto before = lstars_of(hair, moments[0]);
        for (std::size_t i = 1; i < moments.size(); ++i) {
          const auto now = lstars_of(hair, moments[i]);
          for (std::size_t m = 0; m < kAll; ++m) {
            EXPECT_GE(now[m], before[m] - 1e-9)
                << "level " << level << ", " << um << " um, member " << m << ", minute "
                << moments[i].minute << ", " << bowl.peroxide_percent << " %";
          }
          before = now;
        }
      }
    }
  }
}

TEST(LiftProperty, more_minutes_are_never_darker_for_lifted_and_white_hair) {
  for (std::uint64_t number = 0; number < kCases; ++number) {
    Case c = random_case(number, kMembers);
    c.hair.white_share = 0.4 * Draws(2).uniform(1, number);
    for (std::size_t m = 0; m < kMembers; ++m) c.hair.base_share[m] = Draws(2).uniform(2, number);
    const auto moments = run(c.hair, {c.bowl, c.bowl}, 5);
    auto before = lstars_of(c.hair, moments[0]);
    for (std::size_t i = 1; i < moments.size(); ++i) {
      const auto now = lstars_of(c.hair, moments[i]);
      for (std::size_t m = 0; m < kMembers; ++m) EXPECT_GE(now[m], before[m] - 1e-9);
      before = now;
    }
  }
}

TEST(TressProperty, reflectance_stays_between_nothing_and_everything) {
  const Draws random(77);
  for (std::uint64_t i = 0; i < 400; ++i) {
    std::uint64_t stream = 0;
    const auto between = [&](double low, double high) {
      return low + (high - low) * random.uniform(++stream, i);
    };
    hair::Strand strand;
    strand.eumelanin_percent = between(0, hair::kMelaninMax);
    strand.pheomelanin_percent = between(0, 1);
    strand.warm_percent = between(0, 1);
    strand.strand_um = Micrometres{between(20, 180)};
    strand.surface_term = between(hair::kSurfaceTermLow, hair::kSurfaceTermHigh);
    strand.base = {between(0, 10), between(0, 20), between(40, 90)};
    const auto r =
        hair::tress_reflectance(hair::absorption(strand), strand.strand_um, strand.surface_term);
    for (const double value : r) {
      EXPECT_GE(value, strand.surface_term);
      EXPECT_LE(value, 1);
    }
  }
}

TEST(DrawConstants, members_meet_the_stated_spread) {
  constexpr std::size_t kMany = 8192;
  const auto drawn = draw_constants(Draws(11), kMany);
  const struct {
    const char* name;
    double LiftConstants::*field;
  } slots[] = {{"q10", &LiftConstants::q10},
               {"powderless_rate", &LiftConstants::powderless_rate},
               {"unbuffered_rate", &LiftConstants::unbuffered_rate},
               {"cover_gain", &LiftConstants::cover_gain},
               {"diffusion_kj_per_mol", &LiftConstants::diffusion_kj_per_mol},
               {"heat_loss_min", &LiftConstants::heat_loss_min},
               {"decay_per_min", &LiftConstants::decay_per_min},
               {"base_scale", &LiftConstants::base_scale},
               {"dye_rate_ratio", &LiftConstants::dye_rate_ratio}};
  ASSERT_EQ(constant_notes().size(), std::size(slots));
  for (const auto& slot : slots) {
    const auto note = std::find_if(constant_notes().begin(), constant_notes().end(),
                                   [&](const ConstantNote& n) { return n.name == slot.name; });
    ASSERT_NE(note, constant_notes().end()) << slot.name;
    std::vector<double> values;
    for (const auto& k : drawn) values.push_back(k.*slot.field);
    const Band band = band_of(values);
    const double width = note->high - note->low;
    // Uniform ranges are met at their ends, lognormal ones at their 10 % and 90 % quantiles.
    const bool uniform = *std::max_element(values.begin(), values.end()) <= note->high &&
                         *std::min_element(values.begin(), values.end()) >= note->low;
    const double inset = uniform ? 0.1 * width : 0;
    EXPECT_NEAR(band.low, note->low + inset, 0.04 * width) << slot.name;
    EXPECT_NEAR(band.high, note->high - inset, 0.04 * width) << slot.name;
    EXPECT_NEAR(band.mid, uniform ? (note->low + note->high) / 2 : note->central, 0.04 * width)
        << slot.name;
    EXPECT_EQ(central_constants().*slot.field, note->central) << slot.name;
  }
  for (const auto& k : drawn) {
    EXPECT_LE(k.unbuffered_rate, 1);
    EXPECT_LE(k.powderless_rate, 1);
    EXPECT_LE(k.dye_rate_ratio, 1);
    EXPECT_GT(k.base_scale, 0);
  }
}

TEST(DrawConstants, what_is_drawn_alone_does_not_move_together) {
  constexpr std::size_t kMany = 4096;
  const auto drawn = draw_constants(Draws(21), kMany);
  const std::vector<double LiftConstants::*> fields{
      &LiftConstants::q10,           &LiftConstants::powderless_rate,
      &LiftConstants::cover_gain,    &LiftConstants::diffusion_kj_per_mol,
      &LiftConstants::heat_loss_min, &LiftConstants::decay_per_min,
      &LiftConstants::base_scale,    &LiftConstants::dark_rate_per_min};
  const auto centred = [&](double LiftConstants::*field) {
    std::vector<double> values;
    for (const auto& k : drawn) values.push_back(std::log(k.*field));
    const double middle = mean(values);
    for (double& value : values) value -= middle;
    return values;
  };
  const auto product = [](const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t m = 0; m < a.size(); ++m) sum += a[m] * b[m];
    return sum;
  };
  for (std::size_t i = 0; i < fields.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const auto a = centred(fields[i]);
      const auto b = centred(fields[j]);
      // Five standard errors of the correlation of independent draws.
      EXPECT_LT(std::abs(product(a, b) / std::sqrt(product(a, a) * product(b, b))), 5.0 / 64)
          << i << " with " << j;
    }
  }
}

TEST(DrawConstants, every_row_of_the_fit_is_drawn_and_no_other) {
  const auto& rows = strip_test_draws();
  const auto drawn = draw_constants(Draws(12), rows.size());
  std::vector<double> from_fit, seen;
  for (const auto& row : rows) from_fit.push_back(row.dark_rate_per_min);
  for (const auto& k : drawn) seen.push_back(k.dark_rate_per_min);
  std::sort(from_fit.begin(), from_fit.end());
  std::sort(seen.begin(), seen.end());
  EXPECT_EQ(seen, from_fit);
}

TEST(DrawConstants, the_same_seed_gives_the_same_members) {
  const auto one = draw_constants(Draws(5), 100);
  const auto again = draw_constants(Draws(5), 100);
  const auto other = draw_constants(Draws(6), 100);
  std::size_t equal = 0;
  for (std::size_t m = 0; m < 100; ++m) {
    EXPECT_EQ(one[m].q10, again[m].q10);
    EXPECT_EQ(one[m].dark_rate_per_min, again[m].dark_rate_per_min);
    equal += one[m].q10 == other[m].q10 ? 1 : 0;
  }
  EXPECT_LT(equal, 3U);
}

}  // namespace
}  // namespace hw::process
