#include "huewright/hair/fibre.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "embedded.h"
#include "hair_tables.h"
#include "huewright/hair/pigment.h"

namespace hw::hair {
namespace {

constexpr double kThinnest = 20;      // µm: job range of women's hair 17–180, rounded
constexpr double kThickest = 180;     // µm: same
constexpr double kFlattest = 3.25;    // [1]: textured_hair_2021, along single curly strands
constexpr double kGramsPerKm = 1e-3;  // µm² · g/cm³ = 1e-8 g/cm = 1e-3 g/km
constexpr double kM2PerGram = 1;      // µm / (µm² · g/cm³) = 1e4 cm⁻¹ / (g/cm³) = 1 m²/g
constexpr double kFilmMicrometres = 1;  // g/g / (m²/g · g/ml) = 1e-6 m

}  // namespace

double area_um2(const Fibre& fibre) {
  const double radius = fibre.diameter_um / 2;
  return std::numbers::pi * radius * radius;
}

double diameter_from_area_um(double area_um2) {
  return 2 * std::sqrt(area_um2 / std::numbers::pi);
}

double tex(const Fibre& fibre) {
  return kHairDensity * area_um2(fibre) * kGramsPerKm;
}

double perimeter_um(const Fibre& fibre) {
  const double wide = fibre.diameter_um / 2 * std::sqrt(fibre.ellipticity);
  const double narrow = fibre.diameter_um / 2 / std::sqrt(fibre.ellipticity);
  const double difference = (wide - narrow) / (wide + narrow);
  const double h = difference * difference;
  // Ramanujan's second formula; 3, 10 and 4 are its own coefficients.
  const double factor = 1 + 3 * h / (10 + std::sqrt(4 - 3 * h));
  return std::numbers::pi * (wide + narrow) * factor;
}

double surface_m2_per_g(const Fibre& fibre) {
  return kM2PerGram * perimeter_um(fibre) / (kHairDensity * area_um2(fibre));
}

double film_um(const Fibre& fibre, double grams_per_gram_hair, double mix_density_g_per_ml) {
  return kFilmMicrometres * grams_per_gram_hair / (surface_m2_per_g(fibre) * mix_density_g_per_ml);
}

const std::vector<StrandSize>& strand_sizes() {
  static const std::vector<StrandSize> sizes = [] {
    const Table table = embedded(tables::strand_sizes, "hair/strand_sizes.csv");
    std::vector<StrandSize> made;
    for (std::size_t i = 0; i < table.rows(); ++i) {
      StrandSize size;
      size.name = sound(table.text(i, "size"));
      size.fibre.diameter_um = sound(table.number(i, "diameter_um"));
      size.fibre.ellipticity = sound(table.number(i, "ellipticity"));
      size.sd_um = sound(table.number(i, "sd_um"));
      made.push_back(std::move(size));
    }
    return made;
  }();
  return sizes;
}

Result<StrandSize> strand_size(const std::string& name) {
  for (const StrandSize& size : strand_sizes()) {
    if (size.name == name) return size;
  }
  return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is not a strand size", name), "strand",
              "say not judged, fine, medium or coarse");
}

Result<Fibre> checked(const Fibre& fibre, const std::string& where) {
  if (!(fibre.diameter_um >= kThinnest && fibre.diameter_um <= kThickest)) {
    return fail(ErrorCode::out_of_range, fmt::format("{:g} um is not a strand", fibre.diameter_um),
                where + ".diameter_um",
                fmt::format("give {:g} to {:g} micrometres", kThinnest, kThickest));
  }
  if (!(fibre.ellipticity >= 1 && fibre.ellipticity <= kFlattest)) {
    return fail(
        ErrorCode::out_of_range, fmt::format("{:g} is not an ellipticity", fibre.ellipticity),
        where + ".ellipticity", fmt::format("give widest over narrowest, 1 to {:g}", kFlattest));
  }
  return fibre;
}

}  // namespace hw::hair
