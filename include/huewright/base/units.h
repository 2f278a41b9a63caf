#pragma once
// Thin strong types for the public interfaces: a number cannot be passed where another unit is
// meant. Kernels take plain doubles whose names carry the unit.
#include <compare>

namespace hw {

/// A number with its unit in the type. Construction is explicit; arithmetic stays inside one unit.
template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}
  [[nodiscard]] constexpr double value() const { return value_; }

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator+(Quantity other) const { return Quantity(value_ + other.value_); }
  constexpr Quantity operator-(Quantity other) const { return Quantity(value_ - other.value_); }
  constexpr Quantity operator*(double factor) const { return Quantity(value_ * factor); }
  constexpr Quantity operator/(double divisor) const { return Quantity(value_ / divisor); }
  constexpr double operator/(Quantity other) const { return value_ / other.value_; }
  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }

 private:
  double value_ = 0;
};

using Minutes = Quantity<struct MinutesTag>;          // min
using Celsius = Quantity<struct CelsiusTag>;          // °C
using Grams = Quantity<struct GramsTag>;              // g
using Percent = Quantity<struct PercentTag>;          // per cent; by mass unless a name says else
using Centimetres = Quantity<struct CentimetresTag>;  // cm
using Micrometres = Quantity<struct MicrometresTag>;  // µm
using Nanometres = Quantity<struct NanometresTag>;    // nm
using Years = Quantity<struct YearsTag>;              // years

}  // namespace hw
