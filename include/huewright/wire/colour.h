#pragma once
// What `colour` is asked and what it answers: four questions, told apart by "ask".
#include <utility>
#include <variant>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/colour/light.h"
#include "huewright/colour/screen.h"
#include "huewright/hair/tress.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// {"start_nm", "step_nm", "values"}. One value alone is held at every wavelength.
struct SpectrumSamples {
  double start_nm = 380;
  double step_nm = 5;
  std::vector<double> values;
};

/// {"ask": "xyz", "spectrum", "illuminant"?, "observer"?}
struct XyzAsk {
  SpectrumSamples spectrum;
  bool own_light = false;  ///< whether the light is `light` rather than `named`
  colour::Illuminant named = colour::Illuminant::d65;
  SpectrumSamples light;
  colour::Observer observer = colour::Observer::deg10;
};

/// {"ask": "difference", "pairs": [[reference, sample]]}, each a Lab triple.
struct DifferenceAsk {
  using Pair = std::array<Triple, 2>;
  std::vector<Pair> pairs;
};

/// {"ask": "tress", "eumelanin_percent", "pheomelanin_percent", "warm_percent"?, "strand_um",
/// "base"?}
struct TressAsk {
  enum class BaseKind { natural, lifted, white };
  double eumelanin_percent = 0;
  double pheomelanin_percent = 0;
  double warm_percent = 0;
  Micrometres strand{70};
  BaseKind base = BaseKind::natural;
};

/// {"ask": "screen", "lab", "space"}; Lab D65/10°.
struct ScreenAsk {
  Triple lab{};
  colour::ScreenSpace space = colour::ScreenSpace::srgb;
};

/// In the order of the words of "ask".
using ColourRequest = std::variant<XyzAsk, DifferenceAsk, TressAsk, ScreenAsk>;

struct XyzAnswer {
  Triple xyz{};  ///< Y = 100 for the perfect diffuser
  Triple lab{};  ///< by the white of the light that was asked for
};
struct DifferenceAnswer {
  std::vector<double> de00, de76, de94, cmc21;  ///< one entry per pair
};
struct TressAnswer {
  Triple lab{};  ///< D65/10°
  double level = 1;
};
struct ScreenAnswer {
  Triple rgb{};  ///< encoded, 0 to 1
  bool in_gamut = true;
};
using ColourAnswer = std::variant<XyzAnswer, DifferenceAnswer, TressAnswer, ScreenAnswer>;

/// Answers one question. Errors: those of colour::resample and colour::viewing, with the path of
/// the spectrum before them.
[[nodiscard]] Result<ColourAnswer> answer(const ColourRequest& request);

void describe(Object& object, ColourRequest& request);
void describe(Object& object, ColourAnswer& answer);

}  // namespace hw::wire
