// The keys of `lift`, in the order in which they are printed.
#include "huewright/wire/lift.h"

#include "lift_limits.h"

namespace hw::wire {

void describe(Object& object, LiftHair& hair) {
  number(object.optional("level", "depth on the ladder, 1 black to 10 lightest blond"), hair.level,
         {.low = 1, .high = 10});
  number(object.optional("lstar", "L* of a dry tress in daylight, 10 degrees"), hair.lstar,
         {.low = 0, .high = 100});
  number(object.optional("melanin_percent", "all melanin, 5 % of it pheomelanin"),
         hair.melanin_percent,
         {.low = 0, .high = hair::kMelaninMax, .unit = "% of hair mass", .above_low = true});
  object.exactly_one({"level", "lstar", "melanin_percent"});
  number(object.required("strand_um", "diameter of the circle of equal area"), hair.strand,
         {.low = 20, .high = 180, .unit = "µm"});
  number(object.optional("opened", "factor on diffusion into the fibre, 1 for virgin hair"),
         hair.opened, {.low = 0.1, .high = 50});
}

void describe(Object& object, LiftApplication& application) {
  describe_parts(object, application.bowl);
  number(object.optional("grams_per_gram_hair", "mix on each gram of hair"),
         application.grams_per_gram_hair, {.low = 0.05, .high = 20, .unit = "g/g"});
  number(object.optional("temperature_c", "of the film"), application.temperature,
         {.low = 0, .high = 60, .unit = "°C"});
  number(object.required("minutes", "on the hair"), application.minutes,
         {.low = 0, .high = kMostMinutes, .unit = "min", .above_low = true});
  describe_on_scalp(object, application.bowl);
  object.optional("covered", "under film, foil or a cap").flag(application.covered);
  number(object.optional("water_held_g_per_g", "water in damp hair, per gram of hair"),
         application.water_held_g_per_g, {.low = 0, .high = 5, .unit = "g/g"});
}

void describe(Object& object, LiftRequest& request) {
  object.required("hair", "what the lift starts from, taken as exact").object([&](Object& inner) {
    describe(inner, request.hair);
  });
  objects(object.required("applications", "bowls one after another, each freshly mixed"),
          request.applications, {1, kMostApplications});
  number(object.optional("every_min", "between two rows"), request.every,
         {.low = 0.1, .high = kMostMinutes, .unit = "min"});
  object.optional("members", "hypotheses about the model's constants; 1 means the central ones")
      .whole(request.members, 1, kMostMembers);
  object.optional("seed", "of the draws").whole(request.seed, 0, kMostSeed);
}

void describe(Object& object, LiftRow& row) {
  constexpr std::uint64_t kAny = kMostSeed;
  object.required("application", "counted from 1").whole(row.application, 0, kAny);
  number(object.required("minute", "since the start of its application"), row.minute,
         {.unit = "min"});
  number(object.required("minute_total", "since the start of the first"), row.minute_total,
         {.unit = "min"});
  triple(object.required("lab", "[L, a, b], mean, daylight, 10 degrees"), row.lab);
  number(object.required("level", "of that mean"), row.level);
  number(object.required("level_low", "10 % quantile"), row.level_low);
  number(object.required("level_high", "90 % quantile"), row.level_high);
  number(object.required("lstar_low", "10 % quantile"), row.lstar_low);
  number(object.required("lstar_high", "90 % quantile"), row.lstar_high);
  number(object.required("wear", "share of cystine, 0 to 1"), row.wear);
  number(object.required("melanin_left", "share of starting melanin, 0 to 1"), row.melanin_left);
  number(object.required("warm", "warm residue, in parts of starting melanin"), row.warm);
}

void describe(Object& object, LiftAnswer& answer) {
  objects(object.required("series", "minute by minute"), answer.series, {0, kMostRows});
  objects(object.required("bowls", "one per application"), answer.bowls, {0, kMostApplications});
  describe_found(object, answer.found);
}

}  // namespace hw::wire
