#include "huewright/process/dye.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numbers>
#include <numeric>

#include "figures.h"
#include "huewright/base/check.h"
#include "huewright/hair/pigment.h"
#include "huewright/process/cylinder_series.h"
#include "process_tables.h"

namespace hw::process {
namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

DyeFamily family_of(const std::string& word) {
  const auto family = dye_family_named(word);
  HW_CHECK(family.has_value());
  return *family;
}

Error no_spectrum(const Dye& dye) {
  return {ErrorCode::missing, fmt::format("no spectrum of {} was published", dye.name), "dyes",
          "leave it out, and let the swatch reading speak"};
}

}  // namespace

const std::vector<Dye>& dyes() {
  static const std::vector<Dye> all = [] {
    const Table table = embedded_table(tables::dyes, "process/dyes.csv");
    std::vector<Dye> list;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      Dye dye;
      dye.name = *table.text(row, "name");
      dye.family = family_of(*table.text(row, "family"));
      const auto dye_class = dye_class_named(*table.text(row, "class"));
      HW_CHECK(dye_class.has_value());
      dye.dye_class = *dye_class;
      dye.chemistry = *table.text(row, "chemistry");
      dye.charge = static_cast<int>(*table.number(row, "charge"));
      for (const char* column : {"peak_nm", "second_peak_nm"}) {
        if (const double peak = *table.number(row, column); peak > 0) dye.peaks_nm.push_back(peak);
      }
      dye.width_per_cm = *table.number(row, "width_per_cm");
      dye.molar_absorptivity = *table.number(row, "molar_absorptivity");
      dye.molar_mass = *table.number(row, "molar_mass");
      dye.radius_angstrom = *table.number(row, "radius_angstrom");
      dye.grade = *table.text(row, "grade");
      dye.source = *table.text(row, "source");
      list.push_back(std::move(dye));
    }
    return list;
  }();
  return all;
}

Result<Dye> dye_named(std::string_view name) {
  const std::string wanted = lower(name);
  for (const Dye& dye : dyes()) {
    if (lower(dye.name) == wanted) return dye;
  }
  // Names that share the first word, such as "HC" or "Basic", are what was meant most often.
  const std::string start = wanted.substr(0, wanted.find(' '));
  std::string near;
  for (const Dye& dye : dyes()) {
    if (!lower(dye.name).starts_with(start)) continue;
    near += fmt::format("{}{}", near.empty() ? "" : ", ", dye.name);
  }
  return fail(ErrorCode::unknown_name, fmt::format("no dye is called \"{}\"", name), "dyes",
              near.empty() ? "give the INCI or Colour Index name of the label" : "give " + near);
}

Result<colour::Spectrum> dye_shape(const Dye& dye) {
  if (dye.peaks_nm.empty()) return tl::unexpected(no_spectrum(dye));
  std::vector<hair::DyeBand> bands;
  for (const double peak : dye.peaks_nm) {
    bands.push_back({peak, dye.width_per_cm, 1 / static_cast<double>(dye.peaks_nm.size())});
  }
  return hair::dye_absorption(bands);
}

Result<colour::Spectrum> dye_in_hair(const Dye& dye, double mol_per_l) {
  if (!(dye.molar_absorptivity > 0)) return tl::unexpected(no_spectrum(dye));
  auto shape = dye_shape(dye);
  if (!shape) return shape;
  for (double& mu : *shape) mu *= std::numbers::ln10 * dye.molar_absorptivity * mol_per_l;
  return shape;
}

double water_diffusion_m2_per_s(double radius_angstrom) {
  constexpr double kBoltzmann = 1.380649e-23;  // J/K, CODATA 2018 (exact)
  constexpr double kKelvin = 298.15;           // 25 °C
  constexpr double kWaterPaS = 0.89e-3;        // viscosity of water at 25 °C; from memory
  constexpr double kMetresPerAngstrom = 1e-10;
  return kBoltzmann * kKelvin /
         (6 * std::numbers::pi * kWaterPaS * radius_angstrom * kMetresPerAngstrom);
}

double dye_diffusion_m2_per_s(double radius_angstrom) {
  constexpr double kPoreAngstrom = 7.9;          // where the measured line meets zero
  constexpr double kPerSquareAngstrom = 2.1e-6;  // through the two measured dyes
  const double room = std::max(0.0, kPoreAngstrom - radius_angstrom);
  return water_diffusion_m2_per_s(radius_angstrom) * kPerSquareAngstrom * room * room;
}

double fibre_fill(double diffusion_m2_per_s, double minutes, double strand_um, double biot) {
  constexpr double kSecondsPerMinute = 60;
  constexpr double kMetresPerUm = 1e-6;
  const double radius_m = strand_um / 2 * kMetresPerUm;
  const double tau = diffusion_m2_per_s * minutes * kSecondsPerMinute / (radius_m * radius_m);
  // Below the least τ of the series a cylinder is still a plane: its own short-time law.
  if (tau >= kLeastTau) return cylinder_uptake_series(tau, biot);
  const double full = cylinder_uptake_series(kLeastTau, biot);
  return std::isinf(biot) ? full * std::sqrt(tau / kLeastTau) : full * tau / kLeastTau;
}

double nitro_peak_nm(const NitroSubstituents& substituents) {
  constexpr double kBareNm = 471;
  constexpr double kNearNm = 25;  // 24 to 26
  constexpr double kFarNm = 20;   // 19 to 21 each
  return kBareNm + (substituents.near_alkyl ? kNearNm : 0) + kFarNm * substituents.far_alkyls;
}

std::vector<double> primary_shares(std::span<const double> moles) {
  const double sum = std::accumulate(moles.begin(), moles.end(), 0.0);
  HW_CHECK(sum > 0);
  std::vector<double> shares;
  for (const double amount : moles) shares.push_back(amount / sum);
  return shares;
}

}  // namespace hw::process
