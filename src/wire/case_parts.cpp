#include "case_parts.h"

#include <algorithm>
#include <array>

namespace hw::wire {
namespace {

void describe_past(Object& object, plan::ZonePast& past) {
  constexpr std::uint64_t kMostServices = 50;  // of one stretch of hair; house rule, no source
  count(object.optional("lightened", "earlier lightening services on this hair"), past.lightened, 0,
        kMostServices);
  count(object.optional("permanent_colours", "earlier permanent colour services"),
        past.permanent_colours, 0, kMostServices);
  count(object.optional("demi_colours", "earlier demi colour services"), past.demi_colours, 0,
        kMostServices);
  Value& colour = object.optional("old_colour", "artificial colour still in the hair");
  if (!colour.wanted(past.old_colour.has_value())) return;
  plan::OldColour old = past.old_colour.value_or(plan::OldColour{});
  colour.object([&](Object& fields) {
    static constexpr std::array<std::string_view, 4> kTones{"neutral", "red", "copper", "ash"};
    std::size_t tone = 0;
    for (std::size_t i = 0; i < kTones.size(); ++i) tone = old.tone == kTones[i] ? i : tone;
    fields.optional("tone", "its tone word").word(tone, kTones);
    old.tone = kTones[tone];
    using enum process::OldDye;
    static constexpr std::array kKinds{unknown, oxidative, direct};
    static constexpr std::array<std::string_view, 3> kKindWords{"unknown", "oxidative", "direct"};
    word(fields.optional("kind", "formed inside with developer, or brought ready"), old.kind,
         kKinds, kKindWords);
  });
  past.old_colour = old;
}

void describe_texture(Object& object, process::TextureServices& texture) {
  object.optional("relaxed_hydroxide", "relaxed with a hydroxide").flag(texture.relaxed_hydroxide);
  object.optional("relaxed_other", "relaxed with anything else").flag(texture.relaxed_other);
  object.optional("permed", "permanently waved").flag(texture.permed);
  object.optional("texturised", "texturised").flag(texture.texturised);
  object.optional("smoothed", "smoothing service").flag(texture.smoothed);
  number(object.optional("days_since_relaxer_or_smoothing", "since the last of them"),
         texture.days_since_relaxer_or_smoothing, {.low = 0, .high = 10000, .unit = "days"});
}

void describe_stretch(Object& object, process::StretchTest& stretch) {
  using enum process::WetStretch;
  static constexpr std::array kValues{not_tested, springs_back, stays_stretched, snaps, gummy};
  static constexpr std::array<std::string_view, 5> kWords{"not_tested", "springs_back",
                                                          "stays_stretched", "snaps", "gummy"};
  word(object.optional("worst", "the worst strand, wet"), stretch.worst, kValues, kWords);
  count(object.optional("strands", "how many were stretched"), stretch.strands, 0, 100);
  count(object.optional("places", "at how many places of the head"), stretch.places, 0, 20);
}

void describe_facts(Object& object, process::HairFacts& facts) {
  using process::IncompatibilityTest;
  using process::StrandTest;
  object.optional("metal_or_henna_suspected", "metal salts or compound henna on the hair")
      .flag(facts.metal_or_compound_henna_suspected);
  object.optional("mineral_build_up", "minerals of hard or pool water, not taken out yet")
      .flag(facts.mineral_build_up);
  static constexpr std::array kTests{IncompatibilityTest::not_done, IncompatibilityTest::clear,
                                     IncompatibilityTest::positive};
  static constexpr std::array<std::string_view, 3> kTestWords{"not_done", "clear", "positive"};
  word(object.optional("incompatibility_test", "strand in peroxide and ammonia"),
       facts.incompatibility_test, kTests, kTestWords);
  static constexpr std::array kStrand{StrandTest::none, StrandTest::passed, StrandTest::failed};
  static constexpr std::array<std::string_view, 3> kStrandWords{"none", "passed", "failed"};
  word(object.optional("strand_test", "the mix tried on one strand"), facts.strand_test, kStrand,
       kStrandWords);
  object.optional("texture", "texture services over the hair's life").object([&](Object& fields) {
    describe_texture(fields, facts.texture);
  });
  object.optional("stretch", "wet stretch test").object([&](Object& fields) {
    describe_stretch(fields, facts.stretch);
  });
  object.optional("lightened_on_scalp_today", "lightener was on the scalp today already")
      .flag(facts.lightened_on_scalp_today);
  number(object.optional("lightener_minutes_today", "minutes of lightener on this zone today"),
         facts.lightener_minutes_today, {.low = 0, .high = 600, .unit = "min"});
  object.optional("thin_edges", "thin hairline").flag(facts.thin_edges);
  object.optional("braids_just_taken_down", "braids or twists were just taken down")
      .flag(facts.braids_just_taken_down);
  object.optional("low_elasticity", "stretches little").flag(facts.low_elasticity);
}

}  // namespace

void describe_person(Object& object, process::Person& person) {
  using process::Consent;
  using process::ScalpState;
  using process::SkinTest;
  number(object.optional("age_years", "age"), person.age_years,
         {.low = 0, .high = 120, .unit = "years"});
  static constexpr std::array kConsent{Consent::not_asked, Consent::given, Consent::refused};
  static constexpr std::array<std::string_view, 3> kConsentWords{"not_asked", "given", "refused"};
  word(object.optional("consent", "to this service"), person.consent, kConsent, kConsentWords);
  static constexpr std::array kScalp{ScalpState::sound, ScalpState::sensitive,
                                     ScalpState::inflamed_or_broken};
  static constexpr std::array<std::string_view, 3> kScalpWords{"sound", "sensitive",
                                                               "inflamed_or_broken"};
  word(object.optional("scalp", "how the scalp is today"), person.scalp, kScalp, kScalpWords);
  static constexpr std::array kSkin{SkinTest::not_done, SkinTest::clear, SkinTest::positive};
  static constexpr std::array<std::string_view, 3> kSkinWords{"not_done", "clear", "positive"};
  word(object.optional("skin_test", "of the products meant, read at 48 h"), person.skin_test, kSkin,
       kSkinWords);
  const auto fact = [&](std::string_view key, std::string_view what, bool& value) {
    object.optional(key, what).flag(value);
  };
  fact("past_reaction_to_dye", "any, ever", person.past_reaction_to_dye);
  fact("black_tattoo_reaction", "to a temporary black tattoo", person.black_tattoo_reaction);
  fact("lightener_reaction", "wheeze, hives or burn from lightener", person.lightener_reaction);
  fact("chemo_or_radiotherapy", "now or lately", person.chemo_or_radiotherapy);
  fact("skin_sensitising_medicine", "medicine that makes skin sensitive",
       person.skin_sensitising_medicine);
  fact("pregnant_or_breastfeeding", "as she says", person.pregnant_or_breastfeeding);
}

}  // namespace hw::wire

namespace hw::plan {

void describe(wire::Object& object, Reading& reading) {
  using hair::Moisture;
  static constexpr std::array kBy{Reader::eye, Reader::instrument, Reader::photo};
  static constexpr std::array<std::string_view, 3> kByWords{"eye", "instrument", "photo"};
  wire::word(object.optional("by", "who or what read it"), reading.by, kBy, kByWords);
  static constexpr std::array kState{Moisture::dry, Moisture::wiped, Moisture::wet};
  static constexpr std::array<std::string_view, 3> kStateWords{"dry", "wiped", "wet"};
  wire::word(object.optional("state", "of the hair when read"), reading.moisture, kState,
             kStateWords);
  wire::number(object.optional("level", "1 black to 10 lightest blond"), reading.level,
               {.low = 1, .high = 10});
  wire::describe_lab(object.optional("lab", "CIE Lab, D65 and 10°, of an instrument or a photo"),
                     reading.lab);
  wire::Value& covariance =
      object.optional("covariance", "of a photo's Lab, row by row, as `read` gives it");
  if (!covariance.wanted(reading.covariance.has_value())) return;
  std::vector<double> values(9);
  if (reading.covariance) values.assign(reading.covariance->begin(), reading.covariance->end());
  wire::numbers(covariance, values, {9, 9}, {.low = -2500, .high = 2500});
  values.resize(9);
  reading.covariance.emplace();
  std::copy_n(values.begin(), 9, reading.covariance->begin());
}

void describe(wire::Object& object, ZoneCase& zone) {
  static constexpr std::array kPorosity{Porosity::low, Porosity::usual, Porosity::high,
                                        Porosity::extreme};
  static constexpr std::array<std::string_view, 4> kPorosityWords{"low", "usual", "high",
                                                                  "extreme"};
  object.required("name", "such as roots, lengths, ends").text(zone.name, 100);
  object.optional("section", "round the head").text(zone.section, 100);
  wire::number(object.required("from_cm", "from the scalp, stretched"), zone.from_cm,
               {.low = 0, .high = 200, .unit = "cm"});
  wire::number(object.required("to_cm", "from the scalp, stretched"), zone.to_cm,
               {.low = 0, .high = 200, .unit = "cm"});
  wire::objects(object.required("readings", "looks at this zone"), zone.readings, {1, 20});
  wire::word(object.optional("porosity", "finger and thumb, three places"), zone.porosity,
             kPorosity, kPorosityWords);
  wire::number(object.optional("white_percent", "white strands"), zone.white_percent,
               {.low = 0, .high = 100, .unit = "%"});
  wire::number(object.optional("water_held_g_per_g", "damp hair; 0.3 is towel-dry"),
               zone.water_held_g_per_g, {.low = 0, .high = 2, .unit = "g/g"});
  object.optional("past", "colour services of this hair").object([&](wire::Object& fields) {
    wire::describe_past(fields, zone.past);
  });
  object.optional("facts", "tests and texture of this hair").object([&](wire::Object& fields) {
    wire::describe_facts(fields, zone.facts);
  });
  wire::number(object.optional("wished_level", "where it differs from the head's"),
               zone.wished_level, {.low = 1, .high = 10});
  wire::number(object.optional("lighter_levels",
                               "movement: lighter than the target by this, darker below 0"),
               zone.lighter_levels, {.low = -4, .high = 4});
}

}  // namespace hw::plan
