#pragma once
// What one more reading of each sort would teach, from what readings of that sort taught so far.
#include "huewright/plan/learn.h"

namespace hw::plan {

/// Whether a factor is the salon's, its people's or its shades', and not one client's.
[[nodiscard]] bool is_of_salon(FactorKind kind);

struct LearnNext {
  FactorKind kind = FactorKind::salon_rate;
  std::string name;         ///< of the reader or the salon
  double doubt_levels = 0;  ///< what the factor leaves open now: 1 sd, as a reading would show it
  double share_off = 0;     ///< of that doubt that one more reading takes off, 0–1
  std::string sentence;
};

/// The factors that speak of levels and stay from client to client, those first of which one more
/// reading takes most off. The reading is one like those before: their mean slope, and their noise.
/// A factor that nothing spoke of is not among them.
[[nodiscard]] std::vector<LearnNext> learn_next(const Learned& learned);

}  // namespace hw::plan
