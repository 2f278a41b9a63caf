#pragma once
// One strand as a body: size, weight per length, surface. Sections are taken as ellipses.
//   tex [g/km] = density · area;  surface [m²/g] = perimeter / (density · area)
#include <string>
#include <vector>

#include "huewright/base/result.h"

namespace hw::hair {

/// Shape of a strand's section. diameter_um: of the circle of equal area, 20–180 µm; ellipticity:
/// widest over narrowest, 1–3.25 (one curly strand varies that far, textured_hair_2021).
struct Fibre {
  double diameter_um = 74;
  double ellipticity = 1.5;
};

/// Area of the section [µm²]. fibre: see Fibre. Worked: 73.2 µm gives 4208 µm².
[[nodiscard]] double area_um2(const Fibre& fibre);
/// Diameter of the circle of equal area [µm]. area_um2: above 0. Worked: 4210 µm² gives 73.2 µm.
[[nodiscard]] double diameter_from_area_um(double area_um2);
/// Weight per length [g/km = tex]. Worked: 73.2 µm gives 5.56 tex.
[[nodiscard]] double tex(const Fibre& fibre);
/// Length of the section's edge [µm]: ellipse perimeter by Ramanujan's second formula
/// (ramanujan_1914), relative error below 1e-5 for the ellipticities allowed. Worked: 73.2 µm at
/// 1.66 gives 241 µm.
[[nodiscard]] double perimeter_um(const Fibre& fibre);
/// Surface of hair [m² per g]. Worked: 73.2 µm at 1.66 gives 0.0434 m²/g.
[[nodiscard]] double surface_m2_per_g(const Fibre& fibre);
/// Thickness of an even film of mix round every strand [µm]. grams_per_gram_hair: pick-up, 0 or
/// more; mix_density_g_per_ml: above 0, about 1 for creams (guess). Worked: 1 g/g gives 23.0 µm.
[[nodiscard]] double film_um(const Fibre& fibre, double grams_per_gram_hair,
                             double mix_density_g_per_ml);

/// A strand size a colourist names by touch, with its spread between heads.
struct StrandSize {
  std::string name;  ///< "not judged", "fine", "medium", "coarse"
  Fibre fibre;
  double sd_um = 0;  ///< of diameter_um
};
/// Source: data/hair/strand_sizes.csv (guess inside published group means).
[[nodiscard]] const std::vector<StrandSize>& strand_sizes();
/// Error: unknown_name for a word that is not in the list (where: "strand").
[[nodiscard]] Result<StrandSize> strand_size(const std::string& name);

/// The fibre, if it can be hair. where: what an error calls it. Errors: out_of_range.
[[nodiscard]] Result<Fibre> checked(const Fibre& fibre, const std::string& where = "fibre");

}  // namespace hw::hair
