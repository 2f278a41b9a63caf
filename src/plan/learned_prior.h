#pragma once
// What past visits taught of one client, as a prior over members: HeadPriors::together.
#include <optional>
#include <span>
#include <vector>

#include "huewright/plan/belief.h"
#include "square.h"

namespace hw::plan {

/// A normal density.
class Gaussian {
 public:
  /// covariance: positive definite.
  Gaussian(std::vector<double> mean, const Square& covariance);
  [[nodiscard]] double log_density(const std::vector<double>& at) const;

 private:
  std::vector<double> mean_;
  Square root_{0};
  double log_root_ = 0;
};

/// The belief over rate, bias, and each known zone's pigment and rest, at the members of a head.
class LearnedTogether {
 public:
  /// None when nothing was learned of any of these zones, untouched as they are.
  [[nodiscard]] static std::optional<LearnedTogether> of(const HeadPriors& priors,
                                                         std::span<const ZoneBelief> zones);
  /// ln of the density at member m of the zones.
  [[nodiscard]] double log_density(std::span<const ZoneBelief> zones, std::size_t m) const;
  /// That of the rests alone.
  [[nodiscard]] double log_rest(std::span<const ZoneBelief> zones, std::size_t m) const;
  /// ln of the density over that which members were drawn from: each quantity by itself, rests as
  /// of a stranger.
  [[nodiscard]] double log_ratio(std::span<const ZoneBelief> zones, std::size_t m) const;
  [[nodiscard]] bool holds(std::size_t zone) const;

 private:
  LearnedTogether(std::vector<std::size_t> zones, std::vector<double> mean, Square covariance);
  [[nodiscard]] std::vector<double> at(std::span<const ZoneBelief> zones, std::size_t m) const;

  std::vector<std::size_t> zones_;  ///< of the head
  std::vector<double> mean_, sd_;
  Gaussian all_, rest_;
};

/// What a member's hair does beside pigment and rate: L* after a standard bowl on the zone's middle
/// pigment at a rate of 1, in sds of the members. Untouched zones only.
[[nodiscard]] std::vector<double> rest_scores(const ZoneBelief& zone);

/// The members of a head kept by how well their zones go together: by the evidence of readings that
/// each had to be drawn given another, and by what was learned. Deterministic in seed.
[[nodiscard]] std::vector<ZoneBelief> kept_together(const Case& head, std::vector<ZoneBelief> zones,
                                                    std::span<const double> log_evidence);

}  // namespace hw::plan
