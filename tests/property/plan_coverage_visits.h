#pragma once
// Simulated visits whose truth is known: a head drawn from the prior, a colourist who misreads it,
// a bowl, checks, and the level at the end.
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/plan/checks.h"

namespace hw::test {

/// How the truth differs from the model that predicts it.
struct Departure {
  double order_added = 0;     ///< to the order of lift and wear in peroxide
  bool other_film = false;    ///< activity falls as 1/(1 + t/τ)², not as e^(−t/τ)
  double wet_look_lstar = 0;  ///< added to how much darker wet hair looks
};

/// A head as it is and as the colourist wrote it down.
struct TrueHead {
  plan::Case head;                          ///< what is planned with
  std::vector<process::LiftMembers> zones;  ///< one member each: the truth
  std::vector<double> start_level;          ///< of each zone, true
  std::vector<double> read_level;           ///< what she said of it
  double bias = 0;                          ///< of her eye [levels]
  double wet_look = 0;                      ///< in sds of the shift
  Departure departure;
};

struct VisitOptions {
  std::size_t members = 512;
  Departure departure = {};
  std::vector<double> checks_min = {10, 15, 20};
  double end_min = 35;
  bool untouched = false;        ///< no zone was coloured or lightened before
  bool outcome = false;          ///< the finish is read too, dry, after the bands are taken
  plan::HeadPriors hidden = {};  ///< what the truth is drawn from
};

/// What a colourist says of a level: half levels, from 1 to 10.
double said(double level);
/// How far an eye scatters [levels]: common practice, no source.
inline constexpr double kEyeSd = 0.5;

/// Draws a head: two zones, the lengths untouched, coloured or lightened before.
TrueHead draw_head(std::uint64_t seed, const VisitOptions& options);

/// What one zone turned out to be, beside what was said of it.
struct ZoneResult {
  double read_level = 0;  ///< at the start
  double end_level = 0;   ///< true
  Band before, after;     ///< of the end level, before and after the checks
};
struct VisitResult {
  std::vector<ZoneResult> zones;
  double effective = 0;
  int rounds = 0;
  std::vector<plan::ZoneBelief> beliefs;  ///< before the run
  std::vector<plan::CheckReading> readings;
  std::vector<plan::ZoneRun> runs;
};
/// Runs a visit: believes the head, lifts the truth, reads it, checks. Error: as believe().
Result<VisitResult> run_visit(const TrueHead& truth, std::uint64_t seed,
                              const VisitOptions& options);

/// Hits and widths of many bands.
struct Tally {
  std::size_t bands = 0, hits = 0;
  std::vector<double> widths;
  void add(const Band& band, double truth);
  [[nodiscard]] double share() const;
  [[nodiscard]] double median_width() const;
};

}  // namespace hw::test
