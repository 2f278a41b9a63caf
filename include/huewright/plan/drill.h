#pragma once
// A drill for the eye: a strand of the model, of a depth and a warmth that the program knows, shown
// on a screen and read by somebody. What a reader answered tells by how much, and how steadily, her
// eye is off.
//
// Answers of one reader, answered − shown, are taken as normal with an unknown mean (offset) and an
// unknown sd (spread), under the conjugate prior, normal with inverse chi-square:
//   spread² ~ ν₀·s₀²/χ²(ν₀),  offset | spread ~ N(0, spread²/κ₀)
//   κₙ = κ₀ + n,  νₙ = ν₀ + n,  offset ~ t(νₙ) about n·m/κₙ with scale² sₙ²/κₙ,
//   νₙ·sₙ² = ν₀·s₀² + Σ(answer − m)² + κ₀·n/κₙ·m²,  m: mean of the answers
// bib: bda_2013 §3.3. A screen is no hair in daylight: what practice tells of the eye at the chair
// is told by practice_of() with a doubt of its own that no number of answers takes off.
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"
#include "huewright/plan/learn.h"

namespace hw::plan {

/// How warm the strand of a drill is: by the share of its pigment that absorbs as pheomelanin.
enum class DrillWarmth { natural, warm };
/// "natural", "warm".
[[nodiscard]] std::string_view name_of(DrillWarmth warmth);
/// Error: unknown_name (lists the words).
[[nodiscard]] Result<DrillWarmth> drill_warmth_named(std::string_view word);

/// data/plan/drill.csv: guesses, each with its reason there.
struct DrillConstants {
  double screen_sd = 0;      ///< how far an eye may be off otherwise on hair in daylight [levels]
  double spread_sd = 0;      ///< s₀: of one answer, before any [levels]
  double spread_weight = 0;  ///< ν₀ [answers]
  double offset_weight = 0;  ///< κ₀ [answers]
  double level_low = 0, level_high = 0;    ///< depths that are shown [levels]
  double strand_low = 0, strand_high = 0;  ///< strands that are shown [µm]
  /// Share of the pigment that absorbs as pheomelanin [1], by DrillWarmth.
  std::array<double, 2> warm_share{};
};
[[nodiscard]] const DrillConstants& drill_constants();

/// A strand as a drill shows it, dry.
struct DrillStrand {
  double level = 5;  ///< to a tenth
  DrillWarmth warmth = DrillWarmth::natural;
  Micrometres strand_um{70};
  colour::HairLab lab;  ///< of the model, D65/10°
};

/// The strand of a seed, below 2⁵³: every level and warmth as likely as any other. Pure function of
/// seed and ladder.
[[nodiscard]] DrillStrand drill_strand(std::uint64_t seed, const hair::Ladder& ladder);

/// One strand read.
struct DrillAnswer {
  std::string reader;
  double shown_level = 5;     ///< 1–10
  double answered_level = 5;  ///< 1–10
};

/// A depth at which a reader was tried.
struct EyeAtDepth {
  std::string_view depth;  ///< "dark" below level 4, "middle", "light" from level 7 on
  std::size_t count = 0;   ///< answers, > 0
  Band off;                ///< answered less shown [levels], as the reader's spread leaves it
};

/// What the drills tell of one reader's eye on a screen.
struct ReaderEye {
  std::string reader;
  std::size_t count = 0;             ///< answers, > 0
  double mean_off = 0;               ///< of the answers themselves [levels], above 0: read light
  Band offset;                       ///< of the eye [levels], holds 8 times in 10
  Band spread;                       ///< of one answer, 1 sd [levels], likewise
  std::vector<EyeAtDepth> by_depth;  ///< those that were tried, darkest first
  /// Whether depths differ by more than the spread makes likely: Σ count·(mean − mean_off)² over
  /// spread² exceeds the 95 % quantile of χ² with one degree less than there are depths.
  bool depth_matters = false;
};

/// Fewer answers than this are shown without a verdict; guess: below it the band of the offset is
/// wider than half a level.
inline constexpr std::size_t kFewDrills = 5;

/// The eye of one reader from all of her answers. answers: at least one, all of one reader, finite.
[[nodiscard]] ReaderEye eye_of(std::span<const DrillAnswer> answers);
/// The eyes of all readers, in the order of their first answer.
[[nodiscard]] std::vector<ReaderEye> eyes_of(std::span<const DrillAnswer> answers);

/// What an eye on a screen says beforehand of the bias at the chair: mean_off, with the doubt of
/// that mean and of the screen (screen_sd) together. So large is the latter that any number of
/// answers says less of a reader's bias than one level of hair read beside an instrument (0.58
/// levels: √(0.5² + 0.25² + 0.166²), see PairFact).
[[nodiscard]] PracticeFact practice_of(const ReaderEye& eye);

/// Quantile of Student's t [1]. p: 0–1 without its ends; degrees: ≥ 3. Within 0.003 between 5 % and
/// 95 %. Source: bib abramowitz_stegun 26.7.5.
[[nodiscard]] double student_quantile(double p, double degrees);
/// Quantile of χ² [1], likewise within 1 %. Source: bib abramowitz_stegun 26.4.17.
[[nodiscard]] double chi_square_quantile(double p, double degrees);

}  // namespace hw::plan
