#include "cvode_lift.h"

#include <cvodes/cvodes.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

#include <algorithm>
#include <cmath>

#include "huewright/base/check.h"

namespace hw::bench {
namespace {

/// What the callbacks of CVODE see.
struct Problem {
  const Cells* cells;
  MemberRates rates;
  std::size_t stride;  ///< of the peroxides in the state: 1, or 2 with exposures between them
  [[nodiscard]] std::size_t theta_at() const { return stride * cells->size(); }
};

struct Film {
  double percent;   ///< active peroxide outside the strand
  double access;    ///< D/R² [1/min]
  double by_theta;  ///< slope of percent
};

Film film_at(const MemberRates& k, double minute, double theta) {
  const double wear = std::sqrt(k.wear_start_sq + k.kappa_sq * theta);
  const bool capped = wear >= process::kWearCap;
  const double unused =
      1 - k.used_per_wear * (std::min(wear, process::kWearCap) - k.wear_at_mixing);
  const double fresh = k.film_percent * std::exp(-k.loss_per_min * minute);
  const bool spent = unused <= 0;
  return {spent ? 0 : fresh * unused,
          k.access_per_min *
              process::opening(k.open_peroxide, k.open_powder, theta, theta * k.powder_share),
          spent || capped || wear <= 0 ? 0 : -fresh * k.used_per_wear * k.kappa_sq / (2 * wear)};
}

int slopes(realtype minute, N_Vector state, N_Vector slope, void* data) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const Cells& cells = *problem.cells;
  const MemberRates& k = problem.rates;
  const double* y = N_VGetArrayPointer(state);
  double* dy = N_VGetArrayPointer(slope);
  const std::size_t stride = problem.stride;
  const std::size_t last = cells.size() - 1;
  const double theta = y[problem.theta_at()];
  const Film film = film_at(k, minute, std::max(theta, 0.0));
  double inflow = 0;
  double total = 0;
  for (std::size_t i = 0; i <= last; ++i) {
    const double here = y[stride * i];
    const double outflow =
        i < last ? film.access * cells.conductance[i + 1] * (y[stride * (i + 1)] - here)
                 : film.access / (cells.last_gap + k.film_gap) * (film.percent - here);
    dy[stride * i] = (outflow - inflow) / cells.volume[i];
    inflow = outflow;
    total += cells.volume[i] * here;
    if (stride == 2) dy[stride * i + 1] = k.lift_rate * here;
  }
  // The kernel's sum holds 2·volume·(before + now); half of that twice is 4 times the integral.
  dy[problem.theta_at()] = k.wear_rate * 2 * total;
  return 0;
}

int exposures(realtype, N_Vector state, N_Vector slope, void* data) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const double* y = N_VGetArrayPointer(state);
  double* dq = N_VGetArrayPointer(slope);
  for (std::size_t i = 0; i < problem.cells->size(); ++i) dq[i] = problem.rates.lift_rate * y[i];
  return 0;
}

/// The band of the Jacobian. What ties wear exposure to the inner cells lies outside it and is left
/// to the Newton iteration: it is weak, and a full matrix would cost more than it saves.
int jacobian(realtype minute, N_Vector state, N_Vector, SUNMatrix matrix, void* data, N_Vector,
             N_Vector, N_Vector) {
  const Problem& problem = *static_cast<const Problem*>(data);
  const Cells& cells = *problem.cells;
  const MemberRates& k = problem.rates;
  const std::size_t stride = problem.stride;
  const std::size_t last = cells.size() - 1;
  const double theta = N_VGetArrayPointer(state)[problem.theta_at()];
  const Film film = film_at(k, minute, std::max(theta, 0.0));
  const auto at = [&](std::size_t row, std::size_t column) -> realtype& {
    const auto r = static_cast<sunindextype>(row);
    const auto c = static_cast<sunindextype>(column);
    return SM_ELEMENT_B(matrix, r, c);
  };
  double inner = 0;
  for (std::size_t i = 0; i <= last; ++i) {
    const std::size_t row = stride * i;
    const double outer = i < last ? film.access * cells.conductance[i + 1]
                                  : film.access / (cells.last_gap + k.film_gap);
    at(row, row) = -(inner + outer) / cells.volume[i];
    if (i > 0) at(row, row - stride) = inner / cells.volume[i];
    if (i < last) at(row, row + stride) = outer / cells.volume[i];
    if (stride == 2) at(row + 1, row) = k.lift_rate;
    inner = outer;
  }
  const std::size_t surface = stride * last;
  at(surface, problem.theta_at()) = inner * film.by_theta / cells.volume[last];
  at(problem.theta_at(), surface) = k.wear_rate * 2 * cells.volume[last];
  return 0;
}

}  // namespace

struct CvodeLift::Memory {
  Problem problem{};
  Exposure exposure{};
  SUNContext context = nullptr;
  N_Vector state = nullptr;
  N_Vector weights = nullptr;
  N_Vector quadrature = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* cvode = nullptr;
  std::vector<double> exposures;
};

Cells::Cells(std::size_t count) : volume(count), pigment(count), conductance(count) {
  constexpr double kGrading = 1.6;  // as in the kernel; checked below
  std::vector<double> edge(count + 1, 1.0);
  for (std::size_t i = 0; i < count; ++i) {
    edge[i] = 1 - std::pow(1 - static_cast<double>(i) / static_cast<double>(count), kGrading);
  }
  for (std::size_t i = 0; i < count; ++i) {
    const double inner_sq = edge[i] * edge[i];
    const double outer_sq = edge[i + 1] * edge[i + 1];
    volume[i] = (outer_sq - inner_sq) / 2;
    pigment[i] = outer_sq * outer_sq - inner_sq * inner_sq;
    conductance[i] = i == 0 ? 0 : edge[i] / ((edge[i + 1] - edge[i - 1]) / 2);
  }
  last_gap = (1 - edge[count - 1]) / 2;
  if (count == process::kCells) {
    const process::RadialGrid& grid = process::radial_grid();
    for (std::size_t i = 0; i < count; ++i) {
      constexpr double kRounding = 1e-12;
      HW_CHECK(std::abs(grid.volume[i] - volume[i]) < kRounding);
      HW_CHECK(std::abs(grid.pigment[i] - pigment[i]) < kRounding);
      HW_CHECK(std::abs(grid.conductance[i] - conductance[i]) < kRounding * (1 + conductance[i]));
    }
  }
}

MemberRates rates_of(const process::LiftMembers& members, std::size_t member,
                     const process::Application& bowl) {
  static thread_local process::LiftLanes lanes;
  process::set_lane(lanes, 0, members, member, bowl);
  return {lanes.film_percent[0],  lanes.loss_per_min[0],  lanes.access_per_min[0],
          lanes.film_gap[0],      lanes.lift_rate[0],     lanes.wear_rate[0],
          lanes.powder_share[0],  lanes.open_peroxide[0], lanes.open_powder[0],
          lanes.wear_start_sq[0], lanes.kappa_sq[0],      members.wear[member],
          lanes.used_per_wear[0]};
}

Tolerance tolerance(double relative) {
  return {relative, relative * process::kStandardPeroxidePercent, relative};
}

CvodeLift::CvodeLift(const Cells& cells, Exposure exposure, const Tolerance& tolerance)
    : memory_(std::make_unique<Memory>()) {
  Memory& m = *memory_;
  const bool apart = exposure == Exposure::quadrature;
  m.exposure = exposure;
  m.problem.cells = &cells;
  m.problem.stride = apart ? 1 : 2;
  m.exposures.resize(cells.size());
  const std::size_t states = m.problem.theta_at() + 1;
  const auto length = static_cast<sunindextype>(states);
  const auto band = static_cast<sunindextype>(m.problem.stride);
  bool good = SUNContext_Create(nullptr, &m.context) == 0;
  m.state = N_VNew_Serial(length, m.context);
  m.weights = N_VNew_Serial(length, m.context);
  N_VConst(0, m.state);
  N_VConst(tolerance.peroxide_percent, m.weights);
  for (std::size_t i = 0; i < cells.size() && !apart; ++i) {
    N_VGetArrayPointer(m.weights)[2 * i + 1] = tolerance.exposure_min;
  }
  N_VGetArrayPointer(m.weights)[states - 1] = tolerance.exposure_min;
  m.matrix = SUNBandMatrix(length, band, band, m.context);
  m.linear = SUNLinSol_Band(m.state, m.matrix, m.context);
  m.cvode = CVodeCreate(CV_BDF, m.context);
  constexpr long kStepsMost = 1000000;
  good = good && CVodeInit(m.cvode, slopes, 0, m.state) == CV_SUCCESS &&
         CVodeSetUserData(m.cvode, &m.problem) == CV_SUCCESS &&
         CVodeSVtolerances(m.cvode, tolerance.relative, m.weights) == CV_SUCCESS &&
         CVodeSetLinearSolver(m.cvode, m.linear, m.matrix) == CV_SUCCESS &&
         CVodeSetJacFn(m.cvode, jacobian) == CV_SUCCESS &&
         CVodeSetMaxNumSteps(m.cvode, kStepsMost) == CV_SUCCESS;
  if (apart) {
    m.quadrature = N_VNew_Serial(static_cast<sunindextype>(cells.size()), m.context);
    N_VConst(0, m.quadrature);
    good = good && CVodeQuadInit(m.cvode, exposures, m.quadrature) == CV_SUCCESS &&
           CVodeSetQuadErrCon(m.cvode, SUNFALSE) == CV_SUCCESS;
  }
  HW_CHECK(good);
}

CvodeLift::~CvodeLift() {
  Memory& m = *memory_;
  CVodeFree(&m.cvode);
  SUNLinSolFree(m.linear);
  SUNMatDestroy(m.matrix);
  N_VDestroy(m.state);
  N_VDestroy(m.weights);
  if (m.quadrature != nullptr) N_VDestroy(m.quadrature);
  SUNContext_Free(&m.context);
}

long CvodeLift::steps() const {
  long count = 0;
  CVodeGetNumSteps(memory_->cvode, &count);
  return count;
}

void CvodeLift::start(const MemberRates& rates) {
  Memory& m = *memory_;
  m.problem.rates = rates;
  N_VConst(0, m.state);
  bool good = CVodeReInit(m.cvode, 0, m.state) == CV_SUCCESS;
  if (m.quadrature != nullptr) {
    N_VConst(0, m.quadrature);
    good = good && CVodeQuadReInit(m.cvode, m.quadrature) == CV_SUCCESS;
  }
  HW_CHECK(good);
}

std::span<const double> CvodeLift::advance(double minute) {
  Memory& m = *memory_;
  realtype reached = 0;
  HW_CHECK(CVode(m.cvode, minute, m.state, &reached, CV_NORMAL) == CV_SUCCESS);
  if (m.quadrature != nullptr) {
    HW_CHECK(CVodeGetQuad(m.cvode, &reached, m.quadrature) == CV_SUCCESS);
    return {N_VGetArrayPointer(m.quadrature), m.exposures.size()};
  }
  const double* y = N_VGetArrayPointer(m.state);
  for (std::size_t i = 0; i < m.exposures.size(); ++i) m.exposures[i] = y[2 * i + 1];
  return m.exposures;
}

std::vector<process::LiftMoment> reference_lift(const process::LiftMembers& members,
                                                const process::Application& bowl,
                                                std::span<const double> stops, const Cells& cells,
                                                CvodeLift& solver) {
  std::vector<process::LiftMoment> moments(stops.size());
  for (process::LiftMoment& moment : moments) {
    for (auto* array : {&moment.eumelanin_left, &moment.pheomelanin_left, &moment.warm,
                        &moment.dye_left, &moment.exposure}) {
      array->resize(members.size());
    }
  }
  for (std::size_t m = 0; m < members.size(); ++m) {
    const process::LiftConstants& k = members.constants[m];
    const double dark_rate = k.dark_rate_per_min;
    const double warm_rate = k.warm_rate_per_min;
    solver.run(
        rates_of(members, m, bowl), stops, [&](std::size_t row, std::span<const double> exposure) {
          double dark = 0;
          double warm_like = 0;
          double mean = 0;
          for (std::size_t i = 0; i < cells.size(); ++i) {
            mean += cells.pigment[i] * exposure[i];
            dark += cells.pigment[i] * std::exp(-dark_rate * exposure[i]);
            warm_like += cells.pigment[i] * std::exp(-warm_rate * exposure[i]);
          }
          process::LiftMoment& moment = moments[row];
          moment.minute = stops[row];
          moment.eumelanin_left[m] = dark;
          moment.pheomelanin_left[m] = warm_like;
          moment.warm[m] = k.warm_yield * dark_rate / (dark_rate - warm_rate) * (warm_like - dark);
          moment.exposure[m] = mean;
        });
  }
  return moments;
}

}  // namespace hw::bench
