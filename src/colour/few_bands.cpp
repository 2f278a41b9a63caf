#include "huewright/colour/few_bands.h"

#include <algorithm>

#include "huewright/base/check.h"

namespace hw::colour {
namespace {

constexpr std::size_t kFirst400 = 4;  // 400 nm on the 5 nm bands from 380

/// What a node of a cubic through four neighbouring nodes counts at `at` (in nodes from the first).
double cubic_share(double at, std::size_t node) {
  double share = 1;
  for (std::size_t other = 0; other < 4; ++other) {
    if (other == node) continue;
    share *= (at - static_cast<double>(other)) /
             (static_cast<double>(node) - static_cast<double>(other));
  }
  return share;
}

std::vector<double> folded(const Spectrum& weight, const FewBands& bands, std::size_t count) {
  std::vector<double> nodes(count, 0);
  for (std::size_t band = 0; band < kBands; ++band) {
    const double at = (static_cast<double>(band) - static_cast<double>(bands.first)) /
                      static_cast<double>(bands.stride);
    const auto last = static_cast<double>(count - 1);
    if (at <= 0 || at >= last) {
      nodes[at <= 0 ? 0 : count - 1] += weight[band];
      continue;
    }
    const std::size_t start =
        std::clamp<std::size_t>(static_cast<std::size_t>(at), 1, count - 3) - 1;
    for (std::size_t node = 0; node < 4; ++node) {
      nodes[start + node] += weight[band] * cubic_share(at - static_cast<double>(start), node);
    }
  }
  // What absorbs more must not look lighter: no weight may be below 0.
  for (std::size_t node = 0; node < count; ++node) {
    if (nodes[node] >= 0) continue;
    nodes[node == 0 ? 1 : node - 1] += nodes[node];
    nodes[node] = 0;
  }
  return nodes;
}

}  // namespace

FewBands few_bands(const Viewing& viewing, std::size_t first, std::size_t stride,
                   std::size_t count) {
  HW_CHECK(stride > 0 && count >= 4 && first + (count - 1) * stride < kBands);
  FewBands bands;
  bands.first = first;
  bands.stride = stride;
  bands.x = folded(viewing.x, bands, count);
  bands.y = folded(viewing.y, bands, count);
  bands.z = folded(viewing.z, bands, count);
  bands.white = viewing.white;
  return bands;
}

const FewBands& daylight_10nm() {
  static const FewBands bands = few_bands(daylight_10deg(), kFirst400, 2, 31);
  return bands;
}

const FewBands& daylight_20nm() {
  static const FewBands bands = few_bands(daylight_10deg(), kFirst400, 4, 16);
  return bands;
}

}  // namespace hw::colour
