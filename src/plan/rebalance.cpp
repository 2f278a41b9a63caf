// A bowl brought back into its ratio after too much of something was poured.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/plan/pours.h"

namespace hw::plan {
namespace {

using process::PartKind;

constexpr double kNoise = 1e-9;       // of arithmetic [g or steps]
constexpr double kMostGrams = 10000;  // of anything in one bowl; more is a slip of the pen

bool in(double value, double low, double high) {
  return value >= low && value <= high;
}

Result<void> checked(std::span<const BowlPart> parts, std::span<const double> poured,
                     double wanted_g, double step_g) {
  const auto outside = [](const std::string& where, double value) {
    return fail(ErrorCode::out_of_range, fmt::format("{} is outside its range", value), where,
                "check the number and its unit");
  };
  if (parts.empty()) return fail(ErrorCode::missing, "nothing to pour", "parts", "name a part");
  if (poured.size() != parts.size()) {
    return fail(ErrorCode::conflict, "not one weight for each part", "poured",
                "say 0 for what is not in the bowl yet");
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!in(parts[i].parts, kNoise, kMostGrams)) {
      return outside(fmt::format("parts[{}].parts", i), parts[i].parts);
    }
    if (!in(poured[i], 0, kMostGrams)) return outside(fmt::format("poured[{}]", i), poured[i]);
  }
  if (!in(wanted_g, 0, kMostGrams)) return outside("wanted_g", wanted_g);
  if (!in(step_g, 0.01, 10)) return outside("step_g", step_g);
  return {};
}

bool is_base(std::span<const BowlPart> parts, std::size_t i) {
  const auto holds = [](const BowlPart& part) {
    return part.kind == PartKind::colour || part.kind == PartKind::lightener;
  };
  if (std::any_of(parts.begin(), parts.end(), holds)) return holds(parts[i]);
  const auto largest =
      std::max_element(parts.begin(), parts.end(),
                       [](const BowlPart& a, const BowlPart& b) { return a.parts < b.parts; });
  return parts.begin() + static_cast<std::ptrdiff_t>(i) == largest;
}

}  // namespace

Result<Rebalanced> rebalance(std::span<const BowlPart> parts, std::span<const double> poured,
                             double wanted_g, double step_g) {
  if (const auto sound = checked(parts, poured, wanted_g, step_g); !sound) {
    return tl::unexpected(sound.error());
  }
  double all = 0, base_parts = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    all += parts[i].parts;
    base_parts += is_base(parts, i) ? parts[i].parts : 0;
  }
  // One part weighs what the whole wants, or what the fullest pour already stands for.
  double unit = wanted_g / all;
  for (std::size_t i = 0; i < parts.size(); ++i) unit = std::max(unit, poured[i] / parts[i].parts);
  Rebalanced made;
  made.still.resize(parts.size());
  const auto up = [&](double grams) { return std::ceil(grams / step_g - kNoise) * step_g; };
  double base_g = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!is_base(parts, i)) continue;
    made.still[i] = {parts[i].id, up(unit * parts[i].parts - poured[i])};
    base_g += poured[i] + made.still[i].grams;
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (is_base(parts, i)) continue;
    const double missing = base_g * parts[i].parts / base_parts - poured[i];
    const double steps = parts[i].kind == PartKind::developer
                             ? std::floor(missing / step_g + kNoise)
                             : std::round(missing / step_g);
    made.still[i] = {parts[i].id, std::max(0.0, steps) * step_g};
  }
  for (std::size_t i = 0; i < parts.size(); ++i) made.grams += poured[i] + made.still[i].grams;
  made.more_g = std::max(0.0, made.grams - wanted_g);
  return made;
}

}  // namespace hw::plan
