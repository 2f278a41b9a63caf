#pragma once
// How much warmer a film is because the scalp lies under it.
#include "huewright/base/elementary.h"

namespace hw::process {

/// Skin of a scalp in a room [°C]. Guess; 32 to 35 is what thermometers on skin usually read.
inline constexpr double kSkinCelsius = 33;
/// Distance over which that warmth falls to 1/e [cm at rest]. Guess, set by the trade's half inch:
/// at 1.27 cm 12 % of it is left, so that hot roots end about there.
inline constexpr double kWarmthReachCm = 0.6;

/// Degrees that a film near the scalp is above the room [°C, ≥ 0]: (skin − room)·e^(−x/0.6 cm).
/// resting_cm: distance from the scalp as the hair lies, not stretched, ≥ 0; below 0 counts as 0.
/// room_c: temperature of the room and so of a film far from the scalp. In a room warmer than the
/// skin the answer is 0: sweat, not the room, then sets the scalp. skin_c: of the scalp.
/// Added to Application::temperature_c through LiftMembers::warmth_c. Deterministic, same bits on
/// every machine. Source: guess; only the half inch is common practice, no source, no measurement.
/// Worked: 22 °C gives 11.0 on the scalp, 1.3 at half an inch, 0.4 at 2 cm.
[[nodiscard]] inline double scalp_warmth_c(double resting_cm, double room_c,
                                           double skin_c = kSkinCelsius) {
  const double above = skin_c > room_c ? skin_c - room_c : 0;
  const double away = resting_cm > 0 ? resting_cm : 0;
  return above * exp_portable(-away / kWarmthReachCm);
}

}  // namespace hw::process
