// From answers in drills to one reader's eye.
#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/plan/drill.h"

namespace hw::plan {
namespace {

constexpr double kLow = 0.1, kMiddle = 0.5, kHigh = 0.9;

double squared(double x) {
  return x * x;
}

/// Quantile of the standard normal, |error| < 4.5e-4: Abramowitz & Stegun 26.2.23.
double normal_quantile(double p) {
  if (p == kMiddle) return 0;
  const double t = std::sqrt(-2 * log_portable(std::min(p, 1 - p)));
  const double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                           (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return p < kMiddle ? -x : x;
}

/// Normal with inverse chi-square over mean and variance.
struct Conjugate {
  double mean = 0, weight = 0;       ///< κ
  double variance = 0, freedom = 0;  ///< s², ν
  [[nodiscard]] Band of_mean() const {
    const double scale = std::sqrt(variance / weight);
    const auto at = [&](double p) { return mean + scale * student_quantile(p, freedom); };
    return {at(kLow), mean, at(kHigh)};
  }
  [[nodiscard]] Band of_sd() const {
    const auto at = [&](double p) {
      return std::sqrt(freedom * variance / chi_square_quantile(1 - p, freedom));
    };
    return {at(kLow), at(kMiddle), at(kHigh)};
  }
};

double off_of(const DrillAnswer& answer) {
  return answer.answered_level - answer.shown_level;
}

Conjugate after(std::span<const DrillAnswer> answers) {
  const DrillConstants& k = drill_constants();
  const auto n = static_cast<double>(answers.size());
  double mean = 0, squares = 0;
  for (const DrillAnswer& answer : answers) mean += off_of(answer) / n;
  for (const DrillAnswer& answer : answers) squares += squared(off_of(answer) - mean);
  Conjugate made;
  made.weight = k.offset_weight + n;
  made.freedom = k.spread_weight + n;
  made.mean = n * mean / made.weight;
  made.variance = (k.spread_weight * squared(k.spread_sd) + squares +
                   k.offset_weight * n / made.weight * squared(mean)) /
                  made.freedom;
  return made;
}

constexpr double kMiddleFrom = 4, kLightFrom = 7;  // levels; common practice, no source
constexpr std::array<std::string_view, 3> kDepths{"dark", "middle", "light"};

std::size_t depth_of(double level) {
  return level < kMiddleFrom ? 0 : level < kLightFrom ? 1 : 2;
}

void look_by_depth(std::span<const DrillAnswer> answers, const Conjugate& all, ReaderEye& eye) {
  const double spread = std::sqrt(all.variance);
  double differ = 0;
  for (std::size_t d = 0; d < kDepths.size(); ++d) {
    EyeAtDepth one{kDepths[d], 0, {}};
    double sum = 0;
    for (const DrillAnswer& answer : answers) {
      if (depth_of(answer.shown_level) != d) continue;
      ++one.count;
      sum += off_of(answer);
    }
    if (one.count == 0) continue;
    const auto n = static_cast<double>(one.count);
    const double scale = spread / std::sqrt(n);
    one.off = {sum / n + scale * student_quantile(kLow, all.freedom), sum / n,
               sum / n + scale * student_quantile(kHigh, all.freedom)};
    differ += squared((sum / n - eye.mean_off) / scale);
    eye.by_depth.push_back(one);
  }
  constexpr double kSure = 0.95;
  // χ² of few degrees as tables have it (the approximation is for three and more).
  constexpr std::array<double, 3> kBound{0, 3.841, 5.991};
  static_assert(kSure == 0.95 && kBound.size() == kDepths.size());
  eye.depth_matters = eye.by_depth.size() > 1 && differ > kBound.at(eye.by_depth.size() - 1);
}

}  // namespace

double student_quantile(double p, double degrees) {
  HW_CHECK(p > 0 && p < 1 && degrees >= 3);
  const double x = normal_quantile(p);
  const double x2 = x * x;
  const double g1 = x * (x2 + 1) / 4;
  const double g2 = x * ((5 * x2 + 16) * x2 + 3) / 96;
  const double g3 = x * (((3 * x2 + 19) * x2 + 17) * x2 - 15) / 384;
  const double g4 = x * ((((79 * x2 + 776) * x2 + 1482) * x2 - 1920) * x2 - 945) / 92160;
  return x + (g1 + (g2 + (g3 + g4 / degrees) / degrees) / degrees) / degrees;
}

double chi_square_quantile(double p, double degrees) {
  HW_CHECK(p > 0 && p < 1 && degrees >= 3);
  const double part = 2 / (9 * degrees);
  const double root = 1 - part + normal_quantile(p) * std::sqrt(part);
  return degrees * root * root * root;
}

ReaderEye eye_of(std::span<const DrillAnswer> answers) {
  HW_CHECK(!answers.empty());
  ReaderEye eye;
  eye.reader = answers.front().reader;
  eye.count = answers.size();
  for (const DrillAnswer& answer : answers) {
    eye.mean_off += off_of(answer) / static_cast<double>(eye.count);
  }
  const Conjugate all = after(answers);
  eye.offset = all.of_mean();
  eye.spread = all.of_sd();
  look_by_depth(answers, all, eye);
  return eye;
}

std::vector<ReaderEye> eyes_of(std::span<const DrillAnswer> answers) {
  std::vector<std::vector<DrillAnswer>> readers;
  for (const DrillAnswer& answer : answers) {
    auto at = std::ranges::find_if(
        readers, [&](const auto& own) { return own.front().reader == answer.reader; });
    if (at == readers.end()) at = readers.insert(at, std::vector<DrillAnswer>{});
    at->push_back(answer);
  }
  std::vector<ReaderEye> eyes;
  eyes.reserve(readers.size());
  for (const auto& own : readers) eyes.push_back(eye_of(own));
  return eyes;
}

PracticeFact practice_of(const ReaderEye& eye) {
  const double by_answers = eye.spread.mid / std::sqrt(static_cast<double>(eye.count));
  return {eye.reader, eye.mean_off, std::hypot(by_answers, drill_constants().screen_sd), eye.count};
}

}  // namespace hw::plan
