// The keys of `fade`.
#include "huewright/wire/fade.h"

namespace hw::wire {
namespace {

constexpr std::uint64_t kMostWashes = 1000;

void describe_lab(Object& object, GivenLab& given) {
  triple(object.required("lab", "[L, a, b], daylight, 10 degrees"), given.lab,
         {.low = 0, .high = 100}, {.low = -128, .high = 128});
}

}  // namespace

void describe_wash(Object& object, process::WashHabit& wash) {
  number(object.optional("temperature_c", "of the water"), wash.temperature_c,
         {.low = 5, .high = 60, .unit = "°C"});
  number(object.optional("ph", "of the shampoo"), wash.ph, {.low = 2, .high = 12});
  object.optional("hard", "hard water").flag(wash.hard);
}

void describe(Object& object, FadeRequest& request) {
  using enum process::DyeClass;
  using enum process::DyeFamily;
  using enum process::HairState;
  object.required("start", "the finished colour").object([&](Object& fields) {
    describe_lab(fields, request.start);
  });
  Value& canvas = object.optional("canvas", "the hair beneath; by `hair` when it is not given");
  if (canvas.wanted(request.canvas.has_value())) {
    GivenLab given = request.canvas.value_or(GivenLab{});
    canvas.object([&](Object& fields) { describe_lab(fields, given); });
    request.canvas = given;
  }
  static constexpr std::array kClasses{direct, cationic, demi, permanent};
  static constexpr std::array<std::string_view, 4> kClassWords{"direct", "cationic", "demi",
                                                               "permanent"};
  word(object.required("class", "how the colour holds"), request.dye_class, kClasses, kClassWords);
  static constexpr std::array kFamilies{red, copper, brown, violet, blue, yellow};
  static constexpr std::array<std::string_view, 6> kFamilyWords{"red",    "copper", "brown",
                                                                "violet", "blue",   "yellow"};
  word(object.required("family", "which fades alike"), request.family, kFamilies, kFamilyWords);
  static constexpr std::array kHair{virgin, white, bleached};
  static constexpr std::array<std::string_view, 3> kHairWords{"virgin", "white", "bleached"};
  word(object.required("hair", "what was coloured"), request.hair, kHair, kHairWords);
  object.required("washes", "rows from 0 to this many").whole(request.washes, 0, kMostWashes);
  number(object.optional("light_h", "hours of light in all, spread evenly"), request.light_h,
         {.low = 0, .high = 100000, .unit = "h at 0.35 W/m²/nm at 340 nm"});
  object.optional("wash", "the same every time").object([&](Object& fields) {
    describe_wash(fields, request.wash);
  });
}

void describe(Object& object, FadeRow& row) {
  object.required("wash", "how many").whole(row.wash, 0, kMostWashes);
  number(object.required("dye_left", "share, median"), row.dye_left);
  number(object.required("dye_left_low", "10 % quantile"), row.dye_left_low);
  number(object.required("dye_left_high", "90 % quantile"), row.dye_left_high);
  triple(object.required("lab", "[L, a, b], daylight, 10 degrees"), row.lab);
  number(object.required("de00", "CIEDE2000 from wash 0"), row.de00);
  number(object.required("de76", "CIE76 from wash 0"), row.de76);
}

void describe(Object& object, FadeAnswer& answer) {
  objects(object.required("series", "wash by wash"), answer.series, {0, kMostWashes + 1});
}

}  // namespace hw::wire
