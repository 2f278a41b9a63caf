#pragma once
// A colour on the shelf as the model sees it. Only concentration × partition × strength can be
// known from a label and a swatch, so a shade carries one number per effective colourant: the
// absorption that one full reference application leaves in reference white hair. Reference: white
// strands of 70 µm, unopened, 22 °C, the label's minutes and developer. Makers define a shade's
// level on white hair (job practice, a colour educator; common practice).
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

struct Shade {
  std::string id;
  DyeClass dye_class = DyeClass::permanent;
  DyeFamily family = DyeFamily::brown;
  colour::Spectrum full{};      ///< [1/cm] in reference white hair; zero everywhere for clear
  double strength_sd_ln = 0.3;  ///< doubt about all of it together [ln]
  double developer_parts = 1;   ///< maker's ratio to one part; 0 for direct and cationic
  double label_min = 35;        ///< processing time on the label
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
};
[[nodiscard]] const ClassFacts& class_facts(DyeClass dye_class);
[[nodiscard]] Result<DyeClass> dye_class_named(const std::string& word);

/// A shade from what a colourist reads off a tube in 20 seconds: class, level and tone word. Three
/// broad effective colourants are solved so that reference white hair reads that level by the
/// default ladder, with the tone's offset from natural hair of that depth
/// (data/process/shade_tones.csv). The prior is wide (strength sd 0.35): a swatch narrows it.
/// Errors: level outside 1–10; a tone word not in the table (hint lists them).
[[nodiscard]] Result<Shade> shade_from_words(const std::string& id, DyeClass dye_class,
                                             double level, const std::string& tone);

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
