#include <algorithm>

#include "huewright/hair/words.h"
#include "huewright/plan/amounts.h"
#include "huewright/process/rules.h"
#include "plan_writing.h"

namespace hw::wire {

void put_text(Object& object, std::string_view key, std::string_view what, std::string text) {
  constexpr std::size_t kMostText = 10000;  // bytes; answers are never longer
  object.required(key, what).text(text, kMostText);
}

void put(Object& object, std::string_view key, std::string_view what, double value) {
  number(object.required(key, what), value);
}

void put_lab(Object& object, std::string_view key, std::string_view what,
             const colour::HairLab& lab) {
  Triple values{lab.l, lab.a, lab.b};
  triple(object.required(key, what), values);
}

void put_band(Object& object, const std::string& key, const std::string& what, const Band& band) {
  put(object, key, what + ", most likely", band.mid);
  put(object, key + "_low", what + ", 10 % quantile", band.low);
  put(object, key + "_high", what + ", 90 % quantile", band.high);
}

namespace {

colour::HairLab mean_lab(const std::vector<colour::HairLab>& labs) {
  colour::HairLab mean{};
  for (const auto& lab : labs) {
    const double share = 1.0 / static_cast<double>(labs.size());
    mean = {mean.l + lab.l * share, mean.a + lab.a * share, mean.b + lab.b * share};
  }
  return mean;
}

void put_depth(Object& object, const Band& level, const colour::HairLab& lab,
               const hair::Ladder& ladder) {
  put_band(object, "level", "depth", level);
  put_lab(object, "lab", "the likely colour, D65 and 10°", lab);
  put_text(object, "words", "in words", hair::sentence(hair::describe(lab, ladder)));
}

}  // namespace

void put_zone_now(Object& object, const LiftPlanAnswer& answer, std::size_t i) {
  const plan::ZoneBelief& zone = answer.plan.zones[i];
  put_text(object, "zone", "as in the case", zone.name);
  object.required("now", "as it is today, pigmented strands").object([&](Object& now) {
    put_depth(now, band_of(zone.level_now), mean_lab(zone.pigmented), answer.head.ladder);
    put_band(now, "wear", "share of cystine used so far", band_of(zone.members.wear));
  });
  put(object, "white_percent", "white strands", zone.white_percent);
}

void put_zone_lifted(Object& object, const Course& course, std::size_t i) {
  const plan::ZoneOutcome& outcome = course.option.zones[i];
  object.required("after_lift", "at the rinse, pigmented strands").object([&](Object& then) {
    put_depth(then, outcome.level, outcome.pigmented, course.answer.head.ladder);
    put(then, "lstar_low", "as seen, 10 % quantile", outcome.lstar.low);
    put(then, "lstar_high", "as seen, 90 % quantile", outcome.lstar.high);
    put_band(then, "wear", "share of cystine used in the fibre's life", outcome.wear);
  });
  put(object, "wished_level", "asked for", outcome.wished_level);
  put(object, "p_within_half_level", "chance of ending within half a level", outcome.likelihood);
  bool reaches = outcome.reaches;
  bool there = outcome.already_there;
  object.required("reaches", "gets there within the longest time").flag(reaches);
  object.required("left_alone", "needs no lift").flag(there);
}

namespace {

/// The checks while lightener is on a zone: every five minutes from the first zone on.
std::vector<double> checks_of(const plan::LiftOption& option, const plan::ZoneOutcome& zone) {
  constexpr double kEveryMin = 5;
  std::vector<double> checks;
  for (int i = 1; i * kEveryMin < option.minutes; ++i) {
    if (i * kEveryMin > zone.start_min) checks.push_back(i * kEveryMin);
  }
  return checks;
}

void put_bowl_zone(Object& object, const plan::LiftOption& option, const plan::ZoneOutcome& zone) {
  put_text(object, "zone", "as in the case", zone.zone);
  put(object, "apply_at_min", "goes on", zone.start_min);
  put(object, "stop_at_min", "is rinsed", zone.start_min + zone.stop_min.mid);
  put(object, "stop_at_min_low", "when fast hair would be there, 10 % quantile",
      zone.start_min + zone.stop_min.low);
  put(object, "stop_at_min_high", "when slow hair would be there, 90 % quantile",
      zone.start_min + zone.stop_min.high);
  std::vector<double> checks = checks_of(option, zone);
  numbers(object.required("checks_at_min", "looks"), checks, kAnyCount);
}

}  // namespace

bool has_lift_bowl(const plan::LiftOption& option) {
  return std::any_of(option.zones.begin(), option.zones.end(),
                     [](const plan::ZoneOutcome& zone) { return !zone.already_there; });
}

void put_lift_bowl(Object& bowl, const Course& course) {
  const plan::LiftOption& option = course.option;
  const std::vector<double> grams = plan::part_grams(course.answer.head, option);
  std::vector<plan::ZoneOutcome> lifted;
  for (const auto& zone : option.zones) {
    if (!zone.already_there) lifted.push_back(zone);
  }
  std::vector<std::size_t> parts(grams.size());
  for (std::size_t i = 0; i < parts.size(); ++i) parts[i] = i;
  put(bowl, "visit", "number of the visit", 1);
  put_text(bowl, "purpose", "what it is for", "lift");
  put(bowl, "fresh_mixes", "mixed this often, in equal shares", option.applications);
  put_list<std::size_t>(bowl, "items", "in whole grams, all mixes together", parts,
                        [&](Object& item, const std::size_t& i) {
                          const plan::RecipePart& part = option.recipe.parts[i];
                          put_text(item, "product", "id on the shelf, or water",
                                   part.product.empty() ? "water" : part.product);
                          put(item, "grams", "mass", grams[i]);
                        });
  put(bowl, "peroxide_percent", "of the ready mix", option.recipe.mix.peroxide.value());
  put(bowl, "volume", "per cent × 10/3", option.recipe.mix.volume);
  put(bowl, "powder_percent", "of the ready mix", option.recipe.mix.powder.value());
  put(bowl, "longest_min", "by label and house", option.recipe.longest_min);
  put_list<plan::ZoneOutcome>(
      bowl, "zones", "in the case's order", lifted,
      [&](Object& fields, const plan::ZoneOutcome& zone) { put_bowl_zone(fields, option, zone); });
}

namespace {

void put_bowls(Object& object, const Course& course) {
  object.required("bowls", "what is mixed")
      .list(
          kAnyCount, has_lift_bowl(course.option) ? 1 : 0, [](std::size_t) {},
          [&](std::size_t, Value& entry) {
            entry.object([&](Object& bowl) { put_lift_bowl(bowl, course); });
          });
}

void put_course(Object& object, const Course& course) {
  const plan::LiftOption& option = course.option;
  Band minutes{0, option.minutes, 0};
  double wear = 0;
  for (const auto& zone : option.zones) {
    minutes.low = std::max(minutes.low, zone.stop_min.low);
    minutes.high = std::max(minutes.high, zone.stop_min.high);
    wear = std::max(wear, zone.wear.high);
  }
  put_text(object, "name", "the bowl in words", option.recipe.words);
  put_text(object, "sentence", "its trade-off", option.sentence);
  bool draft = !option.refusals.empty() || !course.answer.plan.refusals.empty();
  object.required("draft", "something must be met or done first").flag(draft);
  bool reaches = option.reaches_all();
  object.required("reaches_all", "every zone gets there").flag(reaches);
  put(object, "visits", "how many", 1);
  put(object, "minutes", "from the first zone on to the rinse", minutes.mid);
  put(object, "minutes_low", "10 % quantile", minutes.low);
  put(object, "minutes_high", "90 % quantile", minutes.high);
  put(object, "wear", "share of cystine used in the fibre's life, 90 % edge", wear);
  put(object, "wear_left", "share of cystine left before lightening stops, at that edge",
      std::max(0.0, plan::kWearLimit - wear));
  Findings found{option.refusals, option.cautions};
  describe_found(object, found);
  put_bowls(object, course);
  object.required("zones", "in the case's order")
      .list(
          kAnyCount, option.zones.size(), [](std::size_t) {},
          [&](std::size_t i, Value& entry) {
            entry.object([&](Object& fields) {
              put_zone_now(fields, course.answer, i);
              put_zone_lifted(fields, course, i);
            });
          });
}

}  // namespace

void describe(Object& object, LiftPlanAnswer& answer) {
  const plan::LiftPlan& plan = answer.plan;
  Findings found{plan.refusals, plan.cautions};
  describe_found(object, found);
  const auto put_one = [&](Object& fields, const plan::LiftOption& option) {
    put_course(fields, {option, answer});
  };
  if (answer.colours.empty()) {
    put_list<plan::LiftOption>(object, "courses", "best first", plan.options, put_one);
  } else {
    put_list<plan::ColourCourse>(object, "courses", "nearest the target first", answer.colours,
                                 [&](Object& fields, const plan::ColourCourse& course) {
                                   put_colour_course(fields, course, answer);
                                 });
  }
  put_list<plan::LiftOption>(object, "left_out", "forbidden, with why", plan.left_out, put_one);
  put_text(object, "closing", "what every plan ends with", process::closing_advice());
}

}  // namespace hw::wire
