#pragma once
// Evidence: how past predictions turned out. Every zone of a finished visit whose outcome was read
// is held against what its plan expected.
#include <optional>
#include <string>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/book/next_case.h"
#include "huewright/book/store.h"

namespace hw::book {

/// One zone of one visit, predicted and found.
struct Outcome {
  std::string visit, at, zone, reader;
  std::vector<std::string> shades;  ///< colours that were poured into its bowls
  double start_level = 0;           ///< as it was read before, rounded to a whole level
  Band predicted;                   ///< level at the finish
  double found = 0;                 ///< level that was read
  double doubt = 0;                 ///< of that reading, 1 sd [levels]
  /// The predicted band, widened by the doubt of the reading, in squares, about its middle.
  [[nodiscard]] Band expected_reading() const;
  [[nodiscard]] bool held() const;
  [[nodiscard]] double miss() const { return found - predicted.mid; }
};

/// Many of them together.
struct Tally {
  std::string name;
  int count = 0;
  double held = 0;        ///< share inside the band a reading should fall into, 0–1; 0.8 is right
  double mean_miss = 0;   ///< found less predicted [levels]
  double sd_miss = 0;     ///< sample standard deviation; 0 of one alone
  double mean_width = 0;  ///< of the predicted bands [levels]
};

struct Evidence {
  Tally all;
  std::vector<Tally> by_zone, by_start_level, by_reader, by_shade;  ///< by name
  std::vector<Outcome> outcomes;                                    ///< oldest first
};

/// Doubt of a level read by eye, with what a reader is off by that day [levels]: √(0.5² + 0.3²);
/// guesses, as in plan/belief.h. Of one measured: 0.15, an instrument's 1.2 L* on the ladder;
/// guess.
inline constexpr double kEyeDoubt = 0.583;
inline constexpr double kInstrumentDoubt = 0.15;

/// The outcomes of one visit. facts: all of it.
[[nodiscard]] std::vector<Outcome> outcomes_of(std::span<const Fact> facts,
                                               std::span<const OnShelf> shelf);
/// From the visits that started at a UTC moment or later. Errors: io.
[[nodiscard]] Result<Evidence> evidence_of(Store& store, const std::string& from);
/// The tallies of some outcomes.
[[nodiscard]] Evidence tallied(std::vector<Outcome> outcomes);

}  // namespace hw::book
