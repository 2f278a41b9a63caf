#include "huewright/plan/lift_recipe.h"

#include "visit_hair.h"

namespace hw::plan {

double wet_strength_left(double x0, double x, bool reshaped, double interaction) {
  constexpr double kLossPerCystine = 0.87;  // work to 20 % strain: one point, x taken as 0.45
  const double left = (1 - kLossPerCystine * x) / (1 - kLossPerCystine * x0);
  return reshaped ? left * interaction : left;
}

process::LiftMembers one_member(const process::LiftMembers& members, std::size_t m) {
  return some_members(members, {&m, 1});
}

}  // namespace hw::plan
