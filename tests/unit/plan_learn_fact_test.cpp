// From readings of a visit to a fact, and from facts to the members of the next visit.
#include <gmock/gmock.h>

#include <algorithm>

#include "huewright/base/elementary.h"
#include "huewright/plan/learn.h"
#include "support/demo_case.h"

namespace hw::plan {
namespace {

using test::plain_head;

const VisitNames kNames{"1", "she", "here", "A"};

std::vector<ZoneBelief> believed(const Case& head) {
  InlineExecutor executor;
  auto zones = believe(head, executor);
  EXPECT_TRUE(zones.has_value());
  return *std::move(zones);
}

std::vector<ZoneRun> lightener_on_all(const Case& head) {
  process::Application bowl;
  bowl.peroxide_percent = 4;
  bowl.powder_percent = 100.0 / 3;
  bowl.mix_per_hair = 1.4;
  bowl.minutes = 35;
  std::vector<ZoneRun> runs;
  for (const ZoneCase& zone : head.zones) runs.push_back({zone.name, false, {{bowl, 0}}});
  return runs;
}

CheckReading at(double minute, const std::string& zone, double level,
                hair::Moisture seen = hair::Moisture::dry, const std::string& reader = {}) {
  CheckReading reading;
  reading.minute = minute;
  reading.zone = zone;
  reading.level = level;
  reading.seen = seen;
  reading.reader = reader;
  return reading;
}

VisitFact fact(const Case& head, const std::vector<CheckReading>& readings,
               const VisitNames& names = kNames) {
  InlineExecutor executor;
  auto made = fact_of(names, head, believed(head), lightener_on_all(head), readings, executor);
  EXPECT_TRUE(made.has_value()) << one_line(made.error());
  return *std::move(made);
}

/// Level that the members expect at a reading.
double expected(const Case& head, double minute, const std::string& zone) {
  return fact(head, {at(minute, zone, 5)}).readings.back().expected_level;
}

/// Mean level that the members reach when all is done.
double finish(const Case& head, std::size_t zone) {
  InlineExecutor executor;
  const auto zones = believed(head);
  const auto bowls = lightener_on_all(head);
  const auto moments = process::simulate_lift(zones[zone].members,
                                              {&bowls[zone].bowls[0].application, 1}, 35, executor);
  std::vector<colour::HairLab> labs(zones[zone].members.size());
  process::lift_colours(zones[zone].members, moments.back(), labs, process::Whites::left_out);
  double sum = 0;
  for (const auto& lab : labs) sum += head.ladder.level_of(lab.l);
  return sum / static_cast<double>(labs.size());
}

Case learned_case(const Case& head, const std::vector<VisitFact>& visits) {
  Facts facts;
  facts.visits = visits;
  const auto learned = learn(facts);
  EXPECT_TRUE(learned.has_value());
  return with_learned(head, *learned, kNames);
}

/// The same visit several times, each check `off` levels lighter than a stranger's would be.
std::vector<VisitFact> visits_off_by(const Case& head, double off, int times) {
  std::vector<CheckReading> readings;
  for (const ZoneCase& zone : head.zones) {
    for (const double minute : {15.0, 35.0}) {
      const double level = expected(head, minute, zone.name) + off;
      readings.push_back(at(minute, zone.name, std::clamp(level, 1.0, 10.0)));
    }
  }
  std::vector<VisitFact> visits;
  for (int v = 0; v < times; ++v) {
    visits.push_back(fact(head, readings, {std::to_string(v), "she", "here", "A"}));
  }
  return visits;
}

TEST(PlanLearnFact, a_reading_leans_on_rate_pigment_eye_and_wet_look_as_it_must) {
  Case head = plain_head();
  head.members = 512;
  const VisitFact made = fact(head, {at(20, "roots", 5, hair::Moisture::wet)});
  // Each untouched zone's first reading, then the check.
  ASSERT_EQ(made.readings.size(), 3U);
  EXPECT_EQ(made.scatter.size(), 9U);
  const FactReading& first = made.readings[0];
  EXPECT_EQ(first.found_level, 2);
  EXPECT_EQ(first.per_ln_rate, 0);  // nothing was on the hair yet
  EXPECT_EQ(first.per_bias, 1);
  EXPECT_LT(first.per_ln_pigment, -0.5);  // more pigment, darker hair
  const FactReading& check = made.readings[2];
  EXPECT_EQ(check.zone, "roots");
  EXPECT_EQ(check.reader, "A");
  EXPECT_GT(check.per_ln_rate, 0.5);
  EXPECT_LT(check.per_ln_rate, 4);
  EXPECT_LT(check.per_ln_pigment, -0.5);
  EXPECT_GT(check.per_rest, 0);
  EXPECT_EQ(check.per_bias, 1);
  EXPECT_GT(check.per_wet_look, 0.1);  // an sd of 3 L* where a level takes about five
  EXPECT_LT(check.per_wet_look, 2);
  EXPECT_GE(made.scatter[8], 0.25);  // half a level of the eye, squared, and more
}

TEST(PlanLearnFact, dry_readings_say_nothing_of_wet_looks_and_instruments_nothing_of_an_eye) {
  const Case head = plain_head();
  CheckReading by_instrument;
  by_instrument.minute = 20;
  by_instrument.zone = "roots";
  by_instrument.lab = colour::HairLab{30, 8, 12};
  by_instrument.seen = hair::Moisture::dry;
  const VisitFact made = fact(head, {at(20, "roots", 5), by_instrument});
  EXPECT_EQ(made.readings[2].per_wet_look, 0);
  EXPECT_EQ(made.readings[3].per_bias, 0);
  EXPECT_LT(made.scatter[15], made.scatter[10]);
  EXPECT_EQ(made.readings[3].found_level, head.ladder.level_of(30));
}

TEST(PlanLearnFact, words_and_stretch_are_left_out_and_errors_are_those_of_a_check) {
  const Case head = plain_head();
  CheckReading words = at(20, "roots", 5);
  words.level.reset();
  words.tone = tone_words().front();
  EXPECT_EQ(fact(head, {words}).readings.size(), 2U);
  InlineExecutor executor;
  const std::vector<CheckReading> nowhere = {at(20, "fringe", 5)};
  EXPECT_FALSE(
      fact_of(kNames, head, believed(head), lightener_on_all(head), nowhere, executor).has_value());
}

TEST(PlanLearnFact, another_readers_eye_is_learned_as_hers) {
  const Case head = plain_head();
  const double usual = expected(head, 20, "roots");
  std::vector<VisitFact> visits;
  for (int v = 0; v < 6; ++v) {
    visits.push_back(fact(head,
                          {at(20, "roots", usual), at(20, "lengths", usual),
                           at(20, "roots", usual + 0.6, hair::Moisture::dry, "B"),
                           at(20, "lengths", usual + 0.6, hair::Moisture::dry, "B")},
                          {std::to_string(v), "she", "here", "A"}));
  }
  Facts facts;
  facts.visits = visits;
  const auto learned = learn(facts);
  ASSERT_TRUE(learned.has_value());
  const double a = learned->find(FactorKind::reader_bias, "A")->learned.mean;
  const double b = learned->find(FactorKind::reader_bias, "B")->learned.mean;
  EXPECT_GT(b - a, 0.25);
  EXPECT_EQ(priors_for(*learned, "she", "here", "B").reader_bias_mean, b);
}

TEST(PlanLearnFact, hair_that_lifted_further_is_expected_to_do_so_again_and_with_less_doubt) {
  Case head = plain_head();
  head.members = 512;
  const Case next = learned_case(head, visits_off_by(head, 1, 4));
  ASSERT_TRUE(next.priors.together.has_value());
  ASSERT_TRUE(next.zones[0].ln_pigment.has_value());
  EXPECT_GT(next.priors.ln_rate_mean, 0);
  for (const std::size_t z : {0U, 1U}) {
    const double before = finish(head, z), after = finish(next, z);
    EXPECT_GT(after, before + 0.3) << z;
    EXPECT_LT(after, before + 1.1) << z;
  }
  const auto band = [](const Case& at) {
    const auto zones = believed(at);
    return band_of(zones[0].origin.found);
  };
  EXPECT_LT(std::log(band(next).high / band(next).low), std::log(band(head).high / band(head).low));
}

TEST(PlanLearnFact, the_next_belief_takes_up_what_goes_together) {
  Case head = plain_head();
  head.members = 512;
  const Case next = learned_case(head, visits_off_by(head, 0.7, 5));
  const auto zones = believed(next);
  // Pigment and rest were seen by what they make together: the more pigment, the more readily must
  // the hair have given it up.
  const auto link = [](const ZoneBelief& zone) {
    std::vector<double> pigment;
    for (const double found : zone.origin.found) pigment.push_back(log_portable(found));
    double both = 0, one = 0, two = 0;
    for (std::size_t m = 0; m < pigment.size(); ++m) {
      const double p = pigment[m] - mean(pigment), r = zone.origin.rest[m] - mean(zone.origin.rest);
      both += p * r;
      one += p * p;
      two += r * r;
    }
    return both / std::sqrt(one * two);
  };
  const double learned = next.priors.together->covariance[2 * 6 + 3];
  EXPECT_GT(learned, 0);
  EXPECT_GT(link(zones[0]), link(believed(head)[0]) + 0.2);
  EXPECT_GT(link(zones[1]), link(believed(head)[1]) + 0.2);
}

TEST(PlanLearnFact, a_clients_lesson_is_hers_alone) {
  Case head = plain_head();
  Facts facts;
  facts.visits = visits_off_by(head, 1, 3);
  const auto learned = learn(facts);
  ASSERT_TRUE(learned.has_value());
  const Case other = with_learned(head, *learned, {"", "he", "here", "A"});
  EXPECT_FALSE(other.priors.together.has_value());
  EXPECT_FALSE(other.zones[0].ln_pigment.has_value());
  const Factor* pigment = learned->find(FactorKind::client_pigment, factor_name("she", "roots"));
  ASSERT_NE(pigment, nullptr);
  EXPECT_THAT(pigment->sentence, testing::StartsWith("natural hair of she / roots holds "));
  const Factor* rest = learned->find(FactorKind::client_rest, factor_name("she", "roots"));
  ASSERT_NE(rest, nullptr);
  EXPECT_THAT(rest->sentence, testing::StartsWith("beside pigment and rate "));
  // Zones that were coloured or lightened tell rate and eye, not natural pigment.
  head.zones[1].past.lightened = 1;
  head.zones[1].readings[0].level = 6;
  const VisitFact made = fact(head, {at(20, "lengths", 7)});
  EXPECT_EQ(made.readings.size(), 2U);
  EXPECT_EQ(made.readings[1].zone, "");
  EXPECT_EQ(made.readings[1].per_ln_pigment, 0);
  EXPECT_NE(made.readings[1].per_bias, 0);
}

TEST(PlanLearnFact, a_zone_that_was_named_otherwise_can_still_be_believed) {
  Case head = plain_head();
  head.zones[0].readings[0].level = 8;  // learned dark, read light
  const Case dark = learned_case(plain_head(), visits_off_by(plain_head(), 0, 4));
  head.priors = dark.priors;
  head.zones[0].ln_pigment = dark.zones[0].ln_pigment;
  const auto zones = believed(head);
  EXPECT_GT(quantile(zones[0].level_now, 0.9), 5);
}

}  // namespace
}  // namespace hw::plan
