#pragma once
// Checks during a run, and strand tests: every member is simulated to the minute of each reading
// and weighted by the likelihood of all readings so far. Zones share rate, constants and the
// reader's bias, so a check on one zone informs the others. Always starts from the belief as it was
// before the run, so nothing is resampled twice; docs/adr/0010-checks.md.
//   eye         half a level, and a bias of the reader that all her readings share
//   tone word   the depth at which lifted hair shows that warmth, one level wide
//   instrument  as for a zone's first readings
//   stretch     an ordered answer to the wear of the fibre (guess)
//   wet, wiped  one unknown shift for the visit, so that many wet looks are no better than one
// When fewer than a third of the members count, what the readings inform most (rate, bias, wet
// look, each zone's own rate and pigment) is drawn anew from a Student t fitted to the weighted
// members, with importance weights, and simulated again.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/plan/belief.h"

namespace hw::plan {

enum class Stretch { springs, slow, stays, snaps };

struct CheckReading {
  double minute = 0;  ///< of the visit (first application = 0), or of the strand test; ≥ 0
  std::string zone;
  std::optional<double> level = {};         ///< by eye, 1–10
  std::string tone = {};                    ///< warmth by eye, as hair::warm_stages; or empty
  std::optional<colour::HairLab> lab = {};  ///< by an instrument, D65/10°
  hair::Moisture seen = hair::Moisture::wiped;
  std::optional<Stretch> stretch = {};
  std::string reader = {};   ///< empty: who read the zones
  bool strand_test = false;  ///< read on the strand that was tested, not on the zone
};

struct RunBowl {
  process::Application application;  ///< minutes: how long it stays, or stayed
  double at_min = 0;                 ///< of the visit
};

/// What was put on a zone, or on a strand of it.
struct ZoneRun {
  std::string zone;
  bool strand_test = false;  ///< lies away from the scalp, has its own clock
  std::vector<RunBowl> bowls;
};

/// What a reading was expected to be, and how it compares.
struct ReadingForecast {
  double expected_level = 0;  ///< as this reader sees it, mean over the members before the checks
  double sd_level = 0;        ///< of that, with what an eye scatters
  double sds_off = 0;         ///< of the reading; 0 where no level was read
};

struct ZoneCheck {
  std::string zone;
  bool rinse_now = false;  ///< the strand stays stretched or snaps: stop whatever the colour
  bool only_wet = false;   ///< all that was read of its depth was read wet
};

struct Checked {
  std::vector<ZoneBelief> zones;  ///< equally likely, as before the first bowl, by all readings
  /// Likewise, by all readings but the wet ones; empty when none was wet. A stop is the earlier of
  /// the two beliefs' stops: see never_later.
  std::vector<ZoneBelief> without_wet;
  std::vector<ReadingForecast> forecasts;  ///< one per reading
  std::vector<ZoneCheck> checks;           ///< one per zone of the head
  double effective = 0;                    ///< members that counted at the end, 1–N
  int rounds = 0;                          ///< of drawing anew, 0–3
  bool believable = true;                  ///< false: some reading is over 4 sds off; read it again
};

/// The belief after the readings so far. zones: as believed before the run, one per zone of the
/// head, with the scalp's warmth; runs: what was applied. A reading before its zone's first bowl is
/// a reading of the hair as it was. Deterministic in head.seed. Errors: an unknown zone, a reading
/// that says nothing, a level outside 1–10, an unknown tone, a negative minute, no run for a
/// strand test that was read.
[[nodiscard]] Result<Checked> check(const Case& head, std::span<const ZoneBelief> zones,
                                    std::span<const ZoneRun> runs,
                                    std::span<const CheckReading> readings, Executor& executor);

/// The hard stop that stands [min]: a wet reading alone never moves it later. by_all: from
/// Checked::zones; by_dry: from Checked::without_wet, or empty when that is.
[[nodiscard]] double never_later(double by_all, std::optional<double> by_dry);

/// Warmth words that a reading may use, darkest first.
[[nodiscard]] std::vector<std::string> tone_words();

/// The names of Stretch as a check file has them: "springs", "slow", "stays", "snaps".
[[nodiscard]] Result<Stretch> stretch_named(const std::string& name);

}  // namespace hw::plan
