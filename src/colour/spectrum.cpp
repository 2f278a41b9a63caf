#include "huewright/colour/spectrum.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hw::colour {
namespace {

// A grid point closer than this share of a step to a sample is that sample: start + i·step in
// binary rarely lands on it exactly.
constexpr double kSamePoint = 1e-9;

// Value at `position` (in steps from the first node) of the polynomial through nodes 0, 1, 2, ...
double lagrange(std::span<const double> nodes, double position) {
  double sum = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    double basis = 1;
    for (std::size_t j = 0; j < nodes.size(); ++j) {
      if (j == i) continue;
      basis *=
          (position - static_cast<double>(j)) / (static_cast<double>(i) - static_cast<double>(j));
    }
    sum += basis * nodes[i];
  }
  return sum;
}

double value_at(std::span<const double> values, double position) {
  const auto last = values.size() - 1;
  if (position <= 0) return values.front();
  if (position >= static_cast<double>(last)) return values.back();
  const double nearest = std::round(position);
  if (std::abs(position - nearest) < kSamePoint) return values[static_cast<std::size_t>(nearest)];
  const auto left = static_cast<std::size_t>(position);
  std::size_t first = left == 0 ? 0 : left - 1;
  std::size_t count = (left == 0 || left + 1 == last) ? 3 : 4;
  count = std::min(count, values.size());
  first = std::min(first, values.size() - count);
  return lagrange(values.subspan(first, count), position - static_cast<double>(first));
}

}  // namespace

Result<Spectrum> resample(double start_nm, double step_nm, std::span<const double> values) {
  if (values.size() < 2) {
    return fail(ErrorCode::missing,
                fmt::format("a spectrum needs at least 2 values, this one has {}", values.size()),
                "values", "give one value per wavelength step");
  }
  if (!std::isfinite(start_nm)) {
    return fail(ErrorCode::out_of_range, "the first wavelength is not a finite number", "start_nm",
                "give it in nanometres, such as 380");
  }
  if (!std::isfinite(step_nm) || step_nm <= 0) {
    return fail(ErrorCode::out_of_range,
                fmt::format("the wavelength step is {} nm, it must be above 0", step_nm), "step_nm",
                "give the distance between two values in nanometres, such as 10");
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isfinite(values[i])) {
      return fail(ErrorCode::out_of_range, "the value is not a finite number",
                  fmt::format("values[{}]", i), "leave out wavelengths that were not measured");
    }
  }
  const double end_nm = start_nm + step_nm * static_cast<double>(values.size() - 1);
  if (end_nm < kFirstNm || start_nm > kLastNm) {
    return fail(
        ErrorCode::out_of_range,
        fmt::format("the spectrum covers {} to {} nm, nothing of 380 to 780 nm", start_nm, end_nm),
        "start_nm", "give wavelengths in nanometres");
  }
  Spectrum out{};
  for (std::size_t band = 0; band < kBands; ++band) {
    out[band] = value_at(values, (wavelength_nm(band) - start_nm) / step_nm);
  }
  return out;
}

}  // namespace hw::colour
