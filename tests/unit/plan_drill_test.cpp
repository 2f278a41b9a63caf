// The drill for the eye: what it shows, and what answers make of a reader.
#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include "huewright/base/random.h"
#include "huewright/plan/drill.h"
#include "huewright/plan/learn_next.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

using testing::HasSubstr;

std::vector<DrillAnswer> answers(std::initializer_list<double> off, double shown = 5) {
  std::vector<DrillAnswer> all;
  for (const double one : off) all.push_back({"A", shown, shown + one});
  return all;
}

TEST(PlanDrill, shows_the_same_strand_for_a_seed_and_every_depth_and_warmth_for_many) {
  const hair::Ladder& ladder = hair::default_ladder();
  const DrillStrand one = drill_strand(7, ladder), again = drill_strand(7, ladder);
  EXPECT_EQ(one.level, again.level);
  EXPECT_EQ(one.lab.l, again.lab.l);
  std::set<DrillWarmth> warmths;
  std::set<int> levels;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    const DrillStrand strand = drill_strand(seed, ladder);
    warmths.insert(strand.warmth);
    levels.insert(static_cast<int>(strand.level));
    EXPECT_GE(strand.level, drill_constants().level_low);
    EXPECT_LE(strand.level, drill_constants().level_high);
    // What is shown has the level that is said: a tenth of a level is half an L*.
    EXPECT_NEAR(ladder.level_of(strand.lab.l), strand.level, 0.02) << seed;
  }
  EXPECT_EQ(warmths.size(), 2U);
  EXPECT_EQ(levels.size(), 8U);
}

TEST(PlanDrill, a_warmer_strand_of_one_depth_has_more_yellow_in_it) {
  std::map<DrillWarmth, double> yellow, count;
  for (std::uint64_t seed = 0; seed < 600; ++seed) {
    const DrillStrand strand = drill_strand(seed, hair::default_ladder());
    if (strand.level < 5 || strand.level > 7) continue;
    yellow[strand.warmth] += strand.lab.b;
    count[strand.warmth] += 1;
  }
  const auto mean = [&](DrillWarmth warmth) { return yellow[warmth] / count[warmth]; };
  // An eye tells 2 units of b* apart beside each other (a CIE76 difference of about 2.3 is just
  // noticed; from memory).
  EXPECT_GT(mean(DrillWarmth::warm), mean(DrillWarmth::natural) + 2);
}

TEST(PlanDrill, quantiles_are_those_of_the_tables) {
  const test::Source t{"abramowitz_stegun", "table 26.10, Student's t; from memory"};
  EXPECT_PUBLISHED("t 90 %, 5 degrees", t, 1.476, student_quantile(0.9, 5), 0.0035);
  EXPECT_PUBLISHED("t 90 %, 10 degrees", t, 1.372, student_quantile(0.9, 10), 0.001);
  EXPECT_PUBLISHED("t 90 %, 30 degrees", t, 1.310, student_quantile(0.9, 30), 0.001);
  EXPECT_PUBLISHED("t 10 %, 10 degrees", t, -1.372, student_quantile(0.1, 10), 0.001);
  const test::Source chi{"abramowitz_stegun", "table 26.8, chi-square; from memory"};
  EXPECT_PUBLISHED("chi-square 10 %, 5 degrees", chi, 1.610, chi_square_quantile(0.1, 5), 0.016);
  EXPECT_PUBLISHED("chi-square 90 %, 5 degrees", chi, 9.236, chi_square_quantile(0.9, 5), 0.05);
  EXPECT_PUBLISHED("chi-square 10 %, 20 degrees", chi, 12.443, chi_square_quantile(0.1, 20), 0.03);
  EXPECT_PUBLISHED("chi-square 90 %, 20 degrees", chi, 28.412, chi_square_quantile(0.9, 20), 0.03);
}

// The conjugate posterior in closed form: bib bda_2013 §3.3, retyped with its own symbols.
TEST(PlanDrill, offset_and_spread_are_the_textbooks_conjugate_posterior) {
  const auto all = answers({0.4, -0.1, 0.9, 0.5, 0.0, 0.7});
  const DrillConstants& k = drill_constants();
  const double n = 6, y = 0.4;
  double s2 = 0;  // sample variance, n − 1
  for (const DrillAnswer& one : all) s2 += std::pow(one.answered_level - 5 - y, 2) / (n - 1);
  const double kappa_n = k.offset_weight + n, nu_n = k.spread_weight + n;
  const double mu_n = n / kappa_n * y;
  const double sigma2_n = (k.spread_weight * k.spread_sd * k.spread_sd + (n - 1) * s2 +
                           k.offset_weight * n / kappa_n * y * y) /
                          nu_n;
  const ReaderEye eye = eye_of(all);
  EXPECT_EQ(eye.count, 6U);
  EXPECT_NEAR(eye.mean_off, y, 1e-12);
  EXPECT_NEAR(eye.offset.mid, mu_n, 1e-12);
  // t of 10 degrees at 90 %: 1.372; χ² of 10 degrees at 10, 50, 90 %: 4.865, 9.342, 15.987.
  EXPECT_NEAR(eye.offset.high, mu_n + 1.372 * std::sqrt(sigma2_n / kappa_n), 0.001);
  EXPECT_NEAR(eye.spread.low, std::sqrt(nu_n * sigma2_n / 15.987), 0.003);
  EXPECT_NEAR(eye.spread.mid, std::sqrt(nu_n * sigma2_n / 9.342), 0.003);
  EXPECT_NEAR(eye.spread.high, std::sqrt(nu_n * sigma2_n / 4.865), 0.003);
}

// The same without the closed form: prior times likelihood on a fine grid of offset and spread.
TEST(PlanDrill, bands_hold_what_prior_times_likelihood_on_a_grid_puts_in_them) {
  const auto all = answers({0.6, 0.1, 0.8, -0.4, 0.3, 0.2, 0.9, 0.5, 0.4});
  const DrillConstants& k = drill_constants();
  const ReaderEye eye = eye_of(all);
  double sum = 0, below_offset = 0, below_spread = 0;
  for (double s = 0.05; s < 2.5; s += 0.004) {
    for (double m = -1.5; m < 2; m += 0.005) {
      // Density of the spread itself under ν₀·s₀²/χ²: s^−(ν₀+1)·exp(−ν₀·s₀²/2s²).
      double log_p = -(k.spread_weight + 1) * std::log(s) -
                     k.spread_weight * k.spread_sd * k.spread_sd / (2 * s * s);
      log_p += -std::log(s) - k.offset_weight * m * m / (2 * s * s);
      for (const DrillAnswer& one : all) {
        const double off = one.answered_level - one.shown_level - m;
        log_p += -std::log(s) - off * off / (2 * s * s);
      }
      const double p = std::exp(log_p);
      sum += p;
      if (m < eye.offset.low) below_offset += p;
      if (s < eye.spread.low) below_spread += p;
    }
  }
  EXPECT_NEAR(below_offset / sum, 0.1, 0.004);
  EXPECT_NEAR(below_spread / sum, 0.1, 0.007);
}

TEST(PlanDrill, says_that_depths_differ_only_where_they_do) {
  std::vector<DrillAnswer> all;
  for (int i = 0; i < 8; ++i) {
    const double scatter = i % 2 == 0 ? 0.2 : -0.2;
    all.push_back({"A", 2.5, 2.5 + scatter});
    all.push_back({"A", 5.5, 5.5 + scatter});
    all.push_back({"A", 8, 8 + scatter});
  }
  EXPECT_FALSE(eye_of(all).depth_matters);
  for (DrillAnswer& one : all) {
    if (one.shown_level < 4) one.answered_level += 0.8;
  }
  const ReaderEye eye = eye_of(all);
  EXPECT_TRUE(eye.depth_matters);
  ASSERT_EQ(eye.by_depth.size(), 3U);
  EXPECT_EQ(eye.by_depth[0].depth, "dark");
  EXPECT_NEAR(eye.by_depth[0].off.mid, 0.8, 1e-9);
  EXPECT_NEAR(eye.by_depth[2].off.mid, 0, 1e-9);
  // One depth alone cannot differ from itself.
  EXPECT_FALSE(eye_of(answers({0.5, 0.7, 0.6})).depth_matters);
}

TEST(PlanDrill, tells_readers_apart) {
  auto all = answers({0.5, 0.5});
  all.push_back({"B", 5, 4});
  const auto eyes = eyes_of(all);
  ASSERT_EQ(eyes.size(), 2U);
  EXPECT_EQ(eyes[0].reader, "A");
  EXPECT_EQ(eyes[0].count, 2U);
  EXPECT_EQ(eyes[1].reader, "B");
  EXPECT_LT(eyes[1].offset.mid, 0);
}

Factor bias_of(const Facts& facts, const std::string& reader) {
  const auto learned = learn(facts);
  EXPECT_TRUE(learned.has_value()) << one_line(learned.error());
  const Factor* found = learned->find(FactorKind::reader_bias, reader);
  EXPECT_NE(found, nullptr);
  return found == nullptr ? Factor{} : *found;
}

TEST(PlanDrill, enters_learning_as_a_prior_of_its_reader) {
  // By hand: the prior of all, 0.25, updated by 0.4 that is in doubt by the screen and by n
  // answers.
  const ReaderEye eye = eye_of(answers({0.4, 0.4, 0.2, 0.6, 0.4, 0.4, 0.5, 0.3}));
  Facts facts;
  facts.practice = {practice_of(eye)};
  const double sd = std::hypot(0.6, eye.spread.mid / std::sqrt(8.0));
  const NormalBelief by_hand = updated({0, 0.25}, 0.4, sd);
  const Factor alone = bias_of(facts, "A");
  EXPECT_NEAR(alone.learned.mean, by_hand.mean, 1e-12);
  EXPECT_NEAR(alone.learned.sd, by_hand.sd, 1e-12);
  EXPECT_EQ(alone.facts, 0U);
  EXPECT_EQ(alone.practice, 8U);
  EXPECT_NEAR(alone.practice_share, 1, 1e-9);
  EXPECT_THAT(alone.sentence, HasSubstr("from 8 answers in drills on a screen"));
  EXPECT_TRUE(learn_next(*learn(facts)).empty());  // no reading of hair to judge by
  // Then a pair: eye 0.5, instrument 0.25, day 0.166.
  facts.pairs = {{"p", "A", 5.2, 5}};
  const NormalBelief both = updated(by_hand, 0.2, std::sqrt(0.25 + 0.0625 + 0.166 * 0.166));
  const Factor then = bias_of(facts, "A");
  EXPECT_NEAR(then.learned.mean, both.mean, 1e-12);
  EXPECT_NEAR(then.learned.sd, both.sd, 1e-12);
  EXPECT_THAT(then.sentence, HasSubstr("from 1 reading; "));
  EXPECT_THAT(then.sentence, HasSubstr("% of what is known comes from drills on a screen"));
}

TEST(PlanDrill, one_reading_of_hair_outweighs_any_number_of_answers) {
  std::vector<DrillAnswer> all;
  for (int i = 0; i < 100000; ++i) all.push_back({"A", 5, 6});
  Facts facts;
  facts.practice = {practice_of(eye_of(all))};
  facts.pairs = {{"p", "A", 4, 5}};  // as far off the other way
  const Factor bias = bias_of(facts, "A");
  EXPECT_LT(bias.learned.mean, 0);
  EXPECT_LT(bias.practice_share, 0.5);
  EXPECT_GT(bias.practice_share, 0);
}

TEST(PlanDrill, changes_no_bit_for_who_did_none) {
  Facts facts;
  facts.pairs = {{"p", "A", 5.2, 5}, {"q", "B", 4.9, 5}, {"r", "B", 6.1, 6}};
  facts.amounts = {{"a", "here", 60, 80, 1}};
  const Learned before = *learn(facts);
  facts.practice = {practice_of(eye_of(std::vector<DrillAnswer>{{"C", 5, 5.5}, {"C", 6, 6.5}}))};
  const Learned after = *learn(facts);
  ASSERT_EQ(after.factors.size(), before.factors.size() + 1);
  for (std::size_t f = 0; f < before.factors.size(); ++f) {
    EXPECT_EQ(before.factors[f].learned.mean, after.factors[f].learned.mean);
    EXPECT_EQ(before.factors[f].learned.sd, after.factors[f].learned.sd);
    EXPECT_EQ(before.factors[f].sentence, after.factors[f].sentence);
  }
  // And by hand, as without any drills: eye 0.5, instrument 0.25, day 0.166.
  EXPECT_NEAR(after.factors[0].learned.mean,
              updated({0, 0.25}, 0.2, std::sqrt(0.25 + 0.0625 + 0.166 * 0.166)).mean, 1e-15);
}

TEST(PlanDrill, practice_that_says_nothing_is_named) {
  const auto where = [](const PracticeFact& fact, int times = 1) {
    Facts facts;
    for (int i = 0; i < times; ++i) facts.practice.push_back(fact);
    const auto learned = learn(facts);
    return learned ? std::string("learned") : learned.error().where;
  };
  EXPECT_EQ(where({"A", 0.2, 0.6, 5}), "learned");
  EXPECT_EQ(where({"A", 0.2, 0, 5}), "practice[\"A\"]");
  EXPECT_EQ(where({"A", std::nan(""), 0.6, 5}), "practice[\"A\"]");
  EXPECT_EQ(where({"A", 0.2, 0.6, 0}), "practice[\"A\"]");
  EXPECT_EQ(where({"A", 0.2, 0.6, 5}, 2), "practice[\"A\"]");
}

TEST(PlanDrill, warmths_have_names) {
  for (const DrillWarmth warmth : {DrillWarmth::natural, DrillWarmth::warm}) {
    EXPECT_EQ(*drill_warmth_named(name_of(warmth)), warmth);
  }
  EXPECT_THAT(one_line(drill_warmth_named("hot").error()), HasSubstr("natural or warm"));
}

}  // namespace
}  // namespace hw::plan
