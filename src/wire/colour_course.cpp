// How `plan` writes a course that ends in a colour.
#include <algorithm>

#include "huewright/hair/words.h"
#include "plan_writing.h"

namespace hw::wire {
namespace {

void put_colour_bowl(Object& bowl, const plan::ColourStep& step, double from_min) {
  put(bowl, "visit", "number of the visit", 1);
  put_text(bowl, "purpose", "what it is for", "deposit");
  put_list<plan::ColourItem>(bowl, "items", "in whole grams", step.items,
                             [](Object& item, const plan::ColourItem& poured) {
                               put_text(item, "product", "id on the shelf", poured.product);
                               put(item, "grams", "mass", poured.grams);
                             });
  put(bowl, "peroxide_percent", "of the ready mix", step.peroxide_percent);
  put_list<plan::ColouredZone>(
      bowl, "zones", "in the case's order", step.zones,
      [&](Object& fields, const plan::ColouredZone& zone) {
        put_text(fields, "zone", "as in the case", zone.zone);
        put(fields, "apply_at_min", "chemistry minutes", from_min);
        put(fields, "stop_at_min", "chemistry minutes", from_min + step.minutes);
        std::vector<double> none;
        numbers(fields.required("checks_at_min", "looks"), none, kAnyCount);
      });
}

void put_result(Object& object, const plan::ColouredZone& zone, const hair::Ladder& ladder) {
  put_band(object, "level", "depth", zone.level);
  put_lab(object, "lab", "the likely colour", zone.lab);
  put_lab(object, "lab_low", "mean of the members nearest the 10 % of L*", zone.lab_low);
  put_lab(object, "lab_high", "mean of the members nearest the 90 % of L*", zone.lab_high);
  put_text(object, "words", "in words", hair::sentence(hair::describe(zone.lab, ladder)));
  put(object, "expected_de00", "CIEDE2000 to the target", zone.expected_de00);
  put(object, "p_within_3", "chance of CIEDE2000 3 or less", zone.within_3);
}

}  // namespace

void put_colour_course(Object& object, const plan::ColourCourse& course,
                       const LiftPlanAnswer& answer) {
  const plan::ColourStep& step = course.colour;
  const plan::LiftOption* lift = course.lift ? &*course.lift : nullptr;
  const double lift_min = lift != nullptr ? lift->minutes : 0;
  put_text(object, "name", "the bowls in words", plan::words_of(course));
  put_text(object, "sentence", "its trade-off", plan::sentence_of(course));
  Findings found{step.refusals, step.cautions};
  if (lift != nullptr) {
    found.refusals.insert(found.refusals.end(), lift->refusals.begin(), lift->refusals.end());
    found.cautions.insert(found.cautions.end(), lift->cautions.begin(), lift->cautions.end());
  }
  bool draft = !found.refusals.empty() || !answer.plan.refusals.empty();
  object.required("draft", "something must be met or done first").flag(draft);
  put(object, "visits", "how many", 1);
  put(object, "minutes", "of chemistry, washing between not counted", lift_min + step.minutes);
  put(object, "cost_low", "of the colour poured", step.cost);
  constexpr double kWaste =
      1.25;  // over a quarter of tubes never reach a head: a supplier's article
  put(object, "cost_high", "with waste", step.cost * kWaste);
  put(object, "wear", "share of cystine, 90 % edge", course.wear_high());
  put(object, "wear_left", "before lightening stops",
      std::max(0.0, plan::kWearLimit - course.wear_high()));
  put(object, "p_within_3", "of the least likely zone", step.within_3);
  describe_found(object, found);
  const std::size_t lift_bowls = lift != nullptr && has_lift_bowl(*lift) ? 1 : 0;
  object.required("bowls", "in the order of use")
      .list(
          kAnyCount, lift_bowls + 1, [](std::size_t) {},
          [&](std::size_t i, Value& entry) {
            entry.object([&](Object& bowl) {
              if (i < lift_bowls) put_lift_bowl(bowl, {*lift, answer});
              if (i >= lift_bowls) put_colour_bowl(bowl, step, lift_min);
            });
          });
  object.required("zones", "in the case's order")
      .list(
          kAnyCount, step.zones.size(), [](std::size_t) {},
          [&](std::size_t i, Value& entry) {
            entry.object([&](Object& fields) {
              put_zone_now(fields, answer, i);
              if (lift != nullptr) put_zone_lifted(fields, {*lift, answer}, i);
              fields.required("result", "the finished colour").object([&](Object& result) {
                put_result(result, step.zones[i], answer.head.ladder);
              });
            });
          });
  put_list<plan::FadedZone>(object, "fade", "what washing leaves", step.fade,
                            [](Object& fields, const plan::FadedZone& faded) {
                              put(fields, "wash", "how many", static_cast<double>(faded.wash));
                              put_text(fields, "zone", "as in the case", faded.zone);
                              put_lab(fields, "lab", "the likely colour", faded.lab);
                              put(fields, "de00", "from wash 0", faded.de00);
                              put(fields, "de76", "from wash 0", faded.de76);
                            });
}

}  // namespace hw::wire
