#include "support/textbook.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace hw::test {
namespace {

const std::string kPractice = "common practice, no source";

/// Half a level is what an eye tells; smaller gaps are none [levels]. Common practice, no source.
constexpr double kTells = 0.5;
/// A soap cap lifts up to here [levels]: soap_cap_how_tos.
constexpr double kGentleLevels = 2;
/// Permanent colour lifts 1–2 levels with 20 volume, 2–3 with 30: exam_preparation_colouring.
constexpr double kPermanentLevels = 2, kStrongPermanentLevels = 3;
/// Highest shade there is; the shade needed is 2·wish − natural [level]: educator_posts.
constexpr double kHighestShade = 10;
/// What is kept for one visit [levels], and what lightener on the scalp lifts at most [levels].
/// Common practice, no source; session_pages advise less.
constexpr double kVisitLevels = 4, kScalpLevels = 6;
/// From level 3 or darker to platinum the same day: no. class_quizzes.
constexpr double kDark = 3, kVeryLight = 9;
/// Darker by more than this on lightened hair: fill first [levels]. filler_how_to.
constexpr double kFillLevels = 2;
/// A toner keeps the level reached, within this [levels]. formulating_for_level_reached.
constexpr double kToneLevels = 1;
/// White that demi colour blends [% of strands], home_colour_book; from where cover is what is
/// formulated for [% of strands], formulating_for_level_reached.
constexpr double kDemiWhite = 40, kSomeWhite = 25;
/// Label age of oxidative colour [years]: hair_dye_label_texts.
constexpr double kAge = 16;
/// A test is read after so many hours, and lapses after so many days: skin_test_slides.
constexpr double kReadHours = 48;
constexpr int kLapseDays = 84;
/// From a relaxer to a lightener [days]: common practice, no source.
constexpr double kRelaxerDays = 14;

double level_read(const plan::Case& head, const plan::ZoneCase& zone) {
  double sum = 0;
  for (const plan::Reading& one : zone.readings) {
    sum += one.level ? *one.level : head.ladder.level_of(one.lab->l);
  }
  return sum / static_cast<double>(zone.readings.size());
}

double level_wanted(const plan::Case& head, const plan::ZoneCase& zone) {
  const auto target = plan::target_of(head, zone);
  return target ? head.ladder.level_of(target->centre.l) : plan::wished_level_of(head, zone);
}

bool stretch_failed(const plan::ZoneCase& zone) {
  using process::WetStretch;
  const WetStretch worst = zone.facts.stretch.worst;
  return worst == WetStretch::gummy || worst == WetStretch::snaps ||
         worst == WetStretch::stays_stretched;
}

/// A clear test of a shade of the shelf, read in time, with no gap of twelve weeks since.
bool test_counts(const plan::Case& head) {
  if (!head.tests) return head.person.skin_test == process::SkinTest::clear;
  if (!head.visit_at) return false;
  const auto visit = process::local_date(*head.visit_at);
  for (const process::SkinTestRecord& test : head.tests->skin_tests) {
    if (test.result != process::SkinTest::clear || !test.read) continue;
    if (process::hours_between(test.applied, *test.read) < kReadHours) continue;
    auto last = process::local_date(*test.read);
    for (const process::ColourVisit& one : head.tests->visits) {
      const auto day = process::local_date(one.when);
      if (process::days_between(last, day) > 0) last = day;
    }
    if (process::days_between(last, visit) <= kLapseDays) return true;
  }
  return false;
}

void bar_person(const plan::Case& head, std::vector<TextBar>& bars) {
  const process::Person& who = head.person;
  const std::string label = "hair_dye_label_texts", unit = "contra_indications_unit";
  const auto bar = [&](bool holds, Barred what, std::string words, const std::string& source) {
    if (holds) bars.push_back({what, true, "", {std::move(words), source}});
  };
  bar(who.consent == process::Consent::refused, Barred::everything, "no consent, no service",
      kPractice);
  bar(who.chemo_or_radiotherapy || who.skin_sensitising_medicine, Barred::everything,
      "treatment or medicine rules it out", unit);
  bar(who.scalp == process::ScalpState::inflamed_or_broken, Barred::everything,
      "the scalp must heal first", label);
  bar(who.age_years && *who.age_years < kAge, Barred::oxidative_colour, "under 16", label);
  bar(who.age_years && *who.age_years < kAge, Barred::scalp_lightener, "under 16", kPractice);
  bar(who.black_tattoo_reaction, Barred::oxidative_colour, "reacted to a black tattoo", label);
  bar(who.past_reaction_to_dye, Barred::oxidative_colour, "reacted to hair dye", label);
  bar(who.skin_test == process::SkinTest::positive, Barred::oxidative_colour,
      "the skin test showed a reaction", unit);
  bar(who.lightener_reaction, Barred::lightener, "reacted to lightener", unit);
}

void bar_hair(const plan::Case& head, std::vector<TextBar>& bars) {
  for (const plan::ZoneCase& zone : head.zones) {
    const process::HairFacts& hair = zone.facts;
    const process::TextureServices& shape = hair.texture;
    if (stretch_failed(zone)) {
      bars.push_back({Barred::peroxide_on_zone,
                      true,
                      zone.name,
                      {zone.name + ": wet stretch failed", "texas_elasticity_module"}});
    }
    const bool untested = hair.incompatibility_test == process::IncompatibilityTest::not_done;
    if (hair.metal_or_compound_henna_suspected && untested) {
      bars.push_back({Barred::everything,
                      false,
                      "",
                      {"metal salts or henna: test a strand first", "metal_salt_test_pages"}});
    }
    const bool shaped = shape.relaxed_hydroxide || shape.relaxed_other || shape.permed ||
                        shape.texturised || shape.smoothed;
    if (shaped && hair.strand_test == process::StrandTest::none) {
      bars.push_back({Barred::lightener,
                      false,
                      "",
                      {zone.name + " relaxed: strand test first", "contra_indications_unit"}});
    }
    if (shaped && shape.days_since_relaxer_or_smoothing.value_or(kRelaxerDays) < kRelaxerDays) {
      bars.push_back({Barred::lightener, true, "", {"relaxed within two weeks", kPractice}});
    }
  }
}

/// A step as a value of its own, so that its words are made once.
TextStep step(std::string_view words, std::string_view source) {
  return {std::string(words), std::string(source)};
}

struct ZoneRule {
  TextZone zone;
  std::vector<Method> also;
};

/// Equal or darker, or lighter by less than an eye tells.
ZoneRule darker(TextZone zone, const plan::ZoneCase& facts) {
  const double gap = zone.wanted - zone.level;
  const bool lightened = facts.past.lightened > 0;
  zone.fill = lightened && gap < -kFillLevels;
  if (facts.white_percent > kDemiWhite) {
    zone.method = Method::permanent;
    return {zone, {}};
  }
  if (lightened && std::abs(gap) <= kToneLevels) {
    zone.method = Method::gloss;
    return {zone, {Method::deposit}};
  }
  zone.method = Method::deposit;
  return {zone, {Method::gloss, Method::permanent}};
}

ZoneRule lighter(TextZone zone, const plan::ZoneCase& facts, bool colour_wished) {
  const double gap = zone.wanted - zone.level;
  const bool untouched =
      facts.past.lightened == 0 && !facts.past.old_colour && facts.past.permanent_colours == 0;
  const bool shade_exists = 2 * zone.wanted - zone.level <= kHighestShade;
  const bool colour_can = colour_wished && untouched && shade_exists;
  if (facts.facts.texture.relaxed_hydroxide) {
    zone.method = Method::gentle_lift;
    return {zone, {}};
  }
  const double by_colour =
      facts.white_percent > kSomeWhite ? kStrongPermanentLevels : kPermanentLevels;
  if (colour_can && gap <= by_colour) {
    zone.method = Method::permanent;
    return {zone, {Method::gentle_lift}};
  }
  if (gap <= kGentleLevels) {
    zone.method = Method::gentle_lift;
    return {zone, {}};
  }
  const bool far = zone.level <= kDark && zone.wanted >= kVeryLight;
  if (gap > kVisitLevels || far) {
    zone.method = Method::several_visits;
    if (far || gap > kScalpLevels) return {zone, {}};
    return {zone, {Method::lighten}};
  }
  zone.method = Method::lighten;
  if (gap > kStrongPermanentLevels) return {zone, {}};
  ZoneRule rule{zone, {Method::gentle_lift}};
  if (colour_can) rule.also.push_back(Method::permanent);
  return rule;
}

ZoneRule rule_of(const plan::Case& head, const plan::ZoneCase& facts, const TextbookAnswer& book) {
  TextZone zone{facts.name, level_read(head, facts), level_wanted(head, facts)};
  if (book.barred(Barred::everything)) return {zone, {}};
  if (stretch_failed(facts)) return {zone, {Method::gloss, Method::deposit}};
  const bool colour = plan::target_of(head, facts).has_value();
  if (zone.wanted - zone.level <= kTells) {
    return colour ? darker(zone, facts) : ZoneRule{zone, {}};
  }
  ZoneRule rule = lighter(zone, facts, colour);
  const bool scalp = facts.from_cm <= 0;
  const bool no_lift =
      book.barred(Barred::lightener) || (scalp && book.barred(Barred::scalp_lightener));
  if (no_lift) {
    rule.zone.method = Method::deposit;
    rule.also = {Method::nothing};
  } else if (rule.zone.method == Method::permanent && book.barred(Barred::oxidative_colour)) {
    rule.zone.method = Method::gentle_lift;
    rule.also = {Method::deposit};
  }
  return rule;
}

void teach_lift(const plan::Case& head, TextbookAnswer& book) {
  bool old = false, virgin = true;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (book.zones[i].method < Method::gentle_lift) continue;
    const plan::ZonePast& past = head.zones[i].past;
    old = old || past.old_colour.has_value() || past.permanent_colours > 0;
    if (head.zones[i].from_cm <= 0) virgin = virgin && past.lightened == 0 && !past.old_colour;
  }
  if (old) {
    book.steps.push_back(step("colour does not lift colour: remove it or lighten first",
                              "stylists_colour_on_colour"));
  }
  // 10 to 20 volume for either: soap_cap_how_tos; 20 as the upper limit on the scalp is common
  // practice, no source.
  book.developer_low = 3, book.developer_high = 6;
  switch (book.method) {
    case Method::gentle_lift:
      book.lift_minutes = {5, 30, "soap_cap_how_tos"};
      book.steps.push_back(step("soap cap with 10 to 20 volume, look after 10 min, then every 5",
                                "soap_cap_how_tos"));
      break;
    case Method::lighten:
      book.lift_minutes = {15, 45, "lightener_maker_help"};
      book.steps.push_back(
          step("lightener, 10 to 20 volume on the scalp, look every 5 min, at most 45",
               "lightener_maker_help"));
      break;
    default:
      book.lift_minutes = {15, 45, "lightener_maker_help"};
      book.steps.push_back(
          step("lighten over two to five visits, at most 45 min in each", "session_pages"));
  }
  book.roots_later = virgin && head.zones.size() > 1;
  if (book.roots_later) {
    book.steps.push_back(step("roots about 20 min after the lengths", "hot_roots_page"));
  }
}

void teach_colour(const plan::Case& head, TextbookAnswer& book) {
  const bool fill = std::any_of(book.zones.begin(), book.zones.end(),
                                [](const TextZone& zone) { return zone.fill; });
  if (fill) {
    book.steps.push_back(
        step("filler, gold or red with 5 to 10 volume, 10 to 15 min, wiped", "filler_how_to"));
  }
  if (!head.target) return;
  if (book.barred(Barred::oxidative_colour)) {
    book.colour_minutes = {20, 30, "colour_times_pages"};
    book.steps.push_back(step("direct colour alone, 20 to 30 min", "colour_times_pages"));
  } else if (book.method == Method::permanent) {
    const auto& zone = *std::max_element(book.zones.begin(), book.zones.end(),
                                         [](const TextZone& a, const TextZone& b) {
                                           return a.wanted - a.level < b.wanted - b.level;
                                         });
    const double shade = std::max(zone.wanted, 2 * zone.wanted - zone.level);
    // 20 volume as the standard, 30 for two to three levels: exam_preparation_colouring.
    book.developer_low = 6, book.developer_high = 9;
    book.colour_minutes = {30, 45, "colour_times_pages"};
    book.steps.push_back(
        step(fmt::format("permanent colour of level {:.1f}, 20 volume, 30 to 45 min", shade),
             "educator_posts"));
  } else if (book.method == Method::gloss) {
    book.colour_minutes = {5, 20, "colour_times_pages"};
    book.steps.push_back(
        step("toner at the level reached, up to 15 min", "formulating_for_level_reached"));
  } else if (book.method > Method::permanent) {
    book.colour_minutes = {5, 25, "colour_times_pages"};
    book.steps.push_back(step("demi colour or toner at the level reached, up to 25 min",
                              "formulating_for_level_reached"));
  } else if (book.method == Method::deposit) {
    book.colour_minutes = {20, 30, "colour_times_pages"};
    book.steps.push_back(step("demi colour with 10 volume, 20 to 25 min", "colour_times_pages"));
  }
}

}  // namespace

std::string_view words_of(Method method) {
  switch (method) {
    case Method::nothing:
      return "nothing";
    case Method::gloss:
      return "toner or gloss";
    case Method::deposit:
      return "demi or direct colour, no lift";
    case Method::permanent:
      return "permanent colour alone";
    case Method::gentle_lift:
      return "soap cap or shampoo lift";
    case Method::lighten:
      return "lightener";
    case Method::several_visits:
      return "several visits";
  }
  return "";
}

bool TextbookAnswer::allows(Method way) const {
  return way == method || std::find(also.begin(), also.end(), way) != also.end();
}

bool TextbookAnswer::barred(Barred what) const {
  return std::any_of(bars.begin(), bars.end(), [&](const TextBar& bar) {
    return bar.never && (bar.what == what || bar.what == Barred::everything);
  });
}

TextbookAnswer textbook(const plan::Case& head) {
  TextbookAnswer book;
  bar_person(head, book.bars);
  bar_hair(head, book.bars);
  std::vector<ZoneRule> rules;
  for (const plan::ZoneCase& zone : head.zones) {
    rules.push_back(rule_of(head, zone, book));
    book.zones.push_back(rules.back().zone);
    book.method = std::max(book.method, rules.back().zone.method);
  }
  for (const ZoneRule& rule : rules) {
    if (rule.zone.method != book.method) continue;
    book.also.insert(book.also.end(), rule.also.begin(), rule.also.end());
  }
  if (book.barred(Barred::everything)) return book;
  const bool oxidative = head.target && !book.barred(Barred::oxidative_colour);
  if (oxidative && !test_counts(head)) {
    book.bars.push_back(
        {Barred::oxidative_colour,
         false,
         "",
         {"skin test first, read after 48 h, within 12 weeks", "skin_test_slides"}});
  }
  if (book.method >= Method::gentle_lift) teach_lift(head, book);
  teach_colour(head, book);
  return book;
}

}  // namespace hw::test
