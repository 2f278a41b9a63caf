#pragma once
// A light's weights on fewer bands than the 81 of 5 nm, for searches: every stride-th band from a
// first one on, each 5 nm weight handed to the four nodes about it by the cubic through them. A
// perfect diffuser keeps its white, and a reflectance that is a cubic between nodes its colour.
// Tresses with dyes: within 0.02 CIEDE2000 at 10 nm and 0.06 at 20 nm
// (tests/property/plan_formula_test.cpp).
#include <cstddef>
#include <vector>

#include "huewright/colour/light.h"

namespace hw::colour {

struct FewBands {
  std::size_t first = 0;        ///< index of the first node on the 5 nm bands
  std::size_t stride = 1;       ///< 5 nm bands from node to node
  std::vector<double> x, y, z;  ///< weights, ≥ 0
  WhitePoint white;             ///< their sums
  [[nodiscard]] std::size_t size() const { return x.size(); }
  /// The 5 nm band that a node stands on.
  [[nodiscard]] std::size_t band(std::size_t node) const { return first + node * stride; }
};

/// count: nodes, ≥ 4, the last one within the 81 bands. What lies outside them is counted at the
/// end nodes; a weight that would come out below 0 is given to its neighbour.
[[nodiscard]] FewBands few_bands(const Viewing& viewing, std::size_t first, std::size_t stride,
                                 std::size_t count);

/// D65, 10 degrees, 31 nodes of 10 nm from 400 to 700 nm: computed once, then shared.
[[nodiscard]] const FewBands& daylight_10nm();
/// The same by 20 nm: 16 nodes.
[[nodiscard]] const FewBands& daylight_20nm();

}  // namespace hw::colour
