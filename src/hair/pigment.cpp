#include "huewright/hair/pigment.h"

#include <cmath>
#include <string>

#include "hair_tables.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"

namespace hw::hair {
namespace {

/// Absorption per per cent of mass: ln10 · (mg/mL per per cent) · decadic extinction.
colour::Spectrum melanin_column(std::string_view column) {
  constexpr double kMgPerMlPerPercent = 10 * kHairDensity;  // 1 % of 1.32 g/mL is 13.2 mg/mL
  const auto table = parse_table(tables::melanin_extinction, "hair/melanin_extinction.csv");
  HW_CHECK(table.has_value());
  const auto extinction = table->numbers(column);
  HW_CHECK(extinction && extinction->size() == colour::kBands);
  colour::Spectrum per_percent{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    per_percent[i] = std::log(10.0) * kMgPerMlPerPercent * (*extinction)[i];
  }
  return per_percent;
}

}  // namespace

const colour::Spectrum& eumelanin_per_percent() {
  static const colour::Spectrum spectrum = melanin_column("eumelanin_per_cm_per_mg_ml");
  return spectrum;
}

const colour::Spectrum& pheomelanin_per_percent() {
  static const colour::Spectrum spectrum = melanin_column("pheomelanin_per_cm_per_mg_ml");
  return spectrum;
}

colour::Spectrum base_absorption(const Base& base) {
  constexpr double kBlueNm = 450;  // where blue_per_cm is stated
  colour::Spectrum mu{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double nm = colour::kFirstNm + colour::kStepNm * static_cast<double>(i);
    mu[i] = base.flat_per_cm + base.blue_per_cm * std::exp(-(nm - kBlueNm) / base.decay_nm);
  }
  return mu;
}

colour::Spectrum dye_absorption(const std::vector<DyeBand>& bands) {
  constexpr double kNmPerCm = 1e7;
  colour::Spectrum mu{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double nm = colour::kFirstNm + colour::kStepNm * static_cast<double>(i);
    for (const DyeBand& band : bands) {
      const double offset = (kNmPerCm / nm - kNmPerCm / band.peak_nm) / band.width_per_cm;
      mu[i] += band.height_per_cm * std::exp(-4 * std::log(2.0) * offset * offset);
    }
  }
  return mu;
}

colour::Spectrum old_colour_absorption(const std::string& tone) {
  // Relative heights of a yellow-absorbing, a red- and a blue-giving band: guesses, by tone word.
  struct Mix {
    double at_440, at_510, at_600;
  };
  Mix mix{1.0, 1.0, 1.0};
  if (tone == "red") mix = {1.0, 1.3, 0.45};
  if (tone == "copper") mix = {1.4, 1.0, 0.35};
  if (tone == "ash") mix = {0.9, 0.9, 1.25};
  colour::Spectrum mu =
      dye_absorption({{440, 5500, mix.at_440}, {510, 5000, mix.at_510}, {600, 5000, mix.at_600}});
  double sum = 0;
  int count = 0;
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double nm = colour::kFirstNm + colour::kStepNm * static_cast<double>(i);
    if (nm >= 450 && nm <= 650) {
      sum += mu[i];
      ++count;
    }
  }
  for (double& value : mu) value *= count / sum;
  return mu;
}

}  // namespace hw::hair
