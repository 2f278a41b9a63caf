// Uses the installed library for one real computation and fails when its answer is not right.
#include <huewright/base/statistics.h>

#include <cmath>
#include <cstdio>
#include <vector>

int main() {
  // Type 7 of Hyndman & Fan 1996: at 0.9 of five values the place is 3.6 between them.
  const std::vector<double> lift = {2, 4, 6, 8, 10};
  const double high = hw::band_of(lift).high;
  std::printf("90 %% quantile of %zu lifts: %.3f\n", lift.size(), high);
  return std::abs(high - 9.2) < 1e-12 ? 0 : 1;
}
