#pragma once
// What is wished for: a colour with the room that the way of saying it leaves. A trade word means
// a wide patch of colours, a swatch a small one, and a photo hardly anything: it is read in unknown
// light, so it is a patch to choose a swatch from and never a number.
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"

namespace hw::plan {

enum class TargetSource { look, colour, swatch, photo, last_time };

struct Target {
  colour::HairLab centre;     ///< D65/10°
  double sd_l = 1;            ///< L*, > 0
  double sd_a = 1, sd_b = 1;  ///< > 0
  std::string words;          ///< what was said, or words for the colour
  TargetSource source = TargetSource::colour;
  std::string note;  ///< what to settle with the client first, or empty
  [[nodiscard]] bool exact() const { return source != TargetSource::photo; }
};

/// One word of the trade and the patch of colours it is used for.
struct Look {
  std::string word;
  double level = 5;     ///< 1–10
  double sd_level = 1;  ///< > 0
  double a = 0, b = 0;  ///< D65/10°
  double sd_a = 1, sd_b = 1;
  std::string note, grade, source;
};

/// The words of data/plan/looks.csv: own definitions, guesses all of them.
[[nodiscard]] const std::vector<Look>& default_looks();

/// A salon's own list, as the columns word, level, sd_level, a, sd_a, b, sd_b, note, grade, source.
/// Errors: a column that lacks, a level outside 1–10, an sd not above 0, a word twice (names line).
[[nodiscard]] Result<std::vector<Look>> parse_looks(std::string_view csv, std::string name);

/// The target of a word, in any case, with or without blanks at its ends. Error: a word that the
/// list does not hold (the hint names the nearest ones). Worked: look("mahogany") lies at level 4.
[[nodiscard]] Result<Target> look(std::string_view word,
                                  const hair::Ladder& ladder = hair::default_ladder(),
                                  std::span<const Look> looks = default_looks());

/// A colour given as numbers. Spread: ΔE00 of about 1 is what readings of one tress repeat to.
[[nodiscard]] Result<Target> target_colour(const colour::HairLab& lab);
/// A swatch of hair read by an instrument. Spread: a moved tress, bib: scanavez_2000 Table III
/// (1.19, 0.33, 0.42).
[[nodiscard]] Result<Target> target_swatch(const colour::HairLab& lab);
/// As it came out last time: the recorded colour, spread as a swatch.
[[nodiscard]] Result<Target> target_last_time(const colour::HairLab& lab);
/// A colour picked from a photo in unknown light. Photos read L* +33.42, a* +3.38, b* +8.00 above a
/// contact instrument with r 0.5 to 0.6 (bib: vaughn_2009); that bias is taken off, and what is
/// left is a patch of ±12 L* (guess). exact() is false. photo: L* 0–100.
[[nodiscard]] Result<Target> target_photo(const colour::HairLab& photo);

/// The same wish `levels` lighter (or darker, below 0): movement along the strand. a* and b* stay.
[[nodiscard]] Target lighter(const Target& target, double levels,
                             const hair::Ladder& ladder = hair::default_ladder());

/// A colour of the patch and its share of it.
struct TargetPoint {
  colour::HairLab lab;
  double weight = 0;
};
inline constexpr std::size_t kTargetPoints = 27;
/// The patch as 27 weighted colours: three-point Gauss–Hermite in each of L*, a*, b*, exact for
/// polynomials up to degree 5 of a normal spread.
[[nodiscard]] std::array<TargetPoint, kTargetPoints> target_points(const Target& target);

/// CIEDE2000 to the wish expected over what the wish may mean [ΔE00]. Never below the mean distance
/// within the patch; compare colours by it, never call its size a miss.
[[nodiscard]] double expected_de00(const colour::HairLab& got, const Target& target);

/// How far a colour lies from the middle of the patch, in its sds [1]: below about 2 the word fits.
[[nodiscard]] double sds_off(const colour::HairLab& got, const Target& target);

}  // namespace hw::plan
