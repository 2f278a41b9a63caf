#pragma once
// Pieces of which the answer of `plan` is written.
#include <functional>
#include <string>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/wire/lift_plan.h"

namespace hw::wire {

inline constexpr CountRule kAnyCount{0, 100000};

void put_text(Object& object, std::string_view key, std::string_view what, std::string text);
void put(Object& object, std::string_view key, std::string_view what, double value);
void put_lab(Object& object, std::string_view key, std::string_view what,
             const colour::HairLab& lab);
/// key, key_low and key_high.
void put_band(Object& object, const std::string& key, const std::string& what, const Band& band);

/// A list of entries written one by one.
template <class Item>
void put_list(Object& object, std::string_view key, std::string_view what,
              const std::vector<Item>& items,
              const std::function<void(Object&, const Item&)>& put_item) {
  object.required(key, what).list(
      kAnyCount, items.size(), [](std::size_t) {},
      [&](std::size_t i, Value& entry) {
        entry.object([&](Object& fields) { put_item(fields, items[i]); });
      });
}

/// One lift as it is written, with the head it is for.
struct Course {
  const plan::LiftOption& option;
  const LiftPlanAnswer& answer;
};

/// The lift bowl of a course; empty() when every zone is left alone.
[[nodiscard]] bool has_lift_bowl(const plan::LiftOption& option);
void put_lift_bowl(Object& bowl, const Course& course);
/// Zone, now, white share: what every course says first of a zone.
void put_zone_now(Object& object, const LiftPlanAnswer& answer, std::size_t zone);
/// after_lift and what was asked for.
void put_zone_lifted(Object& object, const Course& course, std::size_t zone);
/// A whole course with colour.
void put_colour_course(Object& object, const plan::ColourCourse& course,
                       const LiftPlanAnswer& answer);

}  // namespace hw::wire
