#include "property/plan_heads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/base/random.h"

namespace hw::test {
namespace {

/// One stream of chance, asked again and again.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : draws_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * draws_.uniform(kStream, next_++);
  }
  bool chance(double p) { return between(0, 1) < p; }
  std::size_t pick(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(between(0, static_cast<double>(count))));
  }

 private:
  static constexpr std::uint64_t kStream = 1;
  Draws draws_;
  std::uint64_t next_ = 0;
};

process::Product product(std::string id, process::PartKind kind) {
  process::Product made;
  made.id = std::move(id);
  made.kind = kind;
  return made;
}

void add_lighteners(Dice& dice, std::vector<process::Product>& shelf) {
  if (dice.chance(0.85)) {
    auto cream = product("cream", process::PartKind::lightener);
    cream.for_scalp = true;
    cream.developer_parts = dice.chance(0.5) ? 2.0 : 1.5;
    if (dice.chance(0.7)) cream.label_max = Minutes(dice.chance(0.5) ? 45 : 35);
    if (dice.chance(0.2)) cream.stock = Grams(dice.between(5, 120));
    shelf.push_back(cream);
  }
  if (dice.chance(0.5)) {
    auto powder = product("powder", process::PartKind::lightener);
    powder.developer_parts = dice.chance(0.5) ? 2.0 : 1.0;
    powder.price_per_g = 0.08;
    shelf.push_back(powder);
  }
  if (dice.chance(0.8)) shelf.push_back(product("wash", process::PartKind::shampoo));
}

void add_developers(Dice& dice, std::vector<process::Product>& shelf) {
  for (const double percent : {1.9, 3.0, 6.0, 9.0, 12.0, 18.0}) {
    if (!dice.chance(percent > 12 ? 0.05 : 0.6)) continue;
    auto bottle = product(fmt::format("dev-{:g}", percent), process::PartKind::developer);
    bottle.peroxide = Percent(percent);
    shelf.push_back(bottle);
  }
}

void add_colours(Dice& dice, std::vector<process::Product>& shelf) {
  using enum process::DyeClass;
  const auto& tones = process::shade_tones();
  for (const process::DyeClass dye_class : {direct, cationic, demi, permanent}) {
    if (!dice.chance(dye_class == cationic ? 0.3 : 0.7)) continue;
    const std::string word = process::class_facts(dye_class).word;
    const std::size_t tubes = 1 + dice.pick(6);
    for (std::size_t i = 0; i < tubes; ++i) {
      auto tube = product(fmt::format("{}-{}", word, i), process::PartKind::colour);
      tube.dye_class = dye_class;
      tube.level = std::round(dice.between(3, 10));
      tube.tone = tones[dice.pick(tones.size())];
      tube.price_per_g = dice.between(0.02, 0.3);
      tube.name = word;
      tube.test_each_use = dice.chance(0.3);
      if (dice.chance(0.3)) tube.stock = Grams(dice.between(2, 200));
      if (dice.chance(0.2)) tube.mix_life = Minutes(dice.between(30, 60));
      shelf.push_back(tube);
    }
    if (!dice.chance(0.6)) continue;
    auto clear = product(word + "-clear", process::PartKind::colour);
    clear.dye_class = dye_class;
    clear.tone = "clear";
    shelf.push_back(clear);
  }
}

process::Person random_person(Dice& dice) {
  process::Person person;
  if (dice.chance(0.97)) person.age_years = dice.chance(0.06) ? dice.between(11, 16) : 34;
  person.consent = dice.chance(0.95)  ? process::Consent::given
                   : dice.chance(0.5) ? process::Consent::not_asked
                                      : process::Consent::refused;
  for (bool* flag : {&person.past_reaction_to_dye, &person.black_tattoo_reaction,
                     &person.lightener_reaction, &person.chemo_or_radiotherapy,
                     &person.skin_sensitising_medicine, &person.pregnant_or_breastfeeding}) {
    *flag = dice.chance(0.02);
  }
  if (dice.chance(0.06)) person.scalp = process::ScalpState::sensitive;
  if (dice.chance(0.02)) person.scalp = process::ScalpState::inflamed_or_broken;
  person.skin_test = dice.chance(0.75)  ? process::SkinTest::clear
                     : dice.chance(0.8) ? process::SkinTest::not_done
                                        : process::SkinTest::positive;
  return person;
}

process::TextureServices random_texture(Dice& dice) {
  process::TextureServices texture;
  texture.relaxed_hydroxide = dice.chance(0.06);
  texture.relaxed_other = dice.chance(0.03);
  texture.permed = dice.chance(0.03);
  texture.texturised = dice.chance(0.02);
  texture.smoothed = dice.chance(0.03);
  const bool any = texture.relaxed_hydroxide || texture.relaxed_other || texture.permed ||
                   texture.texturised || texture.smoothed;
  if (any && dice.chance(0.8)) texture.days_since_relaxer_or_smoothing = dice.between(3, 200);
  return texture;
}

process::HairFacts random_facts(Dice& dice) {
  using process::WetStretch;
  process::HairFacts facts;
  facts.texture = random_texture(dice);
  facts.metal_or_compound_henna_suspected = dice.chance(0.04);
  if (facts.metal_or_compound_henna_suspected && dice.chance(0.6)) {
    facts.incompatibility_test = dice.chance(0.7) ? process::IncompatibilityTest::clear
                                                  : process::IncompatibilityTest::positive;
  }
  if (dice.chance(0.3)) facts.strand_test = process::StrandTest::passed;
  if (dice.chance(0.02)) facts.strand_test = process::StrandTest::failed;
  facts.stretch = {WetStretch::springs_back, 5, 3};
  if (dice.chance(0.1)) facts.stretch = {WetStretch::springs_back, 2, 1};
  if (dice.chance(0.03)) facts.stretch = {WetStretch::gummy, 5, 3};
  facts.mineral_build_up = dice.chance(0.06);
  facts.thin_edges = dice.chance(0.05);
  facts.braids_just_taken_down = dice.chance(0.05);
  facts.low_elasticity = dice.chance(0.05);
  facts.lightened_on_scalp_today = dice.chance(0.01);
  if (dice.chance(0.03)) facts.lightener_minutes_today = Minutes(dice.between(5, 45));
  return facts;
}

plan::ZoneCase random_zone(Dice& dice, std::size_t i, double from_cm, double to_cm, double level) {
  plan::ZoneCase zone;
  zone.name = fmt::format("zone {}", i + 1);
  zone.from_cm = from_cm;
  zone.to_cm = to_cm;
  zone.porosity = static_cast<plan::Porosity>(dice.pick(4));
  zone.white_percent = dice.chance(0.2) ? dice.between(5, 90) : 0;
  zone.water_held_g_per_g = dice.chance(0.1) ? 0.3 : 0;
  const bool grown = i > 0 && dice.chance(0.4);
  if (grown && dice.chance(0.5)) {
    zone.past.old_colour = plan::OldColour{};
    zone.past.permanent_colours = 1 + static_cast<int>(dice.pick(4));
  } else if (grown) {
    zone.past.lightened = 1 + static_cast<int>(dice.pick(2));
    level = std::min(9.5, level + dice.between(1, 4));
  }
  zone.readings = {{plan::Reader::eye, hair::Moisture::dry, std::round(level * 2) / 2, {}}};
  zone.facts = random_facts(dice);
  return zone;
}

process::TestsRecord random_tests(Dice& dice, const plan::Case& head) {
  process::TestsRecord record;
  std::vector<process::ColourName> names;
  for (const process::Product& tube : head.shelf) {
    const bool oxidative =
        tube.dye_class == process::DyeClass::demi || tube.dye_class == process::DyeClass::permanent;
    if (oxidative && tube.tone != "clear") names.push_back({tube.name, tube.id});
  }
  if (names.empty()) names.push_back({"another", "another"});
  for (int i = 0; i < 3; ++i) {
    if (dice.chance(0.2)) continue;
    process::SkinTestRecord test;
    test.colour = names[dice.pick(names.size())];
    const double ago_h = dice.between(30, 24.0 * 120);
    test.applied = process::hours_later(*head.visit_at, -ago_h, head.visit_at->offset);
    if (dice.chance(0.9)) {
      const double after = dice.between(20, 240);
      if (after < ago_h) {
        test.read = process::hours_later(test.applied, after, head.visit_at->offset);
        test.result = dice.chance(0.97) ? process::SkinTest::clear : process::SkinTest::positive;
      }
    }
    record.skin_tests.push_back(test);
    if (test.read && dice.chance(0.5)) {
      const double since = dice.between(0, process::hours_between(*test.read, *head.visit_at));
      record.visits.push_back({process::hours_later(*head.visit_at, -since, head.visit_at->offset),
                               {names[dice.pick(names.size())]}});
    }
  }
  return record;
}

void random_wish(Dice& dice, plan::Case& head) {
  const auto& looks = plan::default_looks();
  if (dice.chance(0.15)) {
    head.wished_level = std::round(dice.between(3, 9));
    return;
  }
  head.target = *plan::look(looks[dice.pick(looks.size())].word);
  if (dice.chance(0.2)) head.zones.back().lighter_levels = dice.between(-1, 2);
}

}  // namespace

plan::Case random_head(std::uint64_t index) {
  Dice dice(1'000'000 + index);
  plan::Case head;
  head.title = fmt::format("head {}", index);
  head.seed = 1 + index;
  head.members = 64;
  head.person = random_person(dice);
  head.strand_um = dice.between(55, 95);
  head.shrinkage = dice.between(0, 0.75);
  head.hairs_per_cm2 = dice.between(120, 280);
  const double level = dice.between(1, 6);
  const std::size_t zones = 1 + dice.pick(3);
  double at = dice.chance(0.9) ? 0 : 1.5;
  for (std::size_t i = 0; i < zones; ++i) {
    const double to = at + dice.between(1.5, 12);
    head.zones.push_back(random_zone(dice, i, at, to, level));
    at = to;
  }
  add_lighteners(dice, head.shelf);
  add_developers(dice, head.shelf);
  add_colours(dice, head.shelf);
  random_wish(dice, head);
  if (dice.chance(0.4)) {
    head.visit_at = *process::moment_from_iso("2026-03-30T10:00+02:00");
    head.tests = random_tests(dice, head);
  }
  head.salon.hands = dice.chance(0.2) ? 2 : 1;
  head.salon.prices.labour_per_hour = 30;
  if (dice.chance(0.15)) head.limits.minutes = dice.between(240, 480);
  if (dice.chance(0.1)) head.limits.money = dice.between(120, 400);
  if (dice.chance(0.1)) head.limits.wear = dice.between(0.2, 0.4);
  head.limits.most_visits = 1 + static_cast<int>(dice.pick(3));
  return head;
}

}  // namespace hw::test
