#pragma once
// Deposit: what a colour bowl leaves in a canvas.
//   amount of colourant j of shade k = share_k · strength_kj · u
// u: uptake of a full reference application (process/uptake.h); strength: the shade's own doubt.
// Oxidative bowls lift a little of their own. Amounts add to the canvas's absorption; warmth shows
// through because the canvas is still there. White strands take the same amounts as the others.
#include <span>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/base/random.h"
#include "huewright/process/lift.h"
#include "huewright/process/shade.h"
#include "huewright/process/uptake.h"

namespace hw::process {

/// The bowl's own lift, from its peroxide without powder: the canvas as it is when the colour has
/// formed. No developer: the canvas unchanged. Old artificial colour stays as it is: that colour
/// does not lift colour is common practice (a stylist's page; exam material).
[[nodiscard]] LiftMembers after_own_lift(const LiftMembers& canvas, const DepositBowl& bowl,
                                         Executor& executor);

/// A shade in a bowl, by its share of the colour in it.
struct Poured {
  Shade shade;
  double share = 1;  ///< 0–1; shares of a bowl add to 1 with clear
};

/// Strength of a shade as a whole in each member [1], lognormal with the shade's own doubt; one
/// draw per member and shade id, the same in every zone.
[[nodiscard]] std::vector<double> shade_strength(const Shade& shade, const Draws& draws,
                                                 std::size_t members);

/// Strength of each of a shade's colourants in each member [1], doubt about the whole included: one
/// array per colourant, of which `full` alone is one.
[[nodiscard]] std::vector<std::vector<double>> colourant_strengths(const Shade& shade,
                                                                   const Draws& draws,
                                                                   std::size_t members);

/// The dye layers that a bowl leaves, one per effective colourant; those of one shape of spectrum
/// are one layer. taken: the uptake of each member. most: layers at most, > 0; when the shades have
/// more, the two most alike are joined at their mean mix.
[[nodiscard]] std::vector<hair::DyeLayer> dye_layers(std::span<const Poured> pours,
                                                     std::span<const double> taken,
                                                     const Draws& draws,
                                                     std::size_t most = hair::kMostDyes);

/// The hair after the bowl: own lift, then its dye layers appended to those that are there. When a
/// strand would hold more than kMostDyes, the bowl's own layers are joined first, then the oldest.
/// Uptake and strengths are drawn from `draws`, the same for all zones of a head. Deterministic.
[[nodiscard]] LiftMembers deposit(const LiftMembers& canvas, const DepositBowl& bowl,
                                  std::span<const Poured> pours, const Draws& draws,
                                  Executor& executor);

/// The hair at one minute of a bowl.
struct DepositMoment {
  double minute = 0;
  LiftMembers hair;
  std::vector<double> taken;  ///< uptake of each member [1]
};
/// The canvas, then every multiple of every_min, then the end: what deposit() gives for a bowl
/// rinsed at that minute, but for the cutting of time (0.05 L*). every_min: > 0; minutes: > 0.
[[nodiscard]] std::vector<DepositMoment> deposit_series(const LiftMembers& canvas,
                                                        const DepositBowl& bowl,
                                                        std::span<const Poured> pours,
                                                        const Draws& draws, double every_min,
                                                        Executor& executor);
/// The same with given constants of uptake: one per member, or one for all.
[[nodiscard]] std::vector<DepositMoment> deposit_series(const LiftMembers& canvas,
                                                        const DepositBowl& bowl,
                                                        std::span<const Poured> pours,
                                                        std::span<const UptakeConstants> constants,
                                                        const Draws& draws, double every_min,
                                                        Executor& executor);

/// A shade as one member has it: its strengths are those drawn for that member, and no doubt is
/// left, so that it can be poured on the one member alone. member: index among those of a belief.
[[nodiscard]] Shade settled(const Shade& shade, const Draws& draws, std::size_t member);

}  // namespace hw::process
