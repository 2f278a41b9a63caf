// What can never rise, fall or change when colour goes into hair, over many drawn strands.
#include <cmath>

#include "huewright/process/dye.h"
#include "support/colour_strands.h"
#include "support/reference.h"

namespace hw::process {
namespace {

using test::certain_shade;
using test::colour_of;
using test::coloured;
using test::label_bowl;

constexpr std::uint64_t kTrials = 500;
constexpr std::array kClasses = {DyeClass::direct, DyeClass::cationic, DyeClass::demi,
                                 DyeClass::permanent};

/// A strand, a bowl without peroxide and a shade, drawn anew for each trial.
struct Trial {
  LiftMembers hair;
  DepositBowl bowl;
  Shade shade;
  double share;
};

Trial trial_of(std::uint64_t index) {
  const Draws draws(2024);
  std::uint64_t stream = 0;
  const auto u = [&] { return draws.uniform(++stream, index); };
  Trial trial;
  trial.hair = test::natural_strand(1 + 9 * u());
  trial.hair.warm_percent = {0.5 * u() * u()};
  trial.hair.base_share = {u()};
  trial.hair.strand_um = {50 + 60 * u()};
  trial.hair.dye_opened = {0.5 + 11 * u() * u()};
  trial.hair.wear = {0.3 * u()};
  trial.hair.white_share = u() < 0.3 ? u() : 0;
  trial.bowl = label_bowl(kClasses[draws.below(4, 500, index)]);
  trial.bowl.minutes = 3 + 40 * u();
  trial.bowl.temperature_c = 18 + 20 * u();
  trial.bowl.clean_canvas = u() < 0.5;
  trial.bowl.water_per_hair = 0.4 * u();
  const auto& tones = shade_tones();
  trial.shade = certain_shade(trial.bowl.dye_class, 2 + 8 * u(),
                              tones[draws.below(tones.size(), 501, index)]);
  trial.share = 0.1 + 0.9 * u();
  return trial;
}

colour::HairLab after(const Trial& trial) {
  return colour_of(coloured(trial.hair, trial.bowl, trial.shade, trial.share));
}

TEST(DepositProperty, more_of_anything_that_carries_dye_in_never_ends_lighter) {
  for (std::uint64_t index = 0; index < kTrials; ++index) {
    const Trial trial = trial_of(index);
    SCOPED_TRACE(index);
    const double plain = after(trial).l;
    EXPECT_LE(plain, colour_of(trial.hair).l + 1e-9);
    const auto never_lighter = [&](auto change) {
      Trial more = trial;
      change(more);
      EXPECT_LE(after(more).l, plain + 1e-9);
      EXPECT_GE(uptake(more.hair, more.bowl)[0], uptake(trial.hair, trial.bowl)[0] - 1e-12);
    };
    never_lighter([](Trial& t) { t.bowl.minutes *= 1.3; });
    never_lighter([](Trial& t) { t.bowl.temperature_c += 5; });
    never_lighter([](Trial& t) { t.hair.dye_opened[0] *= 1.3; });
    never_lighter([](Trial& t) { t.hair.wear[0] += 0.05; });
    never_lighter([](Trial& t) { t.bowl.clean_canvas = true; });
    never_lighter([](Trial& t) { t.bowl.water_per_hair *= 0.5; });
    never_lighter([](Trial& t) { t.bowl.mix_per_hair *= 1.5; });
    never_lighter([](Trial& t) { t.share = std::min(1.0, t.share * 1.2); });
  }
}

TEST(DepositProperty, developer_beyond_the_label_thins_the_colour) {
  for (std::uint64_t index = 0; index < kTrials; ++index) {
    Trial trial = trial_of(index);
    if (trial.bowl.label_parts == 0) continue;
    const double label = uptake(trial.hair, trial.bowl)[0];
    trial.bowl.developer_parts = trial.bowl.label_parts + 1;
    EXPECT_NEAR(uptake(trial.hair, trial.bowl)[0],
                label * (1 + trial.bowl.label_parts) / (2 + trial.bowl.label_parts), 1e-9);
  }
}

TEST(DepositProperty, dyes_add_in_absorption_by_their_shares) {
  const Draws draws(9);
  for (std::uint64_t index = 0; index < kTrials; ++index) {
    Trial trial = trial_of(index);
    trial.shade.strength_sd_ln = 0.3;
    const Trial other = trial_of(index + kTrials);
    const double first = 0.1 + 0.4 * trial.share;
    const double second = 0.5 * other.share;
    const std::vector<Poured> pours = {{trial.shade, first}, {other.shade, second}};
    const double taken = uptake(trial.hair, trial.bowl)[0];
    const auto layers = dye_layers(pours, {&taken, 1}, draws);
    const auto strengths = colourant_strengths(trial.shade, draws, 1);
    const auto other_strengths = colourant_strengths(other.shade, draws, 1);
    for (std::size_t i = 0; i < colour::kBands; i += 8) {
      double sum = 0;
      for (const auto& layer : layers) sum += layer.amount[0] * layer.absorption[i];
      double wanted = 0;
      for (std::size_t j = 0; j < strengths.size(); ++j) {
        wanted += taken * first * strengths[j][0] * trial.shade.colourants[j].full[i];
      }
      for (std::size_t j = 0; j < other_strengths.size(); ++j) {
        wanted += taken * second * other_strengths[j][0] * other.shade.colourants[j].full[i];
      }
      EXPECT_NEAR(sum, wanted, 1e-9 * (1 + wanted)) << index;
    }
    EXPECT_LE(layers.size(), kMostColourants);  // shades by words share their colourants
  }
}

TEST(DepositProperty, clear_leaves_the_colour_of_the_hair) {
  for (std::uint64_t index = 0; index < 50; ++index) {
    const Trial trial = trial_of(index);
    const auto clear = clear_shade("clear", trial.bowl.dye_class);
    EXPECT_EQ(colour_of(coloured(trial.hair, trial.bowl, clear)).l, colour_of(trial.hair).l);
  }
}

TEST(DepositProperty, same_bits_at_any_number_of_threads) {
  constexpr std::size_t kMembers = 300;
  LiftMembers hair = test::natural_strand(4, kMembers);
  hair.constants = draw_constants(Draws(3), kMembers);
  const DepositBowl bowl = label_bowl(DyeClass::permanent, 6);
  const Poured pour{*shade_from_words("x", DyeClass::permanent, 6, "copper"), 0.7};
  const auto labs_with = [&](Executor& executor) {
    const LiftMembers coloured = deposit(hair, bowl, {&pour, 1}, Draws(5), executor);
    std::vector<colour::HairLab> labs(kMembers);
    lift_colours(coloured, starting_moment(coloured), labs);
    return labs;
  };
  InlineExecutor one;
  const auto alone = labs_with(one);
  for (const unsigned threads : {2u, 5u}) {
    const auto pool = make_thread_pool(threads);
    const auto shared = labs_with(*pool);
    for (std::size_t m = 0; m < kMembers; ++m) {
      EXPECT_EQ(alone[m].l, shared[m].l);
      EXPECT_EQ(alone[m].a, shared[m].a);
      EXPECT_EQ(alone[m].b, shared[m].b);
    }
  }
}

TEST(DepositProperty, zones_of_a_head_share_what_is_not_known) {
  constexpr std::size_t kMembers = 64;
  LiftMembers roots = test::natural_strand(3, kMembers);
  LiftMembers ends = test::natural_strand(7, kMembers);
  const DepositBowl bowl = label_bowl(DyeClass::direct);
  const auto at_roots = uptake(roots, bowl, Draws(3));
  const auto at_ends = uptake(ends, bowl, Draws(3));
  for (std::size_t m = 0; m < kMembers; ++m) EXPECT_EQ(at_roots[m], at_ends[m]);
  EXPECT_NE(at_roots[0], at_roots[1]);
  const auto shade = *shade_from_words("x", DyeClass::direct, 6, "red");
  EXPECT_EQ(colourant_strengths(shade, Draws(3), kMembers),
            colourant_strengths(shade, Draws(3), kMembers));
}

TEST(DepositProperty, a_series_ends_where_the_bowl_does) {
  InlineExecutor executor;
  const LiftMembers hair = test::natural_strand(4, 32);
  const DepositBowl bowl = label_bowl(DyeClass::permanent, 6);
  const Poured pour{*shade_from_words("x", DyeClass::permanent, 6, "red"), 1};
  const auto series = deposit_series(hair, bowl, {&pour, 1}, Draws(5), 5, executor);
  ASSERT_EQ(series.size(), 8u);
  EXPECT_EQ(series.front().minute, 0);
  EXPECT_EQ(colour_of(series.front().hair).l, colour_of(hair).l);
  EXPECT_EQ(series.back().minute, bowl.minutes);
  const auto whole = deposit(hair, bowl, {&pour, 1}, Draws(5), executor);
  EXPECT_NEAR(colour_of(series.back().hair).l, colour_of(whole).l, 0.05);
  EXPECT_NEAR(colour_of(series.back().hair).a, colour_of(whole).a, 0.05);
  for (std::size_t i = 1; i < series.size(); ++i) {
    EXPECT_GT(series[i].taken[0], series[i - 1].taken[0]);
  }
}

TEST(DepositProperty, bowl_upon_bowl_stays_within_what_a_strand_is_coloured_with) {
  InlineExecutor executor;
  LiftMembers hair = test::lifted_strand(8);
  std::vector<Poured> pours;
  for (const char* name : {"HC Red No. 3", "HC Yellow No. 2", "HC Blue No. 2"}) {
    Colourant colourant{*dye_shape(*dye_named(name)), 0.1};
    for (double& mu : colourant.full) mu *= 5;
    pours.push_back(
        {*shade_from_spectra(name, DyeClass::direct, DyeFamily::red, {&colourant, 1}, 0.1), 0.3});
  }
  double before = test::level_of(hair);
  for (int bowls = 0; bowls < 6; ++bowls) {
    // Joined layers keep the colour: compare with the sum of all absorptions.
    const LiftMembers next = deposit(hair, label_bowl(DyeClass::direct), pours, Draws(1), executor);
    EXPECT_LE(next.dyes.size(), hair::kMostDyes);
    const double level = test::level_of(next);
    EXPECT_LT(level, before);
    EXPECT_GT(level, before - 1.5);
    before = level;
    hair = next;
  }
}

TEST(DepositProperty, joined_layers_hold_the_mean_absorption_of_their_members) {
  const std::vector<double> taken = {1, 1.2, 0.7};
  std::vector<Poured> pours;
  for (const Dye& dye : dyes()) {
    if (dye.dye_class != DyeClass::direct || dye.peaks_nm.empty()) continue;
    Colourant colourant{*dye_shape(dye), 0};
    pours.push_back(
        {*shade_from_spectra(dye.name, DyeClass::direct, dye.family, {&colourant, 1}, 0), 0.1});
  }
  const auto many = dye_layers(pours, taken, Draws(1), 20);
  const auto few = dye_layers(pours, taken, Draws(1), 2);
  ASSERT_GT(many.size(), 6u);
  ASSERT_EQ(few.size(), 2u);
  for (std::size_t m = 0; m < taken.size(); ++m) {
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      const auto sum = [&](const auto& layers) {
        double mu = 0;
        for (const auto& layer : layers) mu += layer.amount[m] * layer.absorption[i];
        return mu;
      };
      EXPECT_NEAR(sum(few), sum(many), 1e-9);  // without doubt about the shades exact
    }
  }
}

TEST(DepositProperty, white_strands_take_the_same_dye_as_the_others) {
  LiftMembers mixed = test::natural_strand(4);
  mixed.white_share = 0.4;
  const DepositBowl bowl = label_bowl(DyeClass::demi, 1.5);
  const Shade shade = certain_shade(DyeClass::demi, 5, "neutral");
  const double apart = colour_of(test::natural_strand(0)).l - colour_of(test::natural_strand(4)).l;
  const double blended = colour_of(coloured(test::natural_strand(0), bowl, shade)).l -
                         colour_of(coloured(test::natural_strand(4), bowl, shade)).l;
  EXPECT_LT(blended, 0.4 * apart);
  EXPECT_LT(colour_of(coloured(mixed, bowl, shade)).l, colour_of(mixed).l);
}

TEST(ShadeProperty, spectra_that_are_no_colourants_are_errors) {
  Colourant good{effective_colourants()[0], 0.1};
  Colourant negative = good;
  negative.full[3] = -1;
  Colourant empty;
  const std::vector<Colourant> four(4, good);
  const auto made = [](std::span<const Colourant> colourants) {
    return shade_from_spectra("x", DyeClass::demi, DyeFamily::brown, colourants, 0.1);
  };
  EXPECT_TRUE(made({&good, 1}));
  EXPECT_FALSE(made({&negative, 1}));
  EXPECT_FALSE(made({&empty, 1}));
  EXPECT_FALSE(made(four));
  EXPECT_FALSE(made({}));
  EXPECT_EQ(made({&negative, 1}).error().where, "colourants[0]");
}

TEST(ShadeProperty, words_give_a_shade_its_family_back) {
  for (const std::string& tone : shade_tones()) {
    const Shade shade = certain_shade(DyeClass::permanent, 6, tone);
    if (tone == "ash" || tone == "matt" || tone == "pearl") continue;  // cool browns: no one family
    EXPECT_EQ(family_of_colour(shade.full), shade.family) << tone;
  }
}

}  // namespace
}  // namespace hw::process
