#pragma once
// The colour of a tress of many strands, from what one strand absorbs:
//   R(l) = Rs + (1 − Rs)·exp(−D·√(mu(l)·r)),  D = 5.888
// r: strand radius [cm]; Rs: what the surface reflects whatever lies inside (neutral).
// The law is Chiang et al. 2016 for azimuthal roughness 0.3 (bib: chiang_2016, eq. for sigma_a); it
// meets measured dark-brown and black tresses to ΔE00 of about 1 (bib: scanavez_2000). Everything
// above level 3 is prediction.
#include <span>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/units.h"
#include "huewright/colour/lab.h"
#include "huewright/colour/spectrum.h"
#include "huewright/hair/pigment.h"

namespace hw::hair {

/// D(0.3) [1]: Chiang et al. 2016.
inline constexpr double kTressD = 5.888;
/// Rs [1] of the black tress of scanavez_2000; 0.0175 to 0.031 are seen.
inline constexpr double kSurfaceTerm = 0.0262;
inline constexpr double kSurfaceTermLow = 0.0175;
inline constexpr double kSurfaceTermHigh = 0.031;
/// Highest melanin content met in hair [% of mass]; from memory 1.5–3, with room.
inline constexpr double kMelaninMax = 4.0;

/// D as a function of azimuthal roughness beta [1]: Chiang et al. 2016.
[[nodiscard]] double tress_d(double beta);

/// One strand, by what it holds. strand_um: diameter of the circle of equal area, 20–180 µm.
struct Strand {
  double eumelanin_percent = 0;    ///< of hair mass
  double pheomelanin_percent = 0;  ///< of hair mass
  double warm_percent = 0;         ///< warm residue, eumelanin-equivalent, of hair mass
  Micrometres strand_um{70};
  double surface_term = kSurfaceTerm;
  Base base = kNaturalBase;
};

/// Absorption of the strand [1/cm].
[[nodiscard]] colour::Spectrum absorption(const Strand& strand);
/// Reflectance [0–1] of a tress from the absorption [1/cm] of its strands.
[[nodiscard]] colour::Spectrum tress_reflectance(const colour::Spectrum& absorption_per_cm,
                                                 Micrometres strand_um, double surface_term);
/// Colour of a tress of such strands, dry, D65/10°. Worked: 1.1 % eu- and 0.06 % pheomelanin,
/// 70 µm: near Lab (22, 4, 5).
[[nodiscard]] colour::HairLab tress_lab(const Strand& strand);

/// Absorption [1/cm] that gives a reflectance: the law turned round, linear in every pigment.
/// Error: any reflectance ≤ surface_term or ≥ 1 (measured black lies below the default floor, so
/// readings of very dark hair enter by likelihood, never through this).
[[nodiscard]] Result<colour::Spectrum> absorption_from(const colour::Spectrum& reflectance,
                                                       Micrometres strand_um, double surface_term);

/// Total melanin [% of mass] of natural hair that reads a given L*. pheomelanin_share: 0–1 of it.
/// Error: lstar at or below the floor of the surface term, or above 100.
[[nodiscard]] Result<double> melanin_for_lstar(double lstar, double pheomelanin_share,
                                               Micrometres strand_um, double surface_term);

/// One dye in the hair of many members.
struct DyeLayer {
  colour::Spectrum absorption{};  ///< [1/cm] of one unit of amount
  std::vector<double> amount;     ///< one per member, ≥ 0
};
/// Most layers that a strand is coloured with at once: an old colour, and two bowls of three.
inline constexpr std::size_t kMostDyes = 8;

/// Many hypotheses side by side: one array per quantity, one entry per member.
struct TressMembers {
  std::vector<double> eumelanin_percent;
  std::vector<double> pheo_like_percent;  ///< pheomelanin + warm residue
  std::vector<double> base_share;         ///< 0–1 of the lifted base, times its scale
  std::vector<double> radius_cm;
  std::vector<double> surface_term;
  std::vector<DyeLayer> dyes;  ///< at most kMostDyes; on white strands as on the others
  double white_share = 0;      ///< 0–1 of strands that are white; mixes by reflectance
  void resize(std::size_t members);
  [[nodiscard]] std::size_t size() const { return eumelanin_percent.size(); }
};

/// Colour of each member [D65/10°]; out has members.size() entries. Same bits on every machine but
/// for the cube root at the end (1e-12).
void tress_labs(const TressMembers& members, std::span<colour::HairLab> out);

/// Lightness of each member [L*, D65/10°] from 31 bands of 10 nm, for searches: within 0.01 of
/// tress_labs in a quarter of its time. out has members.size() entries.
void tress_lightness(const TressMembers& members, std::span<double> out);

/// Reflectance [0–1] of one member as tress_labs() sees it, white strands among the others: for
/// lights other than daylight. m: below members.size().
[[nodiscard]] colour::Spectrum tress_spectrum(const TressMembers& members, std::size_t m);

/// How a reading was taken. Wet hair looks darker than dry: 5 ± 3 L* (guess, learned per salon);
/// wiped hair half of that (guess).
enum class Moisture { dry, wiped, wet };
struct MoistureShift {
  double lstar = 0;  ///< added to dry L* to get what is seen (≤ 0)
  double sd = 0;     ///< of that shift
};
[[nodiscard]] MoistureShift moisture_shift(Moisture moisture);

}  // namespace hw::hair
