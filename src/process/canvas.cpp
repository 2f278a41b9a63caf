#include "huewright/process/canvas.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "huewright/process/absorption_fit.h"
#include "huewright/process/shade.h"

namespace hw::process {
namespace {

void add(colour::Spectrum& sum, double amount, const colour::Spectrum& part) {
  for (std::size_t i = 0; i < colour::kBands; ++i) sum[i] += amount * part[i];
}

}  // namespace

Result<CanvasGuess> canvas_guess(const colour::HairLab& lab, Micrometres strand) {
  const std::array parts = {hair::eumelanin_per_percent(), hair::pheomelanin_per_percent(),
                            hair::base_absorption(hair::kLiftedBase)};
  FitStrand bare{{}, strand, hair::kSurfaceTerm};
  const AbsorptionFit pigment = fit_absorptions(lab, bare, parts);
  CanvasGuess guess{pigment.amounts[0], pigment.amounts[1], pigment.amounts[2], {}, pigment.miss};
  constexpr double kTold = 1;  // CIE76: what an instrument repeats to on a moved tress
  if (pigment.miss > kTold) {
    // All six together: what pigment took for the colour's sake, dye may have had to take.
    std::vector<colour::Spectrum> all(parts.begin(), parts.end());
    all.insert(all.end(), effective_colourants().begin(), effective_colourants().end());
    const AbsorptionFit dye = fit_absorptions(lab, bare, all);
    guess = {dye.amounts[0], dye.amounts[1], dye.amounts[2], {}, dye.miss};
    for (std::size_t k = parts.size(); k < all.size(); ++k) {
      add(guess.dye, dye.amounts[k], all[k]);
    }
  }
  constexpr double kMost = 3;  // CIE76: beyond it the colour would be another one
  if (guess.miss_de76 > kMost) {
    return fail(ErrorCode::unreachable,
                fmt::format("no strand reads Lab {:.1f}, {:.1f}, {:.1f}; the nearest is {:.1f} off",
                            lab.l, lab.a, lab.b, guess.miss_de76),
                "lab", "give the reading of a dry tress in daylight, or a level");
  }
  return guess;
}

void set_canvas(LiftMembers& members, const CanvasGuess& guess) {
  std::ranges::fill(members.eumelanin_percent, guess.eumelanin_percent);
  std::ranges::fill(members.pheomelanin_percent, 0);
  std::ranges::fill(members.warm_percent, guess.warm_percent);
  for (std::size_t m = 0; m < members.size(); ++m) {
    members.base_share[m] = guess.base_share / members.constants[m].base_scale;
  }
  std::ranges::fill(members.surface_term, hair::kSurfaceTerm);
  members.dyes.clear();
  if (std::ranges::any_of(guess.dye, [](double mu) { return mu > 0; })) {
    members.dyes.push_back({guess.dye, std::vector<double>(members.size(), 1)});
  }
}

}  // namespace hw::process
