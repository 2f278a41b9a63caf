#pragma once
// Taking out what does not belong: a reducing remover acts on old artificial dye and hardly on
// melanin; a chelator takes minerals and changes no colour. No figure of either was measured in
// what was read: data/process/remover.csv, guesses and common practice.
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/base/statistics.h"
#include "huewright/process/lift.h"
#include "huewright/process/person.h"

namespace hw::process {

/// What an old colour is made of.
enum class OldDye {
  unknown,
  oxidative,  ///< formed inside: demi and permanent
  direct,     ///< brought ready: masks, vivid colours
};

/// Minutes of one round.
[[nodiscard]] Band remover_minutes();
/// Rounds in a visit [1], at most.
[[nodiscard]] int most_remover_rounds();
/// Minutes of a chelating treatment.
[[nodiscard]] Band chelate_minutes();

/// Share of the old dye that one round leaves in each member [0–1]:
///   ln left = ln left_round · (1 − e^(−t/τ)) / (1 − e^(−t_round/τ)),
/// left_round lognormal by the kind of dye and held to 1, τ lognormal. Each round multiplies; a
/// member whose dye resists does so in every round. minutes: ≥ 0.
[[nodiscard]] std::vector<double> remover_left(OldDye kind, double minutes, const Draws& draws,
                                               std::size_t members);

/// The hair after one round: every dye layer weaker, a little wear, pigment as it was.
[[nodiscard]] LiftMembers after_remover(const LiftMembers& canvas, OldDye kind, double minutes,
                                        const Draws& draws);

/// What to say with it, a sentence each.
[[nodiscard]] const std::vector<std::string>& remover_notes();

/// The facts of a zone when its minerals are out; colour and wear stay.
[[nodiscard]] HairFacts after_chelating(HairFacts facts);

}  // namespace hw::process
