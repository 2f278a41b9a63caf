#pragma once
// Order statistics of equally likely members.
#include <span>

namespace hw {

/// The low, middle and high of a band that should hold 8 times in 10.
struct Band {
  double low = 0;   ///< 10 % quantile
  double mid = 0;   ///< median
  double high = 0;  ///< 90 % quantile
};

/// Quantile of equally likely values by linear interpolation between order statistics (Hyndman &
/// Fan 1996, type 7). p: 0 to 1; values: at least one, finite, any order.
[[nodiscard]] double quantile(std::span<const double> values, double p);
[[nodiscard]] double mean(std::span<const double> values);
/// 10 %, 50 % and 90 % quantiles at once.
[[nodiscard]] Band band_of(std::span<const double> values);

}  // namespace hw
