#include "process_rules_cases.h"

#include <gtest/gtest.h>

namespace hw::process::test {
namespace {

using S = Situation&;

void on_scalp_with(S s, double percent) {
  s.step.bowl.on_scalp = true;
  s.step.bowl.parts[0].for_scalp = true;
  s.step.bowl.parts[1].peroxide = Percent(percent);
}

void shampoo_cap(S s, double percent) {  // 1:2:1
  s.hair.texture.relaxed_hydroxide = true;
  s.hair.texture.days_since_relaxer_or_smoothing = 60;
  s.hair.strand_test = StrandTest::passed;
  s.step.bowl.parts = {part(PartKind::lightener, 30), developer(60, percent),
                       part(PartKind::shampoo, 30)};
}

void water_only(S s) {
  s.step.bowl.parts = {part(PartKind::water, 30)};
}

/// A fact that raises a rule, against its absence.
RuleCase fact(std::string id, Change raises) {
  return {std::move(id), "stated", std::move(raises), [](S) {}};
}

/// As fact, for a step of oxidative colour.
RuleCase colour_fact(std::string id, Change raises) {
  return {std::move(id), "colour",
          [raises](S s) {
            s = quiet_colour();
            raises(s);
          },
          [](S s) { s = quiet_colour(); }};
}

std::vector<RuleCase> bowl_cases() {
  return {
      {"mix_peroxide_over_limit", "12.01 against 12.0",
       [](S s) { s.step.bowl.parts = {developer(100, 12.01)}; },
       [](S s) { s.step.bowl.parts = {developer(100, 12.0)}; }},
      {"mix_peroxide_over_limit", "1:2 with 18.02 % against 18 %",
       [](S s) {
         s.step.bowl.parts[1] = developer(66.7, 18.02);
         s.step.bowl.parts[0].grams = Grams(33.35);
       },
       [](S s) {
         s.step.bowl.parts[1] = developer(66.7, 18);
         s.step.bowl.parts[0].grams = Grams(33.35);
       }},
      {"scalp_developer_over_limit", "6.01 against 6", [](S s) { on_scalp_with(s, 6.01); },
       [](S s) { on_scalp_with(s, 6); }},
      {"scalp_developer_over_limit", "mass mean of 3 and 9, a gram apart",
       [](S s) {
         on_scalp_with(s, 3);
         s.step.bowl.parts.push_back(developer(61, 9));
       },
       [](S s) {
         on_scalp_with(s, 3);
         s.step.bowl.parts.push_back(developer(60, 9));
       }},
      {"off_scalp_lightener_on_scalp", "label",
       [](S s) {
         on_scalp_with(s, 6);
         s.step.bowl.parts[0].for_scalp = false;
       },
       [](S s) { on_scalp_with(s, 6); }},
      {"bottle_over_limit", "12.01 against 12",
       [](S s) { s.step.bowl.parts[1].peroxide = Percent(12.01); },
       [](S s) { s.step.bowl.parts[1].peroxide = Percent(12); }},
      {"strong_off_scalp_developer", "9.01 against 9",
       [](S s) { s.step.bowl.parts[1].peroxide = Percent(9.01); },
       [](S s) { s.step.bowl.parts[1].peroxide = Percent(9); }},
      {"second_scalp_lightener_today", "stated",
       [](S s) {
         on_scalp_with(s, 6);
         s.hair.lightened_on_scalp_today = true;
       },
       [](S s) { s.hair.lightened_on_scalp_today = true; }},
      {"lightener_over_label", "30.5 against 30",
       [](S s) {
         s.step.label_max_minutes = Minutes(30);
         s.step.minutes = Minutes(30.5);
       },
       [](S s) { s.step.label_max_minutes = Minutes(30); }},
      {"lightener_over_total_minutes", "45.5 against 45",
       [](S s) { s.step.minutes = Minutes(45.5); }, [](S s) { s.step.minutes = Minutes(45); }},
      {"lightener_over_total_minutes", "30 after 15.5 against 15",
       [](S s) { s.hair.lightener_minutes_today = Minutes(15.5); },
       [](S s) { s.hair.lightener_minutes_today = Minutes(15); }},
      fact("heat_on_persulfate", [](S s) { s.step.added_heat = true; }),
  };
}

std::vector<RuleCase> person_cases() {
  return {
      {"oxidative_colour_under_age", "15 against 16",
       [](S s) { s = quiet_colour(), s.person.age_years = 15; },
       [](S s) { s = quiet_colour(), s.person.age_years = 16; }},
      {"scalp_lightener_under_age", "15 against 16",
       [](S s) { on_scalp_with(s, 6), s.person.age_years = 15; },
       [](S s) { on_scalp_with(s, 6), s.person.age_years = 16; }},
      {"scalp_lightener_under_age", "lightener against colour on the scalp",
       [](S s) { on_scalp_with(s, 6), s.person.age_years = 15; },
       [](S s) {
         s = quiet_colour();
         s.step.bowl.on_scalp = true;
         s.person.age_years = 15;
       }},
      {"scalp_lightener_under_age", "15 on the scalp against off it",
       [](S s) { on_scalp_with(s, 6), s.person.age_years = 15; },
       [](S s) { s.person.age_years = 15; }},
      colour_fact("past_dye_reaction", [](S s) { s.person.past_reaction_to_dye = true; }),
      colour_fact("black_tattoo_reaction", [](S s) { s.person.black_tattoo_reaction = true; }),
      colour_fact("skin_test_positive", [](S s) { s.person.skin_test = SkinTest::positive; }),
      colour_fact("skin_test_missing", [](S s) { s.person.skin_test = SkinTest::not_done; }),
      {"skin_test_can_miss", "colour against lightener", [](S s) { s = quiet_colour(); },
       [](S s) { s.person.skin_test = SkinTest::clear; }},
      fact("past_lightener_reaction", [](S s) { s.person.lightener_reaction = true; }),
      fact("reaction_to_another_product", [](S s) { s.person.past_reaction_to_dye = true; }),
      colour_fact("reaction_to_another_product", [](S s) { s.person.lightener_reaction = true; }),
      fact("chemo_or_radiotherapy", [](S s) { s.person.chemo_or_radiotherapy = true; }),
      fact("skin_sensitising_medicine", [](S s) { s.person.skin_sensitising_medicine = true; }),
      {"scalp_inflamed_or_broken", "broken against sensitive",
       [](S s) { s.person.scalp = ScalpState::inflamed_or_broken; },
       [](S s) { s.person.scalp = ScalpState::sensitive; }},
      {"sensitive_scalp", "sensitive against sound",
       [](S s) { s.person.scalp = ScalpState::sensitive; }, [](S) {}},
      fact("pregnancy", [](S s) { s.person.pregnant_or_breastfeeding = true; }),
      fact("consent_refused", [](S s) { s.person.consent = Consent::refused; }),
      fact("consent_not_asked", [](S s) { s.person.consent = Consent::not_asked; }),
      colour_fact("age_not_asked", [](S s) { s.person.age_years.reset(); }),
      {"age_not_asked", "lightener on the scalp against off it",
       [](S s) { on_scalp_with(s, 6), s.person.age_years.reset(); },
       [](S s) { s.person.age_years.reset(); }},
  };
}

std::vector<RuleCase> texture_cases() {
  using Tests = StrandTest;
  std::vector<RuleCase> cases{
      fact("strand_test_failed", [](S s) { s.hair.strand_test = Tests::failed; }),
      {"relaxed_more_than_soap_cap", "1:2:1 with 6.1 % against 6 %",
       [](S s) { shampoo_cap(s, 6.1); }, [](S s) { shampoo_cap(s, 6); }},
      {"relaxed_more_than_soap_cap", "a gram of shampoo short",
       [](S s) {
         shampoo_cap(s, 3);
         s.step.bowl.parts[2].grams = Grams(29);
       },
       [](S s) { shampoo_cap(s, 3); }},
      {"relaxed_more_than_soap_cap", "hydroxide against another relaxer",
       [](S s) { s.hair.texture.relaxed_hydroxide = true; },
       [](S s) { s.hair.texture.relaxed_other = true; }},
      {"recent_relaxer_or_smoothing", "13 against 14 days",
       [](S s) { s.hair.texture.days_since_relaxer_or_smoothing = 13; },
       [](S s) { s.hair.texture.days_since_relaxer_or_smoothing = 14; }},
      {"service_date_unknown", "date", [](S s) { s.hair.texture.smoothed = true; },
       [](S s) {
         s.hair.texture.smoothed = true;
         s.hair.texture.days_since_relaxer_or_smoothing = 20;
       }},
  };
  for (bool TextureServices::*service :
       {&TextureServices::relaxed_hydroxide, &TextureServices::relaxed_other,
        &TextureServices::permed, &TextureServices::texturised, &TextureServices::smoothed}) {
    cases.push_back({"texture_service_without_strand_test", "no test against passed",
                     [service](S s) { s.hair.texture.*service = true; },
                     [service](S s) {
                       s.hair.texture.*service = true;
                       s.hair.strand_test = StrandTest::passed;
                     }});
  }
  return cases;
}

std::vector<RuleCase> hair_cases() {
  using Metal = IncompatibilityTest;
  std::vector<RuleCase> cases{
      fact("incompatibility_test_positive",
           [](S s) { s.hair.incompatibility_test = Metal::positive; }),
      {"metal_salts_untested", "untested against clear",
       [](S s) { s.hair.metal_or_compound_henna_suspected = true; },
       [](S s) {
         s.hair.metal_or_compound_henna_suspected = true;
         s.hair.incompatibility_test = Metal::clear;
       }},
      {"wear_over_limit", "0.401 against 0.40", [](S s) { s.hair.wear_high_90 = 0.401; },
       [](S s) { s.hair.wear_high_90 = 0.40; }},
      {"wear_near_limit", "0.25 against 0.249", [](S s) { s.hair.wear_high_90 = 0.25; },
       [](S s) { s.hair.wear_high_90 = 0.249; }},
      {"wear_near_limit", "said once", [](S s) { s.hair.wear_high_90 = 0.40; },
       [](S s) { s.hair.wear_high_90 = 0.41; }},
      {"wet_strength_below_half", "0.499 against 0.5",
       [](S s) { s.hair.wet_strength_ratio = 0.499; },
       [](S s) { s.hair.wet_strength_ratio = 0.5; }},
      {"stretch_test_incomplete", "four strands against five",
       [](S s) { s.hair.stretch.strands = 4; }, [](S) {}},
      {"stretch_test_incomplete", "one strand that held against one that snapped",
       [](S s) { s.hair.stretch.strands = 1; },
       [](S s) { s.hair.stretch = {.worst = WetStretch::snaps, .strands = 1, .places = 1}; }},
      {"stretch_test_incomplete", "two places against three",
       [](S s) { s.hair.stretch.places = 2; }, [](S) {}},
      fact("stretch_test_incomplete", [](S s) { s.hair.stretch = {}; }),
      {"minerals_not_removed", "lightener against oxidative colour",
       [](S s) { s.hair.mineral_build_up = true; },
       [](S s) {
         s = quiet_colour();
         s.hair.mineral_build_up = true;
       }},
      fact("minerals_not_removed", [](S s) { s.hair.mineral_build_up = true; }),
      colour_fact("minerals_under_colour", [](S s) { s.hair.mineral_build_up = true; }),
      fact("thin_edges", [](S s) { s.hair.thin_edges = true; }),
      fact("braids_just_taken_down", [](S s) { s.hair.braids_just_taken_down = true; }),
      fact("low_elasticity", [](S s) { s.hair.low_elasticity = true; }),
  };
  for (WetStretch bad : {WetStretch::stays_stretched, WetStretch::snaps, WetStretch::gummy}) {
    cases.push_back(fact("wet_stretch_failed", [bad](S s) { s.hair.stretch.worst = bad; }));
  }
  return cases;
}

std::vector<RuleCase> handling_cases() {
  std::vector<RuleCase> cases{
      {"persulfate_dust", "lightener against colour", [](S) {}, [](S s) { s = quiet_colour(); }},
      {"no_metal_bowls", "unknown against said not to be metal",
       [](S s) { s.step.metal_bowl.reset(); }, [](S s) { s.step.metal_bowl = false; }},
      {"no_metal_bowls", "metal", [](S s) { s.step.metal_bowl = true; }, [](S) {}},
  };
  for (const char* id : {"gloves", "eyes", "fresh_mix_only"}) {
    cases.push_back({id, "lightener against water", [](S) {}, water_only});
  }
  return cases;
}

}  // namespace

Part part(PartKind kind, double grams) {
  return Part{.kind = kind, .grams = Grams(grams)};
}

Part developer(double grams, double percent) {
  return Part{.kind = PartKind::developer, .grams = Grams(grams), .peroxide = Percent(percent)};
}

Situation quiet_lightener() {
  Situation s;
  s.person.age_years = 34;
  s.person.consent = Consent::given;
  s.hair.stretch = {.worst = WetStretch::springs_back, .strands = 5, .places = 3};
  s.step.bowl.parts = {part(PartKind::lightener, 30), developer(60, 6)};
  s.step.minutes = Minutes(30);
  s.step.metal_bowl = false;
  return s;
}

Situation quiet_colour() {
  Situation s = quiet_lightener();
  s.person.skin_test = SkinTest::clear;
  s.step.bowl.parts = {part(PartKind::colour, 30), developer(30, 6)};
  return s;
}

const std::vector<RuleCase>& rule_cases() {
  static const std::vector<RuleCase> all = [] {
    std::vector<RuleCase> cases;
    for (const auto& some : {bowl_cases(), person_cases(), texture_cases(), hair_cases(),
                             handling_cases(), dated_cases(), care_cases()}) {
      cases.insert(cases.end(), some.begin(), some.end());
    }
    return cases;
  }();
  return all;
}

std::vector<Refusal> refusals_after(const Change& change) {
  Situation s = quiet_lightener();
  change(s);
  const auto mix = mix_bowl(s.step.bowl);
  EXPECT_TRUE(mix.has_value()) << one_line(mix.error());
  s.step.mix = mix.value_or(Mix{});
  const std::vector<std::vector<Refusal>> lists{
      check_application(s.person, s.hair, s.step), check_skin_tests(s.record, s.meant, s.at),
      check_blend(s.blend), check_colour_bowl(s.canvas, s.deposit), check_colour_reach(s.reach)};
  return merged(lists);
}

}  // namespace hw::process::test
