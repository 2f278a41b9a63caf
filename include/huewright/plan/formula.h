#pragma once
// Grams of a few shades that bring a canvas to a target. A bowl's dyes add in absorption,
//   mu = mu_canvas + u · Σ_k share_k · S_k,  share_k = grams_k / grams of colour in the bowl,
// u: how much a member takes up of a full reference application. What is minimised is the CIEDE2000
// to the target expected over the members, zones weighted by their hair, plus a price for cost.
// Search: at most 16 representatives of each zone and 10 nm; a second-order model over all shades
// at once ranks the subsets, the true best shares of the best are sought unless a lower bound of
// theirs is above the best found, rounded to what a scale can weigh, and scored on all members and
// 5 nm. docs/adr/0014-formula-search.md.
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/base/result.h"
#include "huewright/colour/lab.h"
#include "huewright/hair/tress.h"

namespace hw::plan {

/// One shade as the solver sees it.
struct FormulaShade {
  std::string id;
  colour::Spectrum full{};  ///< [1/cm] that an undiluted reference application leaves
  double stock_g = 1e9;     ///< grams at hand
  double price_per_g = 0;   ///< in the salon's currency
};

/// One zone to be coloured, with all its members.
struct FormulaZone {
  hair::TressMembers canvas;
  std::vector<double> uptake;  ///< u of each member, > 0
  colour::HairLab target;
  double weight = 1;  ///< of this zone in the whole, > 0
};

/// What the bowl must keep to.
struct FormulaRules {
  double colour_g = 60;         ///< grams of shades and clear together, > 0
  double step_g = 1;            ///< what the scale can weigh
  double smallest_g = 2;        ///< least pour of a shade
  std::size_t most_shades = 3;  ///< 1–4
  bool clear = true;            ///< clear may fill up the bowl
  double de_per_money = 0;      ///< price of one unit of currency in CIEDE2000
  std::size_t keep = 20;        ///< how many formulas are scored on all members
};

struct FormulaPour {
  std::size_t shade = 0;
  double grams = 0;
};

struct Formula {
  std::vector<FormulaPour> pours;  ///< most grams first
  double clear_g = 0;
  double expected_de00 = 0;       ///< over all members and zones
  std::vector<double> zone_de00;  ///< expected, zone by zone
  double cost = 0;                ///< of the shades
  double objective = 0;           ///< expected_de00 + de_per_money · cost
};

struct FormulaSearch {
  std::vector<Formula> best;    ///< lowest objective first
  std::size_t subsets = 0;      ///< of shades that the model was asked about
  std::size_t dropped = 0;      ///< by their lower bound, unsearched
  std::size_t evaluations = 0;  ///< of the objective on the representatives
};

/// Searches. Deterministic, whatever the executor. Errors: no shade, no zone, arrays of another
/// length than the members, a rule outside its range, a shelf that cannot fill the bowl.
[[nodiscard]] Result<FormulaSearch> find_formulas(std::span<const FormulaShade> shades,
                                                  std::span<const FormulaZone> zones,
                                                  const FormulaRules& rules, Executor& executor);

/// One formula for a first judgement of a course: a narrow search on at most 16 members of each
/// zone and 20 nm, its differences those of these members. Deterministic; runs on the calling
/// thread. Accuracy: expected CIEDE2000 of its grams, on all members, within 0.5 of find_formulas'
/// best on 95 % of random shelves (tests/property/plan_formula_test.cpp). Errors: as find_formulas.
[[nodiscard]] Result<Formula> quick_formula(std::span<const FormulaShade> shades,
                                            std::span<const FormulaZone> zones,
                                            const FormulaRules& rules);

/// Expected CIEDE2000 of given shares (one per shade; the rest is clear), zone by zone, on all
/// members and 5 nm.
[[nodiscard]] std::vector<double> score_shares(std::span<const FormulaShade> shades,
                                               std::span<const FormulaZone> zones,
                                               std::span<const double> shares);

}  // namespace hw::plan
