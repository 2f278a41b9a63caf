#pragma once
// From what a zone's pigment was to what it is today, for drawing members and for drawing them
// anew after a check.
#include "huewright/plan/belief.h"

namespace hw::plan {

/// Where the unknown of a zone may lie, in its unit; log-uniform before any reading. Guesses with
/// room: no hair read so far lies outside.
struct Window {
  double low, high;
};
[[nodiscard]] Window whole_window(Unknown unknown);

/// Most that an opening is taken to be [1]: bleach cream, as a dye feels it; bib tate_kamath_1993.
inline constexpr double kOpenedMost = 12.6;

/// Spread between zones of one head of every rate [ln]: guess, as that between heads (HeadPriors).
inline constexpr double kZoneRateSd = 0.10;

/// ln of what past visits of the client say of a zone's unknown, up to a constant; 0 where they say
/// nothing. Never far below 0: new growth may have changed, or a zone been called otherwise.
[[nodiscard]] double log_learned(const ZoneCase& zone, Unknown unknown, double found);

/// ln of how likely the natural pigment of one untouched zone is beside that of another of the same
/// head [% of mass], up to a constant. Never far below 0: sun, or a past that nobody told.
[[nodiscard]] double log_alike(double found, double other);

/// Fills pigment, base and old dye of member m from its origin.
void set_pigment(const ZoneOrigin& origin, std::size_t m, process::LiftMembers& members);

}  // namespace hw::plan
