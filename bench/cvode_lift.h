#pragma once
// The reference: the equations of huewright/process/lift.h, one member at a time, by the BDF
// formulae of SUNDIALS CVODE (bib: hindmarsh_2005) with its banded direct solver. Constants come
// from the kernel's own set_lane; the equations and the grid are written here a second time.
#include <array>
#include <memory>
#include <span>
#include <vector>

#include "huewright/process/lift.h"
#include "lift_kernel.h"

namespace hw::bench {

/// Finite volumes of a unit cylinder, graded like the kernel's but in any number of cells.
struct Cells {
  std::vector<double> volume;
  std::vector<double> pigment;
  std::vector<double> conductance;  ///< at the inner face; [0] is 0
  double last_gap = 0;
  explicit Cells(std::size_t count);
  [[nodiscard]] std::size_t size() const { return volume.size(); }
};

/// One member under one bowl, picked out of the kernel's lanes.
struct MemberRates {
  double film_percent, loss_per_min, access_per_min, film_gap, lift_rate, wear_rate, powder_share,
      open_peroxide, open_powder, wear_start_sq, kappa_sq, wear_at_mixing, used_per_wear;
};
[[nodiscard]] MemberRates rates_of(const process::LiftMembers& members, std::size_t member,
                                   const process::Application& bowl);

/// How exposure is carried.
enum class Exposure {
  in_state,  ///< peroxide and exposure of a cell side by side: 2N+1 states, two diagonals each side
  quadrature,  ///< peroxide alone is implicit, N+1 states, one diagonal; exposure by CVODES
               ///< quadrature
};

struct Tolerance {
  double relative = 1e-6;
  double peroxide_percent = 1e-6;
  double exposure_min = 1e-6;
};
/// One knob for all three, in proportion to a bowl of 4 % and to the minute.
[[nodiscard]] Tolerance tolerance(double relative);

/// CVODE with all its memory, kept from member to member.
class CvodeLift {
 public:
  CvodeLift(const Cells& cells, Exposure exposure, const Tolerance& tolerance);
  CvodeLift(const CvodeLift&) = delete;
  CvodeLift& operator=(const CvodeLift&) = delete;
  ~CvodeLift();

  /// Runs one member from the minute the bowl goes on and calls row(i, exposure of each cell) at
  /// each of the stops [min], which rise.
  template <class Row>
  void run(const MemberRates& rates, std::span<const double> stops, Row&& row) {
    start(rates);
    for (std::size_t i = 0; i < stops.size(); ++i) row(i, advance(stops[i]));
  }
  /// Steps taken since the last start.
  [[nodiscard]] long steps() const;

 private:
  struct Memory;
  void start(const MemberRates& rates);
  std::span<const double> advance(double minute);
  std::unique_ptr<Memory> memory_;
};

/// Moments of every member, member by member: what simulate_lift reports for one application, but
/// for wear and opening, which no colour needs.
[[nodiscard]] std::vector<process::LiftMoment> reference_lift(const process::LiftMembers& members,
                                                              const process::Application& bowl,
                                                              std::span<const double> stops,
                                                              const Cells& cells,
                                                              CvodeLift& solver);

}  // namespace hw::bench
