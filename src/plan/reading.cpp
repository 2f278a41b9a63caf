#include "reading.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/colour/matrix.h"

namespace hw::plan {
namespace {

double squared(double x) {
  return x * x;
}

/// An eye compares depth; the width of a wet look is carried into levels at the place it has.
double eye(const Reading& reading, double dry_lstar, double bias, const hair::Ladder& ladder) {
  const hair::MoistureShift wet = hair::moisture_shift(reading.moisture);
  const double seen = dry_lstar + wet.lstar;
  const double wet_sd = (ladder.level_of(seen + wet.sd) - ladder.level_of(seen - wet.sd)) / 2;
  const double sd = std::hypot(kEyeSdLevels, wet_sd);
  return -0.5 * squared((*reading.level - ladder.level_of(seen) - bias) / sd) - std::log(sd);
}

double instrument(const Reading& reading, const colour::HairLab& dry, const hair::Ladder& ladder) {
  const hair::MoistureShift wet = hair::moisture_shift(reading.moisture);
  const double sd = std::hypot(kInstrumentLstarSd, wet.sd);
  const double lstar = reading.lab ? reading.lab->l : ladder.lstar_of(*reading.level);
  double sum = -0.5 * squared((lstar - dry.l - wet.lstar) / sd) - std::log(sd);
  if (reading.lab) {
    sum -= 0.5 * (squared((reading.lab->a - dry.a) / kInstrumentChromaSd) +
                  squared((reading.lab->b - dry.b) / kInstrumentChromaSd));
  }
  return sum;
}

/// A photo's own normal likelihood, widened by what any tress read twice is off by, and by a wet
/// look.
double photo(const Reading& reading, const colour::HairLab& dry) {
  const hair::MoistureShift wet = hair::moisture_shift(reading.moisture);
  colour::Matrix3 spread{};
  for (std::size_t i = 0; i < 9; ++i) spread[i / 3][i % 3] = (*reading.covariance)[i];
  spread[0][0] += squared(kInstrumentLstarSd) + squared(wet.sd);
  spread[1][1] += squared(kInstrumentChromaSd);
  spread[2][2] += squared(kInstrumentChromaSd);
  const auto inverse = colour::inverse(spread);
  HW_CHECK(inverse.has_value());  // positive definite: wire looks at it
  const colour::Vector3 apart{reading.lab->l - dry.l - wet.lstar, reading.lab->a - dry.a,
                              reading.lab->b - dry.b};
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) sum += apart[i] * (*inverse)[i][j] * apart[j];
  }
  return -0.5 * sum;
}

}  // namespace

double log_likelihood(std::span<const Reading> readings, const colour::HairLab& dry, double bias,
                      const hair::Ladder& ladder) {
  double sum = 0;
  for (const Reading& reading : readings) {
    if (reading.by == Reader::photo && reading.lab && reading.covariance) {
      sum += photo(reading, dry);
      continue;
    }
    sum += reading.by == Reader::eye && reading.level ? eye(reading, dry.l, bias, ladder)
                                                      : instrument(reading, dry, ladder);
  }
  return sum;
}

}  // namespace hw::plan
