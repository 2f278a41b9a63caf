#pragma once
// The head as a colourist divides it: sections round the head, zones along the strand, and how much
// hair lies in each. All distances are stretched lengths from the scalp unless 'resting' is said.
//
//   strands N = hairs/cm² · area · share of the section (· its density factor)
//   share of N that still reaches depth x of a strand of visible length L: 1 − 2(1 − c)·x/L
//   mass [g] = N · tex · 1e-5 · ∫ share dx over the zone [cm]
// c, the cut factor, is the mean length of the strands over the longest: layers and young hairs end
// before the tips do. The share falls along a straight line (guess), so that a whole strand weighs
// c·L as published practice has it while the roots, where every hair is present, keep their weight.
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/hair/fibre.h"
#include "huewright/hair/growth.h"

namespace hw::hair {

/// A stretch of strand in one state, such as roots, mid-lengths, ends. from_cm below to_cm.
struct Zone {
  std::string name;
  double from_cm = 0;  ///< from the scalp, stretched
  double to_cm = 0;
  [[nodiscard]] double length_cm() const { return to_cm - from_cm; }
  bool operator==(const Zone&) const = default;
};

/// A part of the scalp whose strands are zoned alike.
struct Section {
  std::string name;
  double area_share = 0;      ///< of the scalp, above 0 to 1; the sections' shares add to 1
  double density_factor = 1;  ///< hairs per cm² over the head's mean, 0.1–3
  std::vector<Zone> zones;    ///< from the scalp outward without gaps; at least one
};

struct Head {
  double scalp_area_cm2 = 580;  ///< 200–1000; from memory
  double hairs_per_cm2 = 190;   ///< mean over the head, 50–400; loussouarn_2001
  Fibre fibre;
  double shrinkage = 0.37;  ///< 1 − resting/stretched, 0–0.9; textured_hair_2021
  double cut_factor = 0.7;  ///< mean strand length over the longest, 0.5–1; common practice
  GrowthRate growth;
  std::vector<Section> sections;
};

/// A head with the constants of data/hair/head_constants.csv and the sections of sections.csv, each
/// with one zone "lengths" from the scalp to length_cm. length_cm: above 0, at most 200.
[[nodiscard]] Result<Head> usual_head(double length_cm);

/// Hairs per cm² by name: "not judged", "low", "medium", "high", with their spread between heads.
struct DensityChoice {
  std::string name;
  double hairs_per_cm2 = 0;
  double sd_hairs_per_cm2 = 0;
};
/// Source: data/hair/densities.csv.
[[nodiscard]] const std::vector<DensityChoice>& density_choices();
/// Error: unknown_name (where: "density").
[[nodiscard]] Result<DensityChoice> density_choice(const std::string& name);

/// The head, if it is one: every number inside its range, shares adding to 1 within 1e-6, section
/// and zone names present and different, zones from 0 outward without gap or overlap.
/// where: what errors call it. Errors carry the path, such as head.sections[2].zones[0].to_cm.
[[nodiscard]] Result<Head> checked(const Head& head, const std::string& where = "head");

/// Resting distance from the scalp [cm] of a point at a stretched distance: times 1 − shrinkage.
/// 20 cm at 0.4 rests at 12 cm: the same hair, and the mass follows the 20 cm.
[[nodiscard]] double resting_cm(double stretched_cm, double shrinkage);
/// The stretched distance of a point seen at rest [cm]; shrinkage below 1.
[[nodiscard]] double stretched_cm(double resting_cm, double shrinkage);

/// What lies in one zone of one section.
struct ZoneAmount {
  std::string section;
  std::string zone;
  double strands = 0;  ///< at the scalp
  double mass_g = 0;
  double surface_m2 = 0;
  double length_cm = 0;        ///< stretched
  double resting_from_cm = 0;  ///< from the scalp, as it hangs
  double resting_to_cm = 0;
};

/// Every zone of every section, in their order. head: as checked() passes it.
/// 580 cm², 161 hairs/cm², 73.2 µm, cut factor 1, 20 cm: 104 g over all.
[[nodiscard]] std::vector<ZoneAmount> amounts(const Head& head);
/// Hair of the whole head [g].
[[nodiscard]] double mass_g(const Head& head);
/// Strands of the whole head [1].
[[nodiscard]] double strands(const Head& head);
/// Mass of one centimetre of every strand, next to the scalp [g/cm]: strands · tex · 1e-5.
/// 190 hairs/cm², 600 cm², 72 µm gives 6.1 g/cm.
[[nodiscard]] double grams_per_cm(const Head& head);

/// A zone after growth and a trim: moved out by growth_cm, its end held to the new tip at
/// length_cm + growth_cm − trim_cm; nothing when it was cut off whole.
/// length_cm: stretched length before, growth_cm and trim_cm: 0 or more.
[[nodiscard]] std::optional<Zone> zone_after(const Zone& zone, double length_cm, double growth_cm,
                                             double trim_cm);

/// All zones of a strand at the next visit: moved, cut, and the new hair put before them as a zone
/// `grown`. When the first zone already carries that name (regrowth left uncoloured at the last
/// visit) the new hair joins it. zones: from the scalp outward as in Section.
/// Lengths 0–3 regrowth, 3–20 lengths; 2 cm grown, 1 cm cut: 0–5 regrowth, 5–21 lengths.
[[nodiscard]] std::vector<Zone> zones_after(std::span<const Zone> zones, double growth_cm,
                                            double trim_cm, const std::string& grown = "regrowth");

}  // namespace hw::hair
