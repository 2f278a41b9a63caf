#include "huewright/wire/photo_request.h"

#include "huewright/wire/fields.h"

namespace hw::photo {

// An entry of a line: the list helper of fields.h finds it here.
void describe(wire::Object& object, PointShare& point) {
  wire::number(object.required("x", "share of the upright picture's width"), point.x,
               {.low = 0, .high = 1});
  wire::number(object.required("y", "share of its height, from above"), point.y,
               {.low = 0, .high = 1});
}

}  // namespace hw::photo

namespace hw::wire {

void describe(Object& object, PhotoLine& line) {
  constexpr std::size_t kDigits = 64;
  constexpr std::size_t kMostPoints = 100;  // as photo::ReadWish has it
  object.required("photo", "a kept photo, by its SHA-256")
      .formatted(line.photo, "^[0-9a-f]{64}$", [&](std::string_view given) -> Result<void> {
        if (given.size() != kDigits ||
            given.find_first_not_of("0123456789abcdef") != std::string_view::npos) {
          return fail(ErrorCode::malformed, "is no SHA-256", {}, "give 64 small hex digits");
        }
        line.photo = std::string(given);
        return {};
      });
  objects(object.required("line", "on the strand, from scalp to tip"), line.wish.line,
          {2, kMostPoints});
  number(object.optional("length_cm", "of the strand along the line, stretched"),
         line.wish.length_cm, {.low = 1, .high = 200, .unit = "cm"});
  number(object.optional("width_share", "of the strip read, of the picture's long side"),
         line.wish.width_share, {.low = 0.002, .high = 0.2});
  using photo::ChartKind;
  static constexpr std::array kKinds{ChartKind::patches_before, ChartKind::patches_after,
                                     ChartKind::grey_card};
  static constexpr std::array<std::string_view, 3> kWords{"before-2014", "after-2014", "grey"};
  Value& chart = object.optional("chart", "in the window, where the sheet says another edition");
  if (!chart.wanted(line.wish.chart.has_value())) return;
  ChartKind kind = line.wish.chart.value_or(ChartKind::patches_after);
  word(chart, kind, kKinds, kWords);
  line.wish.chart = kind;
}

void describe(Object& object, PhotoPair& pair) {
  object.required("before", "the first photo").object([&](Object& fields) {
    describe(fields, pair.before);
  });
  object.required("after", "the second photo").object([&](Object& fields) {
    describe(fields, pair.after);
  });
}

}  // namespace hw::wire
