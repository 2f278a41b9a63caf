#pragma once
// What `lift` is asked and what it answers.
#include <cstdint>
#include <optional>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/process/lift.h"
#include "huewright/wire/bowl.h"

namespace hw::wire {

/// The hair a lift starts from, taken as exact; one of the first three is given.
/// {"level" | "lstar" | "melanin_percent", "strand_um", "opened"?}
struct LiftHair {
  std::optional<double> level = {};            ///< on the ladder, 1–10
  std::optional<double> lstar = {};            ///< D65/10°
  std::optional<double> melanin_percent = {};  ///< total, of hair mass
  Micrometres strand{};                        ///< equal-area diameter, 20–180
  double opened = 1;                           ///< factor on the diffusion coefficient
};

/// {"parts", "grams_per_gram_hair"?, "temperature_c"?, "minutes", "on_scalp"?, "covered"?,
/// "water_held_g_per_g"?}
struct LiftApplication {
  process::Bowl bowl;
  double grams_per_gram_hair = process::kStandardMixPerHair;
  Celsius temperature{process::kStandardCelsius};
  Minutes minutes{};
  bool covered = false;
  double water_held_g_per_g = 0;
};

struct LiftRequest {
  LiftHair hair;
  std::vector<LiftApplication> applications;
  Minutes every{10};
  std::uint64_t members = 512;  ///< 1: the central constants
  std::uint64_t seed = 1;
};

/// One reported minute. Low and high are the 10 and 90 % quantiles over the members.
struct LiftRow {
  std::uint64_t application = 1;
  double minute = 0;        ///< since the start of its application
  double minute_total = 0;  ///< since the start of the first
  Triple lab{};             ///< mean over the members, D65/10°
  double level = 0;         ///< of that mean
  double level_low = 0;
  double level_high = 0;
  double lstar_low = 0;
  double lstar_high = 0;
  double wear = 0;          ///< mean share of cystine, 0–1
  double melanin_left = 1;  ///< mean share of the starting melanin, 0–1
  double warm = 0;          ///< mean warm residue formed, in parts of the starting melanin
};

struct LiftAnswer {
  std::vector<LiftRow> series;
  std::vector<BowlAnswer> bowls;  ///< one per application
  Findings found;
};

/// What a request comes to in the shapes that the process floor takes.
struct LiftSetup {
  process::LiftMembers members;
  std::vector<process::Application> applications;
};
/// Errors: those of answer() but for the number of rows.
[[nodiscard]] Result<LiftSetup> lift_setup(const LiftRequest& request);

/// Simulates the applications, whatever the rules refuse. Deterministic: the same answer for the
/// same request at any number of threads.
/// Errors: those of process::mix_bowl and process::exact_hair by their path; out_of_range when the
/// report would have too many rows.
[[nodiscard]] Result<LiftAnswer> answer(const LiftRequest& request, Executor& executor);

void describe(Object& object, LiftHair& hair);
void describe(Object& object, LiftApplication& application);
void describe(Object& object, LiftRequest& request);
void describe(Object& object, LiftRow& row);
void describe(Object& object, LiftAnswer& answer);

}  // namespace hw::wire
