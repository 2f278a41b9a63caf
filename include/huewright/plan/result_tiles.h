#pragma once
// What a course ends in, seen in three lights: for every zone the likely colour and the lighter
// and the darker end of what is believed, each computed from its spectrum and not from its Lab,
// so that a colour that turns under a lamp is seen to turn. Drawing is sheets/result_tiles_png.h.
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/colour/lab.h"
#include "huewright/colour/spectrum.h"
#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"

namespace hw::plan {

/// The lights that a result is looked at in.
struct TileLight {
  std::string words;  ///< "daylight", "warm lamp", "cool lamp"
  colour::Illuminant light = colour::Illuminant::d65;
};
inline constexpr std::size_t kTileLights = 3;
/// Daylight D65; a warm lamp, the white LED LED-B1 (2733 K); a cool lamp, the white fluorescent
/// tube FL2 (4230 K). Source of the spectra: bib cie015_2018.
[[nodiscard]] const std::array<TileLight, kTileLights>& tile_lights();

/// One tile.
struct ResultTile {
  colour::Spectrum reflectance{};  ///< 0–1
  /// By light: the colour in daylight that looks as this does under that light, to an eye that has
  /// got used to the light (full adaptation) [Lab D65/10°].
  std::array<colour::HairLab, kTileLights> seen;
};

/// The three tiles of a zone.
struct ZoneTiles {
  std::string zone;
  std::string section;
  ResultTile likely;   ///< of the course's nearest member
  ResultTile lighter;  ///< mean reflectance of the members nearest the 90 % of L*
  ResultTile darker;   ///< likewise 10 %
};

/// The tile of a reflectance. reflectance: 0–1.
[[nodiscard]] ResultTile result_tile(const colour::Spectrum& reflectance);

/// The tiles of a course, zone by zone in the order of the case. beliefs: of head.zones, with the
/// warmth at which they are planned; course: its bowls as planned. Every member goes through all
/// bowls and the washes between visits. Deterministic.
[[nodiscard]] std::vector<ZoneTiles> result_tiles(const Case& head,
                                                  std::span<const ZoneBelief> beliefs,
                                                  const Course& course, Executor& executor);

/// How a colour differs from another, in words: "as in daylight" below CIEDE2000 1, else such as
/// "2.4 off: lighter, redder". Parts of 0.7 or more in L*, a*, b* are named, else the largest.
[[nodiscard]] std::string turn_words(const colour::HairLab& daylight, const colour::HairLab& seen);

}  // namespace hw::plan
