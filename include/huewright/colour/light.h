#pragma once
// What a colour is seen under: a light, an observer, and the weights the two make.
#include <span>
#include <string_view>

#include "huewright/colour/spectrum.h"

namespace hw::colour {

enum class Observer {
  deg2,   ///< CIE 1931, for fields below 4 degrees
  deg10,  ///< CIE 1964, for larger fields: a tress in the hand
};

/// Lights with a name. Source of all: cie015_2018.
enum class Illuminant {
  a,  ///< tungsten lamp
  d50,
  d55,
  d65,
  d75,  ///< daylight
  e,    ///< equal power at every wavelength
  fl2,
  fl11,  ///< fluorescent: standard, three-band
  led_b1,
  led_b2,
  led_b3,
  led_b4,
  led_b5,  ///< phosphor LED, warm to cool
  led_v1,
  led_v2,  ///< violet-pumped phosphor LED
};

/// Tristimulus values of the perfect diffuser [per cent, y = 100].
struct WhitePoint {
  double x = 0;
  double y = 0;
  double z = 0;
  bool operator==(const WhitePoint&) const = default;
};

/// A light seen by an observer. x, y, z: weights whose product with a reflectance (0 to 1), summed
/// over the bands in order, gives X, Y, Z with Y = 100 for the perfect diffuser. A hot loop may use
/// them directly.
struct Viewing {
  Spectrum light{};  ///< relative power
  Observer observer = Observer::deg10;
  Spectrum x{};
  Spectrum y{};
  Spectrum z{};
  WhitePoint white;  ///< the sums of x, y, z
};

/// The names illuminant_named() knows, in the order of the enum: A, D50, ..., LED-V2.
[[nodiscard]] std::span<const std::string_view> illuminant_names();

/// A light by its CIE name, such as "D65", "FL11", "LED-B3". Error: unknown_name (lists the names).
[[nodiscard]] Result<Illuminant> illuminant_named(std::string_view name);

/// The name of a light, such as "D65".
[[nodiscard]] std::string_view name_of(Illuminant light);

/// Relative spectral power [100 at 560 nm for A, E and the D series; as tabulated for the others].
/// A from its defining formula; the D series from the daylight components at the nominal
/// temperature times 1.4388/1.4380, M1 and M2 rounded to 3 decimals as the CIE does; the others
/// from tables. Source: cie015_2018, illuminants. Worked: D65 at 560 nm is 100.
[[nodiscard]] Spectrum illuminant(Illuminant light);
[[nodiscard]] Result<Spectrum> illuminant(std::string_view name);

/// CIE daylight of a correlated colour temperature [100 at 560 nm].
/// kelvin: 4000 to 25000 on today's scale (D65 is 6504 K, not 6500). Error: out_of_range.
/// Source: cie015_2018, daylight locus and M1, M2. Worked: 6503.6 K gives D65.
[[nodiscard]] Result<Spectrum> daylight(double kelvin);

/// Colour-matching functions [1] on the grid.
struct ColourMatching {
  Spectrum x{};
  Spectrum y{};
  Spectrum z{};
};
[[nodiscard]] const ColourMatching& colour_matching(Observer observer);

/// A light given as samples, brought to the grid by resample() [relative power].
/// start_nm, step_nm: nm; values: relative power, each ≥ 0. Between the lines of a spiky lamp the
/// interpolated power can fall a little below 0; it is kept, as astm_e308 keeps it.
/// Errors: those of resample(); out_of_range for a negative sample.
[[nodiscard]] Result<Spectrum> light_from_samples(double start_nm, double step_nm,
                                                  std::span<const double> values);

/// The weights of any light. light: relative power, finite, with more power than none where the eye
/// sees; its scale does not matter. The sum is the plain 5 nm sum over 380 to 780 nm (cie015_2018).
/// Error: out_of_range (a non-finite band, or no light to see by).
/// Worked: D65, 10 degrees: white 94.81, 100, 107.31.
[[nodiscard]] Result<Viewing> viewing(const Spectrum& light, Observer observer);

/// The weights of a named light: computed once, then shared. Safe from any thread.
[[nodiscard]] const Viewing& viewing(Illuminant light, Observer observer);

/// D65 and the 10 degree observer: what every number about hair is in.
[[nodiscard]] inline const Viewing& daylight_10deg() {
  return viewing(Illuminant::d65, Observer::deg10);
}

}  // namespace hw::colour
