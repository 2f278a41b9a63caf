#pragma once
// Twists on natural hair after colour: how large the partings, how many twists, how long, how much
// product, and how sharp they will be. Lengths are stretched: hair of 12 cm may rest at 3 cm.
//   twists = area / parting²;   thickness of a twist ∝ parting · √(hairs per cm²)
// The same definition needs the same length to thickness within what the trade's table of partings
// says, so short hair needs smaller partings, and dense hair smaller ones than thin hair.
// Figures: data/process/partings.csv and styling.csv (common practice, no source).
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/statistics.h"

namespace hw::process {

/// Hair that is to be twisted.
struct TwistTask {
  double scalp_cm2 = 580;             ///< of the head or the part of it, > 0 to 1000
  double stretched_cm = 15;           ///< mean stretched length, 3–200
  double hairs_per_cm2 = 190;         ///< 50–400
  double hair_g = 80;                 ///< dry, > 0 to 1000
  Band minutes_each{0.5, 0.75, 1.0};  ///< per twist and pair of hands; own clock replaces it
  int hands = 1;                      ///< pairs of hands, 1–4
};

/// How twists come out.
enum class Definition { crisp, usual, soft, undefined };
/// "crisp", "as usual", "soft" or "undefined".
[[nodiscard]] std::string_view name_of(Definition definition);

/// Parting that gives the usual definition [cm], side of a square: the trade's table at 190
/// hairs/cm², times √(190/hairs per cm²) so that twists stay as thick.
/// stretched_cm 3–200, hairs_per_cm2 50–400; held to these. Worked: 15 cm and 190: 2.5 cm.
[[nodiscard]] double fitting_parting_cm(double stretched_cm, double hairs_per_cm2);

/// How a parting will look on that hair: parting over the fitting one, by the edges of styling.csv
/// (0.8, 1.3, 1.7; guesses).
[[nodiscard]] Definition definition_of(double parting_cm, double stretched_cm,
                                       double hairs_per_cm2);

/// Twists on an area [1]: area / parting², to whole twists, at least one. Both > 0.
/// Worked: 600 cm² at 2 cm: 150.
[[nodiscard]] double twists_on(double scalp_cm2, double parting_cm);

/// Parting that so many twists mean [cm]. Worked: 28 on 600 cm²: 4.6 cm.
[[nodiscard]] double parting_of(double scalp_cm2, double twists);

/// A way to twist this head.
struct TwistPlan {
  double parting_cm = 0;
  double twists = 0;
  Band minutes;  ///< of the whole head with the hands given
  Definition definition = Definition::usual;
  Band leave_in_g;
  Band foam_g;
  bool short_for_flat_twists = false;  ///< below the 10 cm that one salon asks for
  std::string advice;                  ///< one sentence
};

/// The plan for a parting of the colourist's choice; 0: the fitting one, to the half centimetre
/// and never below 1 cm (guess: fingers). parting_cm: 0 or 0.5–10.
/// Errors: a value outside its range (out_of_range, where: "twists.<key>").
/// Worked: 600 cm², 15 cm, 190 hairs/cm²: 2.5 cm, 96 twists, 72 min (48 to 96).
[[nodiscard]] Result<TwistPlan> twist_plan(const TwistTask& task, double parting_cm = 0);

/// The steps after colour in their order, as sentences. Source: common practice, no source.
[[nodiscard]] const std::vector<std::string>& twist_out_steps();

/// How long twists, and a twist-out, keep [days].
[[nodiscard]] Band twists_keep_days();
[[nodiscard]] Band twist_out_keeps_days();

}  // namespace hw::process
