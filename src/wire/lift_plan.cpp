#include "huewright/wire/lift_plan.h"

#include "huewright/base/statistics.h"
#include "huewright/hair/words.h"
#include "huewright/process/rules.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMostText = 10000;
constexpr CountRule kAny{0, 100000};

void put_text(Object& object, std::string_view key, std::string_view what, std::string text) {
  object.required(key, what).text(text, kMostText);
}

void put(Object& object, std::string_view key, std::string_view what, double value) {
  number(object.required(key, what), value);
}

void put_lab(Object& object, const colour::HairLab& lab) {
  Triple values{lab.l, lab.a, lab.b};
  triple(object.required("lab", "the likely colour, D65 and 10°"), values);
}

void put_band(Object& object, const std::string& name, const std::string& what, const Band& band) {
  put(object, name, what + ", most likely", band.mid);
  put(object, name + "_low", what + ", 10 % quantile", band.low);
  put(object, name + "_high", what + ", 90 % quantile", band.high);
}

/// A list of entries written one by one.
template <class Item>
void put_list(Object& object, std::string_view key, std::string_view what,
              const std::vector<Item>& items, const std::function<void(Object&, const Item&)>& put) {
  object.required(key, what).list(
      kAny, items.size(), [](std::size_t) {},
      [&](std::size_t i, Value& entry) {
        entry.object([&](Object& fields) { put(fields, items[i]); });
      });
}

colour::HairLab mean_lab(const std::vector<colour::HairLab>& labs) {
  colour::HairLab mean{};
  for (const auto& lab : labs) {
    const double share = 1.0 / static_cast<double>(labs.size());
    mean = {mean.l + lab.l * share, mean.a + lab.a * share, mean.b + lab.b * share};
  }
  return mean;
}

void put_zone_now(Object& object, const plan::ZoneBelief& zone, const hair::Ladder& ladder) {
  const colour::HairLab lab = mean_lab(zone.now);
  put_text(object, "name", "as in the case", zone.name);
  put_lab(object, lab);
  put_band(object, "level", "depth today", band_of(zone.level_now));
  put_text(object, "words", "the pigmented strands in words",
           hair::sentence(hair::describe(mean_lab(zone.pigmented), ladder)));
  put(object, "white_percent", "white strands", zone.white_percent);
  put_band(object, "wear", "share of cystine used so far", band_of(zone.members.wear));
}

void put_part(Object& object, const plan::RecipePart& part) {
  put_text(object, "kind", "what it is", std::string(process::name_of(part.kind)));
  put_text(object, "product", "id on the shelf", part.product);
  put(object, "parts", "by mass", part.parts);
}

void put_outcome(Object& object, const plan::ZoneOutcome& zone, const hair::Ladder& ladder) {
  put_text(object, "name", "as in the case", zone.zone);
  put(object, "wished_level", "asked for", zone.wished_level);
  bool reaches = zone.reaches;
  bool there = zone.already_there;
  object.required("reaches", "gets there within the longest time").flag(reaches);
  object.required("already_there", "needs no lift").flag(there);
  put(object, "start_min", "goes on this long after the first zone", zone.start_min);
  put_band(object, "stop_min", "minutes on this zone", zone.stop_min);
  put_lab(object, zone.lab);
  put_band(object, "level", "depth at the stop", zone.level);
  put(object, "lstar_low", "10 % quantile", zone.lstar.low);
  put(object, "lstar_high", "90 % quantile", zone.lstar.high);
  put_text(object, "words", "the pigmented strands in words",
           hair::sentence(hair::describe(zone.pigmented, ladder)));
  put(object, "likelihood", "of ending within half a level", zone.likelihood);
  put_band(object, "wear", "share of cystine used in the fibre's life", zone.wear);
}

void put_option(Object& object, const plan::LiftOption& option, const hair::Ladder& ladder) {
  put_text(object, "recipe", "in words", option.recipe.words);
  put_list<plan::RecipePart>(object, "parts", "of the bowl", option.recipe.parts, put_part);
  put(object, "peroxide_percent", "of the ready mix", option.recipe.mix.peroxide.value());
  put(object, "volume", "per cent × 10/3", option.recipe.mix.volume);
  put(object, "powder_percent", "of the ready mix", option.recipe.mix.powder.value());
  put(object, "applications", "2: fresh mix at half time", option.applications);
  put(object, "minutes", "from the first zone on to the rinse", option.minutes);
  put(object, "longest_min", "by label and house", option.recipe.longest_min);
  bool reaches = option.reaches_all();
  object.required("reaches_all", "every zone gets there").flag(reaches);
  put_text(object, "sentence", "its trade-off", option.sentence);
  Findings found{option.refusals, option.cautions};
  describe_found(object, found);
  put_list<plan::ZoneOutcome>(object, "zones", "at the minute to stop", option.zones,
                              [&](Object& fields, const plan::ZoneOutcome& zone) {
                                put_outcome(fields, zone, ladder);
                              });
}

}  // namespace

void describe(Object& object, LiftPlanAnswer& answer) {
  const plan::LiftPlan& plan = answer.plan;
  Findings found{plan.refusals, plan.cautions};
  describe_found(object, found);
  put(object, "wished_level", "asked for", answer.wished_level);
  put_list<plan::ZoneBelief>(object, "zones", "as they are today", plan.zones,
                             [&](Object& fields, const plan::ZoneBelief& zone) {
                               put_zone_now(fields, zone, answer.ladder);
                             });
  const auto option = [&](Object& fields, const plan::LiftOption& one) {
    put_option(fields, one, answer.ladder);
  };
  put_list<plan::LiftOption>(object, "options", "best first", plan.options, option);
  put_list<plan::LiftOption>(object, "left_out", "forbidden, with why", plan.left_out, option);
  put_text(object, "closing", "what every plan ends with", process::closing_advice());
}

}  // namespace hw::wire
