// How each rule is recognised. Ids are those of data/process/rules.csv.
#include "findings.h"
#include "huewright/process/rules.h"

namespace hw::process {
namespace {

/// True for every step with chemistry that can hurt skin or hair.
bool is_chemical(const StepUse& use) {
  return use.oxidises || use.lightener || use.oxidative_colour;
}

void look_at_bowl(Findings& found, const Bowl& bowl, const Mix& mix) {
  found.raise_beyond("mix_peroxide_over_limit", mix.peroxide.value());
  if (mix.strongest_bottle) found.raise_beyond("bottle_over_limit", mix.strongest_bottle->value());
  if (!mix.has_persulfate) return;
  found.raise_if("off_scalp_lightener_on_scalp", bowl.on_scalp && mix.has_off_scalp_lightener);
  if (!mix.developer_peroxide_mean) return;
  found.raise_beyond(bowl.on_scalp ? "scalp_developer_over_limit" : "strong_off_scalp_developer",
                     mix.developer_peroxide_mean->value());
}

void look_at_step(Findings& found, const ApplicationFacts& step, bool lightened_on_scalp_before,
                  Minutes lightener_minutes_before) {
  look_at_bowl(found, step.bowl, step.mix);
  if (!step.mix.has_persulfate) return;
  found.raise_if("second_scalp_lightener_today", step.bowl.on_scalp && lightened_on_scalp_before);
  found.raise_if("heat_on_persulfate", step.added_heat);
  found.raise_if("lightener_over_label",
                 step.label_max_minutes && !(step.minutes <= *step.label_max_minutes));
  found.raise_beyond("lightener_over_total_minutes",
                     (lightener_minutes_before + step.minutes).value());
}

void look_at_age(Findings& found, const Person& person, const StepUse& use) {
  // Developer with shampoo lightens too; what colours is the other rule's.
  const bool lightens = use.lightener || (use.oxidises && !use.oxidative_colour);
  const bool scalp_lightener = lightens && use.on_scalp;
  if (!person.age_years) {
    found.raise_if("age_not_asked", use.oxidative_colour || scalp_lightener);
    return;
  }
  if (use.oxidative_colour) found.raise_beyond("oxidative_colour_under_age", *person.age_years);
  if (scalp_lightener) found.raise_beyond("scalp_lightener_under_age", *person.age_years);
}

void look_at_reactions(Findings& found, const Person& person, const StepUse& use) {
  const bool dye_reaction = person.past_reaction_to_dye || person.black_tattoo_reaction;
  found.raise_if("past_dye_reaction", use.oxidative_colour && person.past_reaction_to_dye);
  found.raise_if("black_tattoo_reaction", use.oxidative_colour && person.black_tattoo_reaction);
  found.raise_if("past_lightener_reaction", use.lightener && person.lightener_reaction);
  found.raise_if("reaction_to_another_product",
                 (is_chemical(use) && !use.oxidative_colour && dye_reaction) ||
                     (is_chemical(use) && !use.lightener && person.lightener_reaction));
  if (!use.oxidative_colour) return;
  found.raise_if("skin_test_positive", person.skin_test == SkinTest::positive);
  found.raise_if("skin_test_missing", person.skin_test == SkinTest::not_done);
  found.raise_if("skin_test_can_miss", person.skin_test == SkinTest::clear);
}

void look_at_person(Findings& found, const Person& person, const StepUse& use) {
  found.raise_if("consent_refused", person.consent == Consent::refused);
  found.raise_if("consent_not_asked", person.consent == Consent::not_asked);
  look_at_age(found, person, use);
  look_at_reactions(found, person, use);
  if (!is_chemical(use)) return;
  found.raise_if("chemo_or_radiotherapy", person.chemo_or_radiotherapy);
  found.raise_if("skin_sensitising_medicine", person.skin_sensitising_medicine);
  found.raise_if("scalp_inflamed_or_broken", person.scalp == ScalpState::inflamed_or_broken);
  found.raise_if("sensitive_scalp", person.scalp == ScalpState::sensitive);
  found.raise_if("pregnancy", person.pregnant_or_breastfeeding);
}

/// A soap cap holds at least as much shampoo as lightener and little peroxide.
void look_at_relaxed(Findings& found, const Mix& mix) {
  constexpr std::string_view kRule = "relaxed_more_than_soap_cap";
  const double percent = mix.peroxide.value();
  if (mix.shampoo < mix.lightener) {
    found.raise_anyway(kRule, percent);
  } else {
    found.raise_beyond(kRule, percent);
  }
}

void look_at_texture(Findings& found, const HairFacts& hair, const Mix& mix) {
  const TextureServices& past = hair.texture;
  const bool relaxed = past.relaxed_hydroxide || past.relaxed_other;
  const bool reshaped = relaxed || past.permed || past.texturised || past.smoothed;
  found.raise_if("texture_service_without_strand_test",
                 reshaped && hair.strand_test == StrandTest::none);
  if (past.relaxed_hydroxide) look_at_relaxed(found, mix);
  const auto days = past.days_since_relaxer_or_smoothing;
  if (days) found.raise_beyond("recent_relaxer_or_smoothing", *days);
  found.raise_if("service_date_unknown", (relaxed || past.smoothed) && !days);
}

void look_at_stretch(Findings& found, const StretchTest& test, bool lightener) {
  constexpr int kStrands = 5;  // product rule: five strands …
  constexpr int kPlaces = 3;   // … from three places; porosity is felt at three in exam teaching
  const bool failed = gives_way(test);
  found.raise_if("wet_stretch_failed", failed);
  found.raise_if("stretch_test_incomplete", lightener && !failed &&
                                                (test.worst == WetStretch::not_tested ||
                                                 test.strands < kStrands || test.places < kPlaces));
}

void look_at_hair(Findings& found, const HairFacts& hair, const ApplicationFacts& step,
                  const StepUse& use) {
  if (hair.wear_high_90) {
    found.raise_beyond("wear_over_limit", *hair.wear_high_90);
    if (!found.has("wear_over_limit")) found.raise_beyond("wear_near_limit", *hair.wear_high_90);
  }
  if (hair.wet_strength_ratio) {
    found.raise_beyond("wet_strength_below_half", *hair.wet_strength_ratio);
  }
  if (!is_chemical(use)) return;
  const bool test_done = hair.incompatibility_test != IncompatibilityTest::not_done;
  found.raise_if("minerals_not_removed", hair.mineral_build_up && use.lightener);
  found.raise_if("minerals_under_colour",
                 hair.mineral_build_up && use.oxidative_colour && !use.lightener);
  found.raise_if("incompatibility_test_positive",
                 hair.incompatibility_test == IncompatibilityTest::positive);
  found.raise_if("metal_salts_untested", hair.metal_or_compound_henna_suspected && !test_done);
  look_at_stretch(found, hair.stretch, use.lightener);
  found.raise_if("thin_edges", hair.thin_edges);
  found.raise_if("braids_just_taken_down", hair.braids_just_taken_down);
  found.raise_if("low_elasticity", hair.low_elasticity);
  if (!use.lightener) return;
  found.raise_if("strand_test_failed", hair.strand_test == StrandTest::failed);
  look_at_texture(found, hair, step.mix);
}

void remind_of_handling(Findings& found, const ApplicationFacts& step, const StepUse& use) {
  found.raise_if("persulfate_dust", use.lightener);
  if (!is_chemical(use)) return;
  found.raise_if("gloves", true);
  found.raise_if("eyes", true);
  found.raise_if("fresh_mix_only", true);
  found.raise_if("no_metal_bowls", step.metal_bowl.value_or(true));
}

}  // namespace

StepUse use_of(const ApplicationFacts& application) {
  const Mix& mix = application.mix;
  StepUse use;
  use.lightener = mix.has_persulfate;
  use.oxidative_colour = application.is_oxidative_colour || mix.has_oxidative_colour;
  use.oxidises = use.lightener || use.oxidative_colour || mix.peroxide.value() > 0;
  use.on_scalp = application.bowl.on_scalp;
  return use;
}

std::vector<Refusal> check_bowl(const Bowl& bowl, const Mix& mix, const RuleSettings& settings) {
  Findings found(settings);
  look_at_bowl(found, bowl, mix);
  return found.list();
}

std::vector<Refusal> check_person(const Person& person, const StepUse& use,
                                  const RuleSettings& settings) {
  Findings found(settings);
  look_at_person(found, person, use);
  return found.list();
}

std::vector<Refusal> check_series(std::span<const ApplicationFacts> applications,
                                  const RuleSettings& settings) {
  Findings found(settings);
  bool on_scalp = false;
  Minutes minutes{};
  for (const ApplicationFacts& step : applications) {
    look_at_step(found, step, on_scalp, minutes);
    if (!step.mix.has_persulfate) continue;
    on_scalp = on_scalp || step.bowl.on_scalp;
    minutes += step.minutes;
  }
  return found.list();
}

std::vector<Refusal> check_application(const Person& person, const HairFacts& hair,
                                       const ApplicationFacts& application,
                                       const RuleSettings& settings) {
  Findings found(settings);
  const StepUse use = use_of(application);
  look_at_step(found, application, hair.lightened_on_scalp_today, hair.lightener_minutes_today);
  look_at_person(found, person, use);
  look_at_hair(found, hair, application, use);
  remind_of_handling(found, application, use);
  return found.list();
}

}  // namespace hw::process
