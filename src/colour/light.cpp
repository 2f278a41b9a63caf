#include "huewright/colour/light.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "colour_tables.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"

namespace hw::colour {
namespace {

constexpr std::array<std::string_view, 15> kNames = {
    "A",      "D50",    "D55",    "D65",    "D75",    "E",      "FL2",   "FL11",
    "LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5", "LED-V1", "LED-V2"};

// Nominal temperatures of the D series are on the scale of c2 = 1.4380e-2 m K; the value of today
// is 1.4388e-2 (cie015_2018, D series).
constexpr double kOldC2 = 1.4380;
constexpr double kNewC2 = 1.4388;
constexpr double kPowerAt560 = 100;  // normalisation of A, E and D, cie015_2018

Table table_of(std::string_view text, std::string name) {
  auto table = parse_table(text, std::move(name));
  HW_CHECK(table.has_value());
  HW_CHECK(table->rows() == kBands);
  return *std::move(table);
}

Spectrum column(const Table& table, std::string_view name) {
  const auto values = table.numbers(name);
  HW_CHECK(values.has_value());
  Spectrum out{};
  std::copy(values->begin(), values->end(), out.begin());
  return out;
}

ColourMatching matching_of(std::string_view text, std::string name) {
  const Table table = table_of(text, std::move(name));
  return {column(table, "x_bar"), column(table, "y_bar"), column(table, "z_bar")};
}

// Standard illuminant A: defined by Planck's law at 2848 K with c2 = 1.435e7 nm K, scaled to 100 at
// 560 nm (cie015_2018, standard illuminant A).
Spectrum tungsten() {
  constexpr double kC2NmK = 1.435e7;
  constexpr double kKelvin = 2848;
  constexpr double kReferenceNm = 560;
  const double reference = std::exp(kC2NmK / (kKelvin * kReferenceNm)) - 1;
  Spectrum out{};
  for (std::size_t band = 0; band < kBands; ++band) {
    const double nm = wavelength_nm(band);
    const double ratio = kReferenceNm / nm;
    out[band] = kPowerAt560 * ratio * ratio * ratio * ratio * ratio * reference /
                (std::exp(kC2NmK / (kKelvin * nm)) - 1);
  }
  return out;
}

struct DaylightComponents {
  Spectrum s0{};
  Spectrum s1{};
  Spectrum s2{};
};

const DaylightComponents& daylight_components() {
  static const DaylightComponents components = [] {
    const Table table = table_of(tables::daylight_components_5nm, "daylight_components_5nm.csv");
    return DaylightComponents{column(table, "s0"), column(table, "s1"), column(table, "s2")};
  }();
  return components;
}

double three_decimals(double value) {
  return std::round(value * 1000) / 1000;
}

// Daylight locus and component weights: cie015_2018, D series (judd1964).
Spectrum daylight_at(double kelvin) {
  constexpr double kLocusBreak = 7000;  // K
  const double t = kelvin;
  const double x = t <= kLocusBreak ? ((-4.6070e9 / t + 2.9678e6) / t + 0.09911e3) / t + 0.244063
                                    : ((-2.0064e9 / t + 1.9018e6) / t + 0.24748e3) / t + 0.237040;
  const double y = (-3.000 * x + 2.870) * x - 0.275;
  const double divisor = 0.0241 + 0.2562 * x - 0.7341 * y;
  const double m1 = three_decimals((-1.3515 - 1.7703 * x + 5.9114 * y) / divisor);
  const double m2 = three_decimals((0.0300 - 31.4424 * x + 30.0717 * y) / divisor);
  const auto& parts = daylight_components();
  Spectrum out{};
  for (std::size_t band = 0; band < kBands; ++band) {
    out[band] = parts.s0[band] + m1 * parts.s1[band] + m2 * parts.s2[band];
  }
  return out;
}

std::string column_name(std::string_view light) {
  std::string out;
  for (const char c : light) {
    const bool upper = 'A' <= c && c <= 'Z';
    out += c == '-' ? '_' : upper ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

Spectrum tabulated(Illuminant light) {
  static const Table table = table_of(tables::illuminants_5nm, "illuminants_5nm.csv");
  return column(table, column_name(name_of(light)));
}

}  // namespace

std::span<const std::string_view> illuminant_names() {
  return kNames;
}

std::string_view name_of(Illuminant light) {
  return kNames.at(static_cast<std::size_t>(light));
}

Result<Illuminant> illuminant_named(std::string_view name) {
  const auto found = std::find(kNames.begin(), kNames.end(), name);
  if (found == kNames.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("no light is called \"{}\"", name),
                "illuminant",
                fmt::format("use one of {}, or give its spectrum", fmt::join(kNames, ", ")));
  }
  return static_cast<Illuminant>(found - kNames.begin());
}

Spectrum illuminant(Illuminant light) {
  const auto nominal = [](double kelvin) { return daylight_at(kelvin * kNewC2 / kOldC2); };
  switch (light) {
    case Illuminant::a:
      return tungsten();
    case Illuminant::d50:
      return nominal(5000);
    case Illuminant::d55:
      return nominal(5500);
    case Illuminant::d65:
      return nominal(6500);
    case Illuminant::d75:
      return nominal(7500);
    case Illuminant::e: {
      Spectrum equal{};
      equal.fill(kPowerAt560);
      return equal;
    }
    default:
      return tabulated(light);
  }
}

Result<Spectrum> illuminant(std::string_view name) {
  return illuminant_named(name).map([](Illuminant light) { return illuminant(light); });
}

Result<Spectrum> daylight(double kelvin) {
  constexpr double kLow = 4000;    // K, range of the locus formulae
  constexpr double kHigh = 25000;  // K
  if (!(kLow <= kelvin && kelvin <= kHigh)) {
    return fail(ErrorCode::out_of_range, fmt::format("daylight of {} K is not defined", kelvin),
                "kelvin", "give 4000 to 25000 K");
  }
  return daylight_at(kelvin);
}

const ColourMatching& colour_matching(Observer observer) {
  static const ColourMatching deg2 =
      matching_of(tables::observer_1931_2deg_5nm, "observer_1931_2deg_5nm.csv");
  static const ColourMatching deg10 =
      matching_of(tables::observer_1964_10deg_5nm, "observer_1964_10deg_5nm.csv");
  return observer == Observer::deg2 ? deg2 : deg10;
}

Result<Spectrum> light_from_samples(double start_nm, double step_nm,
                                    std::span<const double> values) {
  const auto negative = std::find_if(values.begin(), values.end(), [](double v) { return v < 0; });
  if (negative != values.end()) {
    return fail(ErrorCode::out_of_range,
                fmt::format("the light's power is {}, it must be 0 or more", *negative),
                fmt::format("values[{}]", negative - values.begin()),
                "give relative power, 0 where the lamp gives nothing");
  }
  return resample(start_nm, step_nm, values);
}

Result<Viewing> viewing(const Spectrum& light, Observer observer) {
  const auto& eye = colour_matching(observer);
  double seen = 0;
  for (std::size_t band = 0; band < kBands; ++band) {
    if (!std::isfinite(light[band])) {
      return fail(
          ErrorCode::out_of_range,
          fmt::format("the light's power at {} nm is not a finite number", wavelength_nm(band)),
          "illuminant", "give relative power, 0 where the lamp gives nothing");
    }
    seen += light[band] * eye.y[band];
  }
  if (!(seen > 0) || !std::isfinite(seen)) {
    return fail(ErrorCode::out_of_range, "the light has no power that the eye can see",
                "illuminant", "give relative power for 380 to 780 nm, such as 100 at 560 nm");
  }
  constexpr double kDiffuserY = 100;  // Y of the perfect diffuser
  const double scale = kDiffuserY / seen;
  Viewing out;
  out.light = light;
  out.observer = observer;
  for (std::size_t band = 0; band < kBands; ++band) {
    out.x[band] = scale * light[band] * eye.x[band];
    out.y[band] = scale * light[band] * eye.y[band];
    out.z[band] = scale * light[band] * eye.z[band];
    out.white.x += out.x[band];
    out.white.y += out.y[band];
    out.white.z += out.z[band];
  }
  return out;
}

const Viewing& viewing(Illuminant light, Observer observer) {
  static const std::vector<std::array<Viewing, 2>> all = [] {
    std::vector<std::array<Viewing, 2>> made;
    for (std::size_t i = 0; i < kNames.size(); ++i) {
      const Spectrum power = illuminant(static_cast<Illuminant>(i));
      auto small = viewing(power, Observer::deg2);
      auto large = viewing(power, Observer::deg10);
      HW_CHECK(small.has_value() && large.has_value());
      made.push_back({*small, *large});
    }
    return made;
  }();
  return all.at(static_cast<std::size_t>(light))[observer == Observer::deg2 ? 0 : 1];
}

}  // namespace hw::colour
