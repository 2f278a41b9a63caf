#pragma once
// What `deposit` is asked and what it answers.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/process/deposit.h"
#include "huewright/wire/bowl.h"

namespace hw::wire {

/// The hair a colour goes on, taken as exact; one of the first four is given.
/// {"level" | "lstar" | "melanin_percent" | "lab", "strand_um", "opened"?, "wear"?,
/// "white_percent"?}
struct DepositHair {
  std::optional<double> level = {};            ///< natural hair, on the ladder, 1–10
  std::optional<double> lstar = {};            ///< natural hair, D65/10°
  std::optional<double> melanin_percent = {};  ///< total, of hair mass
  std::optional<Triple> lab = {};              ///< any hair, lifted or coloured, D65/10°
  Micrometres strand{};                        ///< equal-area diameter, 20–180
  double opened = 1;                           ///< factor on peroxide diffusion, as in `lift`
  double wear = 0;                             ///< share of cystine used, 0–0.45
  double white_percent = 0;                    ///< of strands
};

/// A swatch of a shade. {"lab", "base_lab"?, "ingredients"?}
struct SwatchGiven {
  Triple lab{};                          ///< of the swatch, D65/10°
  std::optional<Triple> base_lab = {};   ///< of its hair before; white hair when absent
  std::vector<std::string> ingredients;  ///< as the label lists them
};

/// A shade in the bowl. {"grams", "level"?, "tone"?, "swatch"?, "words"?}
struct ColourGiven {
  double grams = 0;
  std::optional<double> level = {};  ///< depth on white hair, 1–10
  std::string tone = "neutral";      ///< a word of process::shade_tones(), or "clear"
  std::optional<SwatchGiven> swatch = {};
  std::string words;  ///< as printed on the tube; free text, never parsed
};

/// {"grams", "peroxide_percent"}
struct DeveloperGiven {
  double grams = 0;
  double peroxide_percent = 0;
};

struct DepositRequest {
  DepositHair hair;
  process::DyeClass dye_class = process::DyeClass::permanent;
  std::vector<ColourGiven> colours;
  std::optional<DeveloperGiven> developer = {};
  std::optional<double> label_parts = {};  ///< maker's parts of developer to one of colour
  std::optional<double> label_min = {};    ///< processing time on the label
  Minutes minutes{};
  Celsius temperature{process::kStandardCelsius};
  double grams_per_gram_hair = 1.5;
  double water_held_g_per_g = 0;
  bool clean = true;  ///< free of product and oil
  bool on_scalp = false;
  Minutes every{5};
  std::uint64_t members = 512;  ///< 1: the most likely constants and strengths
  std::uint64_t seed = 1;
};

/// One reported minute: the hair as it would be if it were rinsed then. Low and high are the 10 and
/// 90 % quantiles; their colours the means of the members nearest them in L*.
struct DepositRow {
  double minute = 0;
  Triple lab{};  ///< mean over the members, D65/10°
  Triple lab_low{};
  Triple lab_high{};
  double level = 0;  ///< of that mean
  double level_low = 0;
  double level_high = 0;
  double taken = 0;  ///< mean share of a full reference application
  double wear = 0;   ///< mean share of cystine, 0–1
  std::string words;
};

struct DepositAnswer {
  std::vector<DepositRow> series;
  BowlAnswer bowl;
  Findings found;
};

/// Simulates one colour bowl on one zone, whatever the rules refuse. Deterministic: the same answer
/// for the same request at any number of threads.
/// Errors, by their path: those of process::mix_bowl, exact_hair, canvas_guess and
/// shade_from_swatch; oxidative colour without developer, direct colour with it; a shade without
/// level and swatch, or with both; too many rows.
[[nodiscard]] Result<DepositAnswer> answer(const DepositRequest& request, Executor& executor);

void describe(Object& object, DepositHair& hair);
void describe(Object& object, SwatchGiven& swatch);
void describe(Object& object, ColourGiven& colour);
void describe(Object& object, DeveloperGiven& developer);
void describe(Object& object, DepositRequest& request);
void describe(Object& object, DepositRow& row);
void describe(Object& object, DepositAnswer& answer);

}  // namespace hw::wire
