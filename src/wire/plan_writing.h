#pragma once
// Pieces of which the answer of `plan` is written.
#include <functional>
#include <string>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/wire/plan_answer.h"

namespace hw::wire {

inline constexpr CountRule kAnyCount{0, 100000};

void put_text(Object& object, std::string_view key, std::string_view what, std::string text);
void put(Object& object, std::string_view key, std::string_view what, double value);
void put_flag(Object& object, std::string_view key, std::string_view what, bool value);
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
/// A list of sentences.
void put_sentences(Object& object, std::string_view key, std::string_view what,
                   const std::vector<std::string>& sentences);

/// A whole course.
void put_course(Object& object, const plan::Course& course, const plan::Case& head);

}  // namespace hw::wire
