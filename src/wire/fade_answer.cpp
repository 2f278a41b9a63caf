// What `fade` answers.
#include "huewright/base/statistics.h"
#include "huewright/colour/difference.h"
#include "huewright/process/colour_over.h"
#include "huewright/wire/fade.h"

namespace hw::wire {
namespace {

/// The canvas that a state of hair means, where none is given [D65/10°].
colour::HairLab usual_canvas(process::HairState state) {
  switch (state) {
    case process::HairState::virgin:
      return {25, 5.5, 8};  // natural level 4, by the tress law
    case process::HairState::white:
      return {70, 1.5, 15};  // from memory, as the white base
    case process::HairState::bleached:
      break;
  }
  return {67, 5, 24};  // lifted to pale yellow, by the tress law
}

colour::HairLab given(const GivenLab& lab) {
  return {lab.lab[0], lab.lab[1], lab.lab[2]};
}

}  // namespace

Result<FadeAnswer> answer(const FadeRequest& request) {
  constexpr std::size_t kMembers = 512;
  constexpr std::uint64_t kSeed = 1;
  const colour::HairLab start = given(request.start);
  const colour::HairLab canvas =
      request.canvas ? given(*request.canvas) : usual_canvas(request.hair);
  const process::ColourOver over = process::colour_over(start, canvas);
  const auto constants = process::fade_constants(request.dye_class, request.family, request.hair);
  FadeAnswer answer;
  for (std::uint64_t wash = 0; wash <= request.washes; ++wash) {
    const double light = request.washes > 0 ? request.light_h * static_cast<double>(wash) /
                                                  static_cast<double>(request.washes)
                                            : 0;
    const auto left = process::dye_left_members(constants, static_cast<double>(wash), request.wash,
                                                light, Draws(kSeed), kMembers);
    const Band band = band_of(left);
    const colour::HairLab lab = over.at(band.mid);
    answer.series.push_back({wash,
                             band.mid,
                             band.low,
                             band.high,
                             {lab.l, lab.a, lab.b},
                             colour::delta_e_2000(start, lab),
                             colour::delta_e_76(start, lab)});
  }
  return answer;
}

}  // namespace hw::wire
