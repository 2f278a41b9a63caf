#pragma once
// A colour on the shelf as the model sees it. Only concentration × partition × strength can be
// known from a label and a swatch, so a shade carries one number per effective colourant: the
// absorption that one full reference application leaves in reference white hair. Reference: white
// strands of 70 µm, unopened, 22 °C, the label's minutes and developer. Makers define a shade's
// level on white hair (job practice, a colour educator; common practice).
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/colour/lab.h"
#include "huewright/colour/spectrum.h"

namespace hw::process {

/// How a colour holds: by size, by charge at the surface, or by forming inside.
enum class DyeClass { direct, cationic, demi, permanent };

/// Families that fade alike; see process/fade.
enum class DyeFamily { red, copper, brown, violet, blue, yellow };
[[nodiscard]] Result<DyeFamily> dye_family_named(const std::string& word);

/// Most effective colourants of a shade: three tell every Lab.
inline constexpr std::size_t kMostColourants = 3;

/// One effective colourant of a shade.
struct Colourant {
  colour::Spectrum full{};  ///< [1/cm] that it leaves in reference white hair
  double sd_ln = 0;         ///< doubt about it alone, beside that about the shade [ln]
};

struct Shade {
  std::string id;
  DyeClass dye_class = DyeClass::permanent;
  DyeFamily family = DyeFamily::brown;
  colour::Spectrum full{};      ///< [1/cm] in reference white hair; zero everywhere for clear
  double strength_sd_ln = 0.3;  ///< doubt about all of it together [ln]
  /// At most kMostColourants, together `full`. Empty: one colourant, `full` itself.
  std::vector<Colourant> colourants = {};
  /// Factors on the colourants that fit a reading equally well, one array each; a member draws one.
  /// Empty: each colourant is as doubtful as its own sd says.
  std::vector<std::array<double, kMostColourants>> equal_fits = {};
  double developer_parts = 1;  ///< maker's ratio to one part; 0 for direct and cationic
  double label_min = 35;       ///< processing time on the label
};

/// What a class usually is: data/process/dye_classes.csv.
struct ClassFacts {
  DyeClass dye_class = DyeClass::permanent;
  std::string word;
  double radius_angstrom = 0;  ///< of what diffuses
  double biot = 0;             ///< cuticle resistance turned round, intact hair, as mixed
  double developer_parts = 0;
  double label_min = 0;
  double unclean = 1;         ///< what an unclean canvas lets take
  double lightened_gain = 1;  ///< more that lightened hair holds in the end
  double swatch_opened = 1;   ///< of the hair its makers show it on, as a dye feels it
  double swatch_wear = 0;     ///< of that hair, share of cystine
};
[[nodiscard]] const ClassFacts& class_facts(DyeClass dye_class);
[[nodiscard]] Result<DyeClass> dye_class_named(const std::string& word);

/// A shade from what a colourist reads off a tube in 20 seconds: class, level and tone word. Three
/// broad effective colourants are solved so that reference white hair reads that level by the
/// default ladder, with the tone's offset from natural hair of that depth
/// (data/process/shade_tones.csv). The prior is wide (strength sd 0.35, each colourant 0.2 beside
/// it): a swatch narrows it (process/swatch.h).
/// Errors: level outside 1–10; a tone word not in the table (hint lists them).
[[nodiscard]] Result<Shade> shade_from_words(const std::string& id, DyeClass dye_class,
                                             double level, const std::string& tone);

/// A shade whose colourants are known: each [1/cm] that one full reference application leaves in
/// reference white hair, with its doubt. Errors: none or more than kMostColourants; a value below 0
/// or not finite; a colourant that absorbs nothing. Developer and minutes are those of the class.
[[nodiscard]] Result<Shade> shade_from_spectra(const std::string& id, DyeClass dye_class,
                                               DyeFamily family,
                                               std::span<const Colourant> colourants,
                                               double strength_sd_ln);

/// The family a colour fades with, from its hue on reference white hair: by the angle of its
/// offset from natural hair of that depth.
[[nodiscard]] DyeFamily family_of_colour(const colour::Spectrum& full);

/// Tone words that shade_from_words knows.
[[nodiscard]] const std::vector<std::string>& shade_tones();

/// Colourless partner that fills up a bowl.
[[nodiscard]] Shade clear_shade(const std::string& id, DyeClass dye_class);

/// Three effective colourants, yellow-, red- and blue-giving [1/cm at their peak of 1]: peaks 440,
/// 510 and 600 nm, widths of 5000 1/cm (guess; nitro and indo dyes, bib corbett_1984,
/// corbett_1973).
[[nodiscard]] const std::vector<colour::Spectrum>& effective_colourants();

/// Amounts of the three effective colourants that bring reference white hair nearest to a colour.
struct ColourantFit {
  std::vector<double> amounts;  ///< [1/cm at the peak], ≥ 0
  double residual_de76 = 0;     ///< what they cannot reach
};
[[nodiscard]] ColourantFit fit_on_white(const colour::HairLab& wanted);

}  // namespace hw::process
