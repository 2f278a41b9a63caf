#pragma once
// What `fade` is asked and what it answers.
#include <optional>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/process/fade.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// {"lab": [L, a, b]}
struct GivenLab {
  Triple lab{};
};

/// {"start", "canvas"?, "class", "family", "hair", "washes", "light_h"?, "wash"?}
struct FadeRequest {
  GivenLab start;
  std::optional<GivenLab> canvas;
  process::DyeClass dye_class = process::DyeClass::permanent;
  process::DyeFamily family = process::DyeFamily::red;
  process::HairState hair = process::HairState::white;
  std::uint64_t washes = 30;
  double light_h = 0;  ///< in all, at 0.35 W/m²/nm at 340 nm, spread evenly over the washes
  process::WashHabit wash;
};

struct FadeRow {
  std::uint64_t wash = 0;
  double dye_left = 1;  ///< median
  double dye_left_low = 1;
  double dye_left_high = 1;
  Triple lab{};
  double de00 = 0;  ///< from wash 0
  double de76 = 0;
};

struct FadeAnswer {
  std::vector<FadeRow> series;
};

/// From the finished colour to every wash. The canvas is the nearest strand to its Lab (default by
/// `hair`), the dye the nearest three effective colourants on it to the start; what both miss is
/// carried in Lab and fades with the dye, so that wash 0 is the start exactly.
[[nodiscard]] Result<FadeAnswer> answer(const FadeRequest& request);

void describe_wash(Object& object, process::WashHabit& wash);
void describe(Object& object, FadeRequest& request);
void describe(Object& object, FadeAnswer& answer);
void describe(Object& object, FadeRow& row);

}  // namespace hw::wire
