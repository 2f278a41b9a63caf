#pragma once
// The lifts that a shelf can mix, and what one does to a zone: the minute to stop it for the wished
// level, the colour then, its wear, and how sure that is.
#include <string>
#include <vector>

#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/process/refusal.h"

namespace hw::plan {

/// One thing of a recipe, in parts by mass.
struct RecipePart {
  process::PartKind kind = process::PartKind::water;
  std::string product;  ///< id on the shelf; empty for water
  double parts = 1;
};

/// A bowl that the shelf can make.
struct Recipe {
  std::string words;  ///< "soap cap 1 : 2 : 1 : 1 with 6 % developer"
  std::vector<RecipePart> parts;
  process::Mix mix;                 ///< of 100 g
  process::Bowl bowl;               ///< 100 g, without regard to the scalp
  double longest_min = 45;          ///< by its label and the visit's limit
  std::optional<double> label_min;  ///< what its label allows
};

/// What one recipe does to one zone, at the minute to stop.
struct ZoneOutcome {
  std::string zone;
  double wished_level = 0;
  bool reaches = false;        ///< the likely level gets there within the longest time
  bool already_there = false;  ///< needs no lift: leave it alone and protect it
  Band stop_min;               ///< mid is when to stop; low and high when slow or fast hair would
  /// Likely hair is within half a level of the wish from here to there: what the clock may be off.
  double least_min = 0, most_min = 0;
  double start_min = 0;       ///< so that all zones are rinsed together
  colour::HairLab lab;        ///< as seen, of the member nearest the median that the chart paints
  colour::HairLab pigmented;  ///< of its strands that are not white
  Band level;
  Band lstar;
  Band wear;                       ///< share of cystine, whole life
  double wear_added = 0;           ///< mean
  double strength_left_low = 1;    ///< wet strength left of what there is today, 10 % quantile
  double likelihood = 0;           ///< of ending within half a level of the wish, 0–1
  std::size_t nearest_member = 0;  ///< the member nearest the median, for the chart
};

/// Recipes from a shelf: each lightener with each developer by its label, as soap caps where
/// shampoo is there, and developer with shampoo alone. Error: an empty shelf, or one that can mix
/// nothing.
[[nodiscard]] Result<std::vector<Recipe>> lift_recipes(const Case& head);

/// Share of the wet strength (work to 20 % strain) found today that is left after wear x.
/// x0, x: share of cystine 0–0.45; reshaped: relaxed or permed before. Bib tate_kamath_1993 Table
/// VI: 1 − 0.87 x, and a further 0.75 (to 1) for the first oxidation of reshaped hair.
[[nodiscard]] double wet_strength_left(double x0, double x, bool reshaped, double interaction);

/// The single member of a zone that a chart draws.
[[nodiscard]] process::LiftMembers one_member(const process::LiftMembers& members, std::size_t m);

}  // namespace hw::plan
