#include "huewright/process/strip_scale.h"

#include <algorithm>
#include <cmath>

namespace hw::process {
namespace {

constexpr double kBlackStep = 5;
constexpr double kTopStep = 20;
constexpr double kBlackLstar = 18.9;
constexpr double kSlope = 0.274;
constexpr double kPower = 1.952;

}  // namespace

double lstar_of_step(double step) {
  const double above = std::clamp(step, kBlackStep, kTopStep) - kBlackStep;
  return kBlackLstar + kSlope * std::pow(above, kPower);
}

double step_of_lstar(double lstar) {
  const double above = std::max(0.0, lstar - kBlackLstar);
  return kBlackStep + std::pow(above / kSlope, 1 / kPower);
}

}  // namespace hw::process
