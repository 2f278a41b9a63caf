#include "light_field.h"

#include <algorithm>
#include <cmath>

#include "solve.h"

namespace hw::photo {
namespace {

constexpr std::size_t kTerms = 4;   // level, two slopes, lens
constexpr double kSlopeSd = 0.5;    // ln of light over half a frame; guess
constexpr double kLensMean = -0.1;  // likewise, at the edge; guess
constexpr double kLensSd = 0.2;     // guess
constexpr double kLevelSd = 100;    // the level is not known
constexpr double kPaperSd = 0.01;   // what paper does at best, ln; guess

double brightness(const Sample& sample) {
  return std::log(std::max(1e-4, (sample.rgb[0] + 2 * sample.rgb[1] + sample.rgb[2]) / 4));
}

}  // namespace

std::array<double, 3> LightField::terms(PointPx point) const {
  const double x = (point.x - x0_) / half_;
  const double y = (point.y - y0_) / half_;
  return {x, y, x * x + y * y};
}

double LightField::at(PointPx point) const {
  const auto here = terms(point);
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) sum += coefficients_[i] * (here[i] - middle_[i]);
  return std::exp(sum);
}

double LightField::sd_at(PointPx point) const {
  const auto here = terms(point);
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      sum += (here[i] - middle_[i]) * covariance_[3 * i + j] * (here[j] - middle_[j]);
    }
  }
  return std::sqrt(std::max(0.0, sum));
}

std::vector<Sample> look_at_paper(const Frame& frame, const Profile& profile,
                                  const FoundSheet& found) {
  constexpr double kHalf = 1.5;  // mm; a piece of 3 mm
  constexpr double kStep = 6;    // mm
  constexpr double kIn = 4.5;    // mm between window and the row of pieces: half the gap, and a bit
  const double width = found.sheet.width_mm;
  const double height = found.sheet.height_mm;
  std::vector<Sample> paper;
  const auto add = [&](double x, double y) {
    paper.push_back(look_at(frame, profile, found.plane, {x, y}, kHalf));
  };
  // Near the window and as far out as the tags reach.
  for (const double out : {kIn, kTagGapMm + kTagMm - 2}) {
    for (double x = 0; x <= width; x += kStep) {
      add(x, -out);
      add(x, height + out);
    }
    for (double y = 0; y <= height; y += kStep) {
      add(-out, y);
      add(width + out, y);
    }
  }
  std::erase_if(paper, [](const Sample& sample) { return sample.pixels == 0; });
  return paper;
}

std::optional<LightField> fit_light(const Frame& frame, const std::vector<Sample>& paper,
                                    PointPx middle) {
  LightField field;
  field.half_ = frame.long_side() / 2;
  field.x0_ = static_cast<double>(frame.width()) / 2;
  field.y0_ = static_cast<double>(frame.height()) / 2;
  field.middle_ = field.terms(middle);
  std::vector<double> weight(paper.size(), 1.0);
  std::vector<double> left(paper.size(), 0.0);
  double sd = 0.03;  // of the first pass
  constexpr int kPasses = 4;
  for (int pass = 0; pass < kPasses; ++pass) {
    std::vector<double> a(kTerms * kTerms, 0.0);
    std::vector<double> b(kTerms, 0.0);
    const double prior[kTerms] = {kLevelSd, kSlopeSd, kSlopeSd, kLensSd};
    for (std::size_t i = 0; i < kTerms; ++i) a[i * kTerms + i] = 1 / (prior[i] * prior[i]);
    b[3] = kLensMean / (kLensSd * kLensSd);
    const auto row_of = [&](const Sample& sample) {
      const auto t = field.terms(sample.px);
      return std::array<double, kTerms>{1, t[0], t[1], t[2]};
    };
    for (std::size_t n = 0; n < paper.size(); ++n) {
      const auto row = row_of(paper[n]);
      const double w = weight[n] / (sd * sd);
      for (std::size_t i = 0; i < kTerms; ++i) {
        for (std::size_t j = 0; j < kTerms; ++j) a[i * kTerms + j] += w * row[i] * row[j];
        b[i] += w * row[i] * brightness(paper[n]);
      }
    }
    const auto solved = solve_positive(a, b);
    const auto inverse = inverse_positive(a, kTerms);
    if (!solved || !inverse) return std::nullopt;
    for (std::size_t i = 0; i < 3; ++i) {
      field.coefficients_[i] = (*solved)[i + 1];
      for (std::size_t j = 0; j < 3; ++j) {
        field.covariance_[3 * i + j] = (*inverse)[(i + 1) * kTerms + j + 1];
      }
    }
    std::vector<double> sizes;
    for (std::size_t n = 0; n < paper.size(); ++n) {
      const auto row = row_of(paper[n]);
      left[n] = brightness(paper[n]);
      for (std::size_t i = 0; i < kTerms; ++i) left[n] -= row[i] * (*solved)[i];
      sizes.push_back(std::abs(left[n]));
    }
    if (sizes.empty()) return std::nullopt;
    std::ranges::nth_element(sizes, sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2));
    constexpr double kMadToSd = 1.4826;  // of a normal distribution
    const double typical = kMadToSd * sizes[sizes.size() / 2];
    sd = std::max(kPaperSd, typical);
    constexpr double kFar = 3;
    std::size_t kept = 0;
    for (std::size_t n = 0; n < paper.size(); ++n) {
      weight[n] = std::abs(left[n]) < kFar * sd ? 1 : 0;
      kept += weight[n] > 0 ? 1 : 0;
    }
    constexpr std::size_t kLeast = 6;
    if (kept < kLeast) return std::nullopt;
    field.residual_ = typical;
  }
  return field;
}

}  // namespace hw::photo
