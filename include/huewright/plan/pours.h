#pragma once
// From hair to grams on a scale: how much mix to order, how it is poured in the maker's ratio in
// steps a scale can weigh, and how many bowls it takes so that none is older than its label allows.
//   mix = pick-up · hair + film on the scalp that is reached;   mixed = mix / (1 − waste)
// Doubts (pick-up, mass of hair, film, waste) add in squares; what is ordered is the upper band.
// Figures: data/plan/work_rates.csv, each replaced by what the salon's scale has shown.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/statistics.h"
#include "huewright/process/bowl.h"

namespace hw::plan {

/// Hair that a bowl goes on.
struct HairToCover {
  std::string zone;
  double hair_g = 0;     ///< 0–1000
  double scalp_cm2 = 0;  ///< of scalp that the mix touches, 0–1000; 0 off the scalp
};

/// What mix does on hair. The defaults are those of data/plan/work_rates.csv.
struct CoverFacts {
  Band pick_up;             ///< g of mix per g of hair, > 0
  Band hair_factor;         ///< of the mass reckoned
  Band film_mm;             ///< on scalp that is reached
  Band waste;               ///< share of what is mixed, 0 to below 1
  double salon_factor = 1;  ///< grams this salon really used over those reckoned, 0.2–5
};
/// For colour (0.8 to 1.2 g per g) or, when lightener, for lightener and soap caps (1.2 to 1.6).
/// Source: common practice, no source.
[[nodiscard]] CoverFacts cover_facts(bool lightener);

/// Grams to have at hand.
struct MixOrder {
  Band grams;                  ///< mixed, waste included
  std::vector<double> zone_g;  ///< on the hair and scalp of each zone, likely, waste left out
  double order_g = 0;          ///< the upper band
};
/// Grams of ready mix for some zones. Errors: no zone, or a number outside its range (where:
/// "cover[0].hair_g", "facts.waste", …).
/// Worked: 74 g of hair off the scalp with colour: on it 74 g (59 to 89), 81 mixed, order 108.
[[nodiscard]] Result<MixOrder> mix_order(std::span<const HairToCover> zones,
                                         const CoverFacts& facts);

/// One thing of a bowl, in parts by mass.
struct BowlPart {
  std::string id;
  process::PartKind kind = process::PartKind::colour;
  double parts = 1;  ///< > 0
};

/// What a scale and a label allow.
struct PourRules {
  double step_g = 1;                      ///< what the scale can weigh, 0.01–10
  double smallest_g = 2;                  ///< least pour of anything, ≥ 0
  double grams_per_min = 2.7;             ///< put on by all hands together, > 0; clock.h
  std::optional<double> oldest_min = {};  ///< how old the mix may be when its last gram goes on
};

struct Pour {
  std::string id;
  double grams = 0;
};

/// One bowl as it is weighed.
struct PouredBowl {
  std::vector<Pour> pours;  ///< in the order of the parts
  double grams = 0;
  double mix_at_min = 0;    ///< after the first gram went on
  double empty_at_min = 0;  ///< when its last gram goes on
};

struct PouredBowls {
  std::vector<PouredBowl> bowls;
  double grams = 0;  ///< all together, ≥ what was ordered
  /// Grams of one thing over all bowls; 0 for an id that is not there.
  [[nodiscard]] double grams_of(const std::string& id) const;
};

/// Bowls that hold at least order_g. Each pour is whole steps; colour, lightener and the rest keep
/// their parts to the nearest step, and developer never goes over its parts to the colour or
/// lightener poured (to the largest pour where there is neither). No pour is below smallest_g: a
/// bowl grows until it holds, to twice what is needed. As few bowls as the label's age allows, of
/// equal size, one after another.
/// Errors: no part, parts or rules outside their range (out_of_range); a share too small for the
/// scale, or an age that not even the smallest bowl keeps (unreachable).
/// Worked: 80 g of 1 : 1.5 gives 32 g and 48 g.
[[nodiscard]] Result<PouredBowls> pour_bowls(std::span<const BowlPart> parts, double order_g,
                                             const PourRules& rules);

/// What is still to be poured after a slip, and what the bowl then weighs.
struct Rebalanced {
  std::vector<Pour> still;  ///< in the order of the parts, ≥ 0, whole steps
  double grams = 0;         ///< of the whole bowl
  double more_g = 0;        ///< above what was wanted: mixed without need
};
/// Brings a bowl back into its parts: what is poured cannot be taken out, so the others are raised
/// to it. Colour and lightener are rounded up to the step, developer down, so that it never goes
/// over its parts to them (to the largest part where there is neither); the rest to the nearest.
/// poured: grams in the bowl so far, one for each part, ≥ 0; wanted_g: of the whole bowl, 0–10000;
/// step_g: of the scale, 0.01–10. With nothing spilled over it says what is left to pour.
/// Errors: parts, grams or step outside their range (out_of_range); not one weight a part
/// (conflict). Source: mass balance; that the others are raised is common practice, no source.
/// Worked: 30 g and 60 g wanted, 36 g of the first in: 72 g of the second, 18 g more in all.
[[nodiscard]] Result<Rebalanced> rebalance(std::span<const BowlPart> parts,
                                           std::span<const double> poured, double wanted_g,
                                           double step_g);

/// What was mixed and not used.
struct Leftover {
  double grams = 0;
  double share = 0;  ///< of what was mixed
  double cost = 0;   ///< in the salon's currency
};
/// mixed_g, used_g: ≥ 0, used not above mixed (held to it); price_per_g ≥ 0.
[[nodiscard]] Leftover leftover(double mixed_g, double used_g, double price_per_g);

}  // namespace hw::plan
