#include "huewright/process/nnls.h"

#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"

namespace hw::process {
namespace {

constexpr double kDependent = 1e-10;  // of a column's length: what is left is rounding

double dot(const double* a, const double* b, std::size_t n) {
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i) sum += a[i] * b[i];
  return sum;
}

/// Unknowns of the chosen columns, the others 0; `usable` loses the columns that depend on others.
std::vector<double> solve_in(const Columns& a, const std::vector<double>& b,
                             std::vector<bool>& chosen) {
  const std::size_t n = a.rows;
  std::vector<std::vector<double>> q;  // orthonormal
  std::vector<std::vector<double>> r;  // of each kept column, over the q before and its own
  std::vector<std::size_t> kept;
  for (std::size_t j = 0; j < a.cols; ++j) {
    if (!chosen[j]) continue;
    std::vector<double> v(a.values.begin() + static_cast<std::ptrdiff_t>(j * n),
                          a.values.begin() + static_cast<std::ptrdiff_t>((j + 1) * n));
    const double length = std::sqrt(dot(v.data(), v.data(), n));
    std::vector<double> along(q.size() + 1, 0.0);
    for (int pass = 0; pass < 2; ++pass) {  // the second takes off what rounding left
      for (std::size_t k = 0; k < q.size(); ++k) {
        const double c = dot(q[k].data(), v.data(), n);
        along[k] += c;
        for (std::size_t i = 0; i < n; ++i) v[i] -= c * q[k][i];
      }
    }
    const double own = std::sqrt(dot(v.data(), v.data(), n));
    if (!(own > kDependent * length)) {
      chosen[j] = false;
      continue;
    }
    for (double& value : v) value /= own;
    along.back() = own;
    q.push_back(std::move(v));
    r.push_back(std::move(along));
    kept.push_back(j);
  }
  std::vector<double> x(a.cols, 0.0);
  for (std::size_t k = kept.size(); k-- > 0;) {
    double rest = dot(q[k].data(), b.data(), n);
    for (std::size_t later = k + 1; later < kept.size(); ++later) {
      rest -= r[later][k] * x[kept[later]];
    }
    x[kept[k]] = rest / r[k][k];
  }
  return x;
}

std::vector<double> residual_of(const Columns& a, const std::vector<double>& b,
                                const std::vector<double>& x) {
  std::vector<double> residual = b;
  for (std::size_t j = 0; j < a.cols; ++j) {
    for (std::size_t i = 0; i < a.rows; ++i) residual[i] -= a.at(i, j) * x[j];
  }
  return residual;
}

LeastSquares answer_of(const Columns& a, const std::vector<double>& b, std::vector<double> x) {
  const auto residual = residual_of(a, b, x);
  return {std::move(x), std::sqrt(dot(residual.data(), residual.data(), a.rows))};
}

/// The free column that would lower the misfit fastest, or a.cols when none would.
std::size_t steepest(const Columns& a, const std::vector<double>& residual,
                     const std::vector<bool>& chosen, const std::vector<bool>& barred) {
  const double size = std::sqrt(dot(residual.data(), residual.data(), a.rows));
  std::size_t best = a.cols;
  double gain = 0;
  for (std::size_t j = 0; j < a.cols; ++j) {
    if (chosen[j] || barred[j]) continue;
    const double* column = a.values.data() + j * a.rows;
    const double length = std::sqrt(dot(column, column, a.rows));
    const double pull = dot(column, residual.data(), a.rows);
    if (pull > kDependent * length * size && pull > gain) {
      gain = pull;
      best = j;
    }
  }
  return best;
}

}  // namespace

LeastSquares least_squares(const Columns& a, const std::vector<double>& b) {
  HW_CHECK(b.size() == a.rows);
  std::vector<bool> chosen(a.cols, true);
  return answer_of(a, b, solve_in(a, b, chosen));
}

LeastSquares nonnegative_least_squares(const Columns& a, const std::vector<double>& b) {
  HW_CHECK(b.size() == a.rows);
  std::vector<double> x(a.cols, 0.0);
  std::vector<bool> chosen(a.cols, false);
  std::vector<bool> barred(a.cols, false);
  const std::size_t most_rounds = 10 * (a.cols + 1);  // each lowers the misfit; a guard, no tuning
  for (std::size_t round = 0; round < most_rounds; ++round) {
    const std::size_t entering = steepest(a, residual_of(a, b, x), chosen, barred);
    if (entering == a.cols) break;
    chosen[entering] = true;
    auto tried = solve_in(a, b, chosen);
    if (!chosen[entering] || tried[entering] <= 0) {  // depends on those inside
      chosen[entering] = false;
      barred[entering] = true;
      continue;
    }
    // Where the solution leaves the allowed side, go only as far as the first bound.
    for (;;) {
      double step = 1;
      std::size_t bound = a.cols;
      for (std::size_t j = 0; j < a.cols; ++j) {
        if (!chosen[j] || tried[j] > 0) continue;
        const double reach = x[j] / (x[j] - tried[j]);
        if (bound == a.cols || reach < step) bound = j, step = std::min(step, reach);
      }
      for (std::size_t j = 0; j < a.cols; ++j) x[j] += step * (tried[j] - x[j]);
      if (bound == a.cols) break;
      x[bound] = 0;
      chosen[bound] = false;
      tried = solve_in(a, b, chosen);
    }
    barred.assign(a.cols, false);
  }
  return answer_of(a, b, std::move(x));
}

}  // namespace hw::process
