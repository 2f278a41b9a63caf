// What past visits teach: each promise of plan/learn.h.
#include <gmock/gmock.h>

#include <numeric>

#include "huewright/base/elementary.h"
#include "huewright/plan/learn.h"
#include "huewright/plan/learn_next.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::plan {
namespace {

using test::plain_head;
using testing::HasSubstr;

constexpr double kSame = 1e-12;

/// One visit with independent readings of sd 0.5, each `off` levels lighter than expected.
VisitFact visit(const std::string& id, const std::string& client, const std::string& salon,
                double off, std::size_t readings = 3) {
  VisitFact fact;
  fact.id = id;
  fact.client = client;
  fact.salon = salon;
  fact.reader = "A";
  const HeadPriors first;
  fact.ln_rate = {first.ln_rate_mean, first.ln_rate_sd};
  fact.bias = {first.reader_bias_mean, first.reader_bias_sd};
  fact.wet_look = {first.wet_look_mean_sd, first.wet_look_sd};
  fact.scatter.assign(readings * readings, 0);
  for (std::size_t k = 0; k < readings; ++k) {
    FactReading reading;
    reading.expected_level = 4 + static_cast<double>(k);
    reading.found_level = reading.expected_level + off;
    reading.per_ln_rate = 1.5;
    reading.per_bias = 0.6;
    reading.per_wet_look = 0.1;
    reading.reader = "A";
    fact.readings.push_back(reading);
    fact.scatter[k * readings + k] = 0.25;
  }
  return fact;
}

Learned learned_from(const Facts& facts) {
  auto learned = learn(facts);
  EXPECT_TRUE(learned.has_value()) << one_line(learned.error());
  return *std::move(learned);
}

NormalBelief factor(const Learned& learned, FactorKind kind, const std::string& name) {
  const Factor* found = learned.find(kind, name);
  EXPECT_NE(found, nullptr) << name;
  return found == nullptr ? NormalBelief{} : found->learned;
}

void expect_same(const Learned& one, const Learned& two) {
  ASSERT_EQ(one.factors.size(), two.factors.size());
  for (const Factor& a : one.factors) {
    const NormalBelief b = factor(two, a.kind, a.name);
    EXPECT_NEAR(a.learned.mean, b.mean, kSame) << a.name;
    EXPECT_NEAR(a.learned.sd, b.sd, kSame) << a.name;
  }
}

TEST(LearnNext, foretells_what_one_more_reading_does) {
  Facts facts;
  for (int i = 0; i < 5; ++i) facts.pairs.push_back({"p" + std::to_string(i), "A", 5.3, 5});
  facts.pairs.push_back({"q", "B", 5.1, 5});
  const Learned now = learned_from(facts);
  const auto next = learn_next(now);
  ASSERT_EQ(next.size(), 2U);
  EXPECT_EQ(next[0].name, "B");  // of whom less is known
  for (const LearnNext& one : next) {
    Facts more = facts;
    more.pairs.push_back({"new", one.name, 6, 5});
    const double before = factor(now, FactorKind::reader_bias, one.name).sd;
    const double after = factor(learned_from(more), FactorKind::reader_bias, one.name).sd;
    EXPECT_NEAR(one.share_off, 1 - after / before, 1e-12);
    EXPECT_NEAR(one.doubt_levels, before, 1e-12);  // a pair shows the bias as it is
  }
  EXPECT_THAT(next[0].sentence, HasSubstr("One strand read by B and by an instrument"));
}

TEST(LearnNext, says_nothing_of_one_client_or_of_nothing) {
  EXPECT_TRUE(learn_next({}).empty());
  Facts facts;
  facts.visits.push_back(visit("v", "c", "", 0.5));
  for (const LearnNext& one : learn_next(learned_from(facts))) {
    EXPECT_NE(one.kind, FactorKind::client_rate);
    EXPECT_GT(one.share_off, 0);
    EXPECT_LT(one.share_off, 1);
  }
}

TEST(PlanLearn, the_textbook_update_is_met_by_hand_and_through_learn) {
  const test::Source book{"bayes_rules_2022", "ch. 5, normal-normal model, worked case"};
  const NormalBelief after = updated({6.5, 0.4}, 5.735, 0.5, 25);
  EXPECT_PUBLISHED("mean after 25 readings", book, 5.78, after.mean, 0.005);
  EXPECT_PUBLISHED("sd after 25 readings", book, 0.09701425, after.sd, 5e-9);
  // The same case told as results of a shade: 6.5 + 0.4·(strength/its sd), read 25 times.
  const FactorPrior& prior = factor_prior(FactorKind::shade_strength);
  const double slope = 0.4 / prior.sd_between;
  Facts facts;
  for (int i = 0; i < 25; ++i) {
    ShadeFact fact{std::to_string(i), "warm brown", 6.5, 5.735, slope, 0, 1};
    fact.sd_lstar = std::sqrt(0.25 - std::pow(slope * prior.sd_visit, 2));
    facts.shades.push_back(fact);
  }
  const NormalBelief strength =
      factor(learned_from(facts), FactorKind::shade_strength, "warm brown");
  EXPECT_PUBLISHED("mean after 25 results of a shade", book, 5.78, 6.5 + slope * strength.mean,
                   0.005);
  EXPECT_PUBLISHED("sd after 25 results of a shade", book, 0.09701425, slope * strength.sd, 5e-9);
}

TEST(PlanLearn, a_reading_that_weighs_as_much_as_the_prior_goes_half_way) {
  const NormalBelief after = updated({0, 0.3}, 1, 0.3);
  EXPECT_DOUBLE_EQ(after.mean, 0.5);
  EXPECT_NEAR(after.sd, 0.3 / std::sqrt(2), kSame);
}

TEST(PlanLearn, spreads_add_up_to_those_of_a_first_visit) {
  const auto sd = [](FactorKind kind) {
    const FactorPrior& prior = factor_prior(kind);
    return std::hypot(prior.sd_between, prior.sd_visit);
  };
  const HeadPriors first;
  EXPECT_NEAR(std::hypot(sd(FactorKind::salon_rate), sd(FactorKind::client_rate)), first.ln_rate_sd,
              0.001);
  EXPECT_NEAR(sd(FactorKind::reader_bias), first.reader_bias_sd, 0.001);
  EXPECT_NEAR(sd(FactorKind::wet_look), first.wet_look_sd, 0.001);
  // So a client, salon and reader nobody knows are planned as before.
  const HeadPriors stranger = priors_for({}, "new", "new", "new");
  EXPECT_EQ(stranger.ln_rate_mean, 0);
  EXPECT_EQ(stranger.reader_bias_mean, 0);
  EXPECT_NEAR(stranger.ln_rate_sd, first.ln_rate_sd, 0.001);
  EXPECT_NEAR(stranger.reader_bias_sd, first.reader_bias_sd, 0.001);
  EXPECT_NEAR(stranger.wet_look_sd, first.wet_look_sd, 0.001);
}

TEST(PlanLearn, no_facts_teach_nothing) {
  const Learned learned = learned_from({});
  EXPECT_TRUE(learned.factors.empty());
  EXPECT_EQ(learned.version, kLearnVersion);
  EXPECT_EQ(amount_factor_for(learned, "here"), 1);
}

TEST(PlanLearn, a_lesson_is_shrunk_the_more_the_less_was_seen) {
  // Half a level lighter than expected each time is a rate of 0.33 ln, if it is all the rate's.
  double last_mean = 0;
  double last_sd = std::hypot(0.1, 0.19);
  Facts facts;
  for (int v = 0; v < 6; ++v) {
    facts.visits.push_back(visit(std::to_string(v), "she", "here", 0.5));
    const Learned learned = learned_from(facts);
    const HeadPriors next = priors_for(learned, "she", "here", "A");
    EXPECT_GT(next.ln_rate_mean, last_mean) << v;
    EXPECT_LT(next.ln_rate_mean, 0.5 / 1.5) << v;
    const double client = factor(learned, FactorKind::client_rate, "she").sd;
    EXPECT_LT(client, last_sd) << v;
    EXPECT_GE(next.ln_rate_sd, factor_prior(FactorKind::client_rate).sd_visit) << v;
    last_mean = next.ln_rate_mean;
    last_sd = client;
  }
}

TEST(PlanLearn, what_is_common_to_a_salons_clients_is_the_salons) {
  Facts many, one;
  for (int v = 0; v < 8; ++v) {
    many.visits.push_back(visit(std::to_string(v), "client " + std::to_string(v), "here", 0.4));
    one.visits.push_back(visit(std::to_string(v), "she", "here", 0.4));
  }
  const Learned by_many = learned_from(many), by_one = learned_from(one);
  const auto salon = [](const Learned& learned) {
    return factor(learned, FactorKind::salon_rate, "here").mean;
  };
  EXPECT_GT(salon(by_many), salon(by_one));
  // A stranger to this salon borrows its lesson, and one elsewhere does not.
  EXPECT_GT(priors_for(by_many, "stranger", "here", "A").ln_rate_mean, 0.05);
  EXPECT_EQ(priors_for(by_many, "stranger", "elsewhere", "A").ln_rate_mean, 0);
  // She who came eight times is known better than each who came once.
  EXPECT_GT(priors_for(by_one, "she", "here", "A").ln_rate_mean,
            priors_for(by_many, "client 3", "here", "A").ln_rate_mean);
  EXPECT_LT(priors_for(by_one, "she", "here", "A").ln_rate_sd,
            priors_for(by_many, "client 3", "here", "A").ln_rate_sd);
}

TEST(PlanLearn, many_looks_on_one_day_teach_less_than_as_many_days) {
  Facts one_day, days;
  one_day.visits = {visit("0", "she", "here", 0.4, 9)};
  for (int v = 0; v < 3; ++v) days.visits.push_back(visit(std::to_string(v), "she", "here", 0.4));
  EXPECT_GT(priors_for(learned_from(one_day), "she", "here", "A").ln_rate_sd,
            priors_for(learned_from(days), "she", "here", "A").ln_rate_sd);
}

TEST(PlanLearn, pairs_of_eye_and_instrument_tell_a_bias_that_is_then_no_rate) {
  // By hand: prior 0.25; each pair 0.5 of an eye, 0.25 of an instrument, 0.166 of the day.
  Facts facts;
  for (int i = 0; i < 12; ++i) facts.pairs.push_back({std::to_string(i), "A", 5.4, 5});
  const double each = std::sqrt(0.25 + 0.0625 + 0.166 * 0.166);
  const NormalBelief by_hand = updated({0, 0.25}, 0.4, each, 12);
  const NormalBelief bias = factor(learned_from(facts), FactorKind::reader_bias, "A");
  EXPECT_NEAR(bias.mean, by_hand.mean, kSame);
  EXPECT_NEAR(bias.sd, by_hand.sd, kSame);
  // Her readings are light; the head's rate is believed the less.
  Facts alone;
  alone.visits = {visit("1", "she", "here", 0.3)};
  facts.visits = alone.visits;
  EXPECT_LT(priors_for(learned_from(facts), "she", "here", "A").ln_rate_mean,
            priors_for(learned_from(alone), "she", "here", "A").ln_rate_mean);
  EXPECT_EQ(priors_for(learned_from(facts), "she", "here", "B").reader_bias_mean, 0);
}

TEST(PlanLearn, striking_a_fact_out_takes_its_lesson_back_exactly) {
  Facts facts;
  facts.visits = {visit("1", "she", "here", 0.5), visit("2", "he", "here", -0.2)};
  facts.shades = {{"s1", "warm brown", 30, 27, -9, 0, 1.5}};
  facts.pairs = {{"p1", "A", 6, 5.5}};
  const Learned before = learned_from(facts);
  facts.visits.push_back(visit("3", "she", "here", 2.5));  // somebody typed 7 for 4
  EXPECT_GT(std::abs(factor(learned_from(facts), FactorKind::client_rate, "she").mean -
                     factor(before, FactorKind::client_rate, "she").mean),
            0.05);
  facts.visits.pop_back();
  const Learned after = learned_from(facts);
  for (std::size_t f = 0; f < before.factors.size(); ++f) {
    EXPECT_EQ(before.factors[f].learned.mean, after.factors[f].learned.mean);
    EXPECT_EQ(before.factors[f].learned.sd, after.factors[f].learned.sd);
    EXPECT_EQ(before.factors[f].sentence, after.factors[f].sentence);
  }
}

TEST(PlanLearn, the_order_of_facts_does_not_matter) {
  Facts facts;
  facts.visits = {visit("1", "she", "here", 0.5), visit("2", "he", "there", -0.2, 2),
                  visit("3", "she", "there", 0.1, 1)};
  const Learned one = learned_from(facts);
  std::reverse(facts.visits.begin(), facts.visits.end());
  expect_same(one, learned_from(facts));
}

TEST(PlanLearn, a_visit_planned_with_what_was_learned_does_not_teach_it_twice) {
  // The same hair found, once planned as a stranger and once at a rate of 0.2 ln: what was expected
  // lies 0.3 level higher then, and the facts say the same.
  Facts stranger, known;
  stranger.visits = {visit("1", "she", "here", 0.5)};
  known.visits = {visit("1", "she", "here", 0.2)};
  known.visits[0].ln_rate.mean = 0.2;
  expect_same(learned_from(stranger), learned_from(known));
}

TEST(PlanLearn, factors_are_told_in_a_sentence_with_how_much_was_seen) {
  Facts facts;
  for (int v = 0; v < 4; ++v) facts.visits.push_back(visit(std::to_string(v), "she", "here", 0.5));
  facts.shades = {{"s1", "warm brown", 30, 24, -9, 0, 1.5}};
  facts.amounts = {{"a1", "here", 60, 80, 1}};
  const Learned learned = learned_from(facts);
  const auto said = [&](FactorKind kind, const std::string& name) {
    const Factor* known = learned.find(kind, name);
    return known == nullptr ? std::string() : known->sentence;
  };
  const Factor* client = learned.find(FactorKind::client_rate, "she");
  ASSERT_NE(client, nullptr);
  EXPECT_EQ(client->facts, 12U);
  const auto percent = std::lround(100 * (std::exp(client->learned.mean) - 1));
  EXPECT_THAT(client->sentence,
              HasSubstr("this client lifts " + std::to_string(percent) + " % faster than usual"));
  EXPECT_THAT(client->sentence, HasSubstr("from 12 checks"));
  EXPECT_THAT(said(FactorKind::salon_rate, "here"), HasSubstr("bowls of this salon lift"));
  EXPECT_THAT(said(FactorKind::reader_bias, "A"), HasSubstr("level lighter than it is"));
  EXPECT_THAT(said(FactorKind::wet_look, "here"), HasSubstr("L* darker than dry"));
  EXPECT_THAT(said(FactorKind::shade_strength, "warm brown"), HasSubstr("stronger than usual"));
  EXPECT_THAT(said(FactorKind::shade_strength, "warm brown"), HasSubstr("from 1 result"));
  EXPECT_THAT(said(FactorKind::salon_amount, "here"), HasSubstr("more than usual"));
}

TEST(PlanLearn, facts_that_make_no_sense_are_named) {
  const auto where = [](const Facts& facts) {
    const auto learned = learn(facts);
    EXPECT_FALSE(learned.has_value());
    return learned.has_value() ? std::string() : learned.error().where;
  };
  Facts twice;
  twice.visits = {visit("1", "she", "here", 0), visit("1", "he", "here", 0)};
  EXPECT_EQ(where(twice), "visits[\"1\"]");
  Facts size;
  size.visits = {visit("2", "she", "here", 0)};
  size.visits[0].scatter.pop_back();
  EXPECT_EQ(where(size), "visits[\"2\"]");
  Facts negative;
  negative.visits = {visit("3", "she", "here", 0)};
  negative.visits[0].scatter[0] = -9;
  EXPECT_EQ(where(negative), "visits[\"3\"]");
  Facts none;
  none.visits = {visit("4", "she", "here", std::nan(""))};
  EXPECT_EQ(where(none), "visits[\"4\"]");
  Facts sure;
  sure.shades = {{"s", "warm brown", 30, 28, -9, 0, 0}};
  EXPECT_EQ(where(sure), "shades[\"s\"]");
  Facts empty_bowl;
  empty_bowl.amounts = {{"a", "here", 60, 0, 1}};
  EXPECT_EQ(where(empty_bowl), "amounts[\"a\"]");
}

TEST(PlanLearn, grams_really_used_become_the_salons_amount_factor) {
  Facts facts;
  for (int i = 0; i < 10; ++i) facts.amounts.push_back({std::to_string(i), "here", 60, 75, 1});
  const FactorPrior& prior = factor_prior(FactorKind::salon_amount);
  const NormalBelief by_hand =
      updated({0, prior.sd_between}, std::log(75.0 / 60), prior.sd_visit, 10);
  const double learned = amount_factor_for(learned_from(facts), "here");
  EXPECT_NEAR(std::log(learned), by_hand.mean, 1e-9);
  EXPECT_GT(learned, 1.1);
  EXPECT_LT(learned, 1.25);
  // Reckoned with the factor already, the same bowls say the same.
  for (AmountFact& fact : facts.amounts) {
    fact.reckoned_g *= 1.2;
    fact.used_factor = 1.2;
  }
  EXPECT_NEAR(amount_factor_for(learned_from(facts), "here"), learned, 1e-9);
  EXPECT_EQ(amount_factor_for(learned_from(facts), "elsewhere"), 1);
}

TEST(PlanLearn, a_shade_that_came_out_darker_is_stronger_in_the_next_bowl) {
  Facts facts;
  for (int i = 0; i < 4; ++i) {
    facts.shades.push_back({std::to_string(i), "warm brown", 30, 27, -9, 0, 1.5});
  }
  Case head = plain_head();
  head.shade_strengths = shade_strengths(learned_from(facts));
  ASSERT_EQ(head.shade_strengths.size(), 1U);
  auto shade = process::shade_from_words("warm brown", process::DyeClass::permanent, 5, "neutral");
  ASSERT_TRUE(shade.has_value());
  const process::Shade next = with_learned(*shade, head);
  const double by = next.full[10] / shade->full[10];
  // 3 L* darker at 9 L* to an ln is a third of an ln, less what is shrunk.
  EXPECT_GT(std::log(by), 0.2);
  EXPECT_LT(std::log(by), 1 / 3.0);
  ASSERT_FALSE(next.colourants.empty());
  EXPECT_NEAR(next.colourants[0].full[10], by * shade->colourants[0].full[10], 1e-9);
  EXPECT_LT(next.strength_sd_ln, shade->strength_sd_ln);
  EXPECT_GE(next.strength_sd_ln, factor_prior(FactorKind::shade_strength).sd_visit);
  // One that a swatch tells more of gives way less; one never used stays as it is.
  process::Shade swatched = *shade;
  swatched.strength_sd_ln = 0.15;
  EXPECT_LT(with_learned(swatched, head).full[10], next.full[10]);
  process::Shade other = *shade;
  other.id = "another";
  EXPECT_EQ(with_learned(other, head).full, shade->full);
  const process::Shade same = with_learned(*shade, shade_strength_for({}, "warm brown"));
  EXPECT_NEAR(same.full[10], shade->full[10], 1e-9);
  EXPECT_NEAR(same.strength_sd_ln, shade->strength_sd_ln, 1e-9);
}

TEST(PlanLearn, with_learned_gives_its_worked_value) {
  process::Shade shade = process::clear_shade("x", process::DyeClass::demi);
  shade.full.fill(10);
  shade.strength_sd_ln = 0.25;
  const process::Shade next = with_learned(shade, NormalBelief{0.2, 0.12});
  EXPECT_NEAR(next.full[0] / 10, 1.22, 0.005);
  EXPECT_NEAR(next.strength_sd_ln, 0.12, 0.005);
}

}  // namespace
}  // namespace hw::plan
