#pragma once
// Water in hair and how long a hood takes to drive it out.
// Free water evaporates at the pace at which heat arrives:
//   t = m·(w − w_c)·L / (G·(T_air − T_wet))
// Below the critical water w_c the pace falls in a straight line to nothing at w_eq:
//   t = m·(w_c − w_eq)·L / (G·(T_air − T_wet)) · ln((w_c − w_eq) / (w_end − w_eq))
// m dry hair [g], w water [g/g], L heat of evaporation, G conductance of the hair [W/K].
// G is a guess (no measured hood rate was found), so minutes come as a band, and a salon's own
// clock should replace them. Constants: data/process/drying.csv.
#include <string_view>

#include "huewright/base/result.h"
#include "huewright/base/statistics.h"

namespace hw::process {

/// How wet hair is, as the trade names it.
enum class Wetness { dripping, towel_dry, damp, room_dry };

/// "dripping", "towel-dry", "damp" or "room-dry".
[[nodiscard]] std::string_view name_of(Wetness wetness);

/// Water held [g water per g dry hair]. opened: factor on the diffusion of peroxide that past
/// services left, ≥ 1 (1 untouched, 1.9 once lightened); free water grows by up to a fifth with it
/// (guess, full from 1.9 on). Damp is where hair is twisted: 75 % of the water above room-dry gone.
/// Source: data/process/drying.csv. Worked: towel-dry untouched 0.6 (0.5 to 0.7).
[[nodiscard]] Band water_held(Wetness wetness, double opened = 1);

/// The part of it that lies free between the fibres and thins a mix [g/g]: what is above bound
/// water of 0.31. water_g_per_g ≥ 0. Worked: 0.6 gives 0.29.
[[nodiscard]] double free_water(double water_g_per_g);

/// A head under a hood.
struct HoodTask {
  double hair_g = 100;        ///< dry, > 0 to 1000
  Band water{0.5, 0.6, 0.7};  ///< held at the start [g/g]
  double leave_in_g = 0;      ///< styling products put on, ≥ 0
  double foam_g = 0;
  double air_c = 50;        ///< of the hood, 35–65
  bool twisted = true;      ///< in twists, not loose
  double salon_factor = 1;  ///< this salon's own minutes over the model's, 0.2–5
};

/// Water at the start, with what the products bring [g/g].
[[nodiscard]] Band water_under_hood(const HoodTask& task);

/// Minutes under the hood until twists may come down [min], as a band that should hold 8 times in
/// 10 (spreads of water, conductance and twisting add in squares of their logarithms).
/// Errors: a value outside its range (out_of_range, where: "hood.<key>").
/// Source: heat balance as above; the trade's 45 to 90 min for small twists is met, not used.
/// Worked: 100 g at 0.6 g/g, loose, 50 °C air: 29 min (20 to 42).
[[nodiscard]] Result<Band> hood_minutes(const HoodTask& task);

}  // namespace hw::process
