#pragma once
// The clock of a visit: when each zone is put on, looked at and stopped, and how long the day is.
// Putting mix on takes time, so a zone has a start and an end; its minutes count from the middle.
//   middle of zone i:  s_i + d_i/2,  d_i = grams / (grams a minute of all hands)
// Slow zones start first, each so that its minutes end at one common rinse. Where hands are too
// slow for that, one common moment inside every zone's window is sought; failing that, zones are
// wiped one after another. Lightener that takes longer to put on than its minutes, or a zone whose
// first strands would pass their limit before its middle has its minutes, is wiped section by
// section in the order it went on, each strand after its own minutes; once the first are due hands
// put on and wipe by turns, which slows them. Hard stops count from the first strand, or where a
// zone is wiped in order from each strand: none is on longer. Minutes are counted from the first
// application. Pure: nothing here reads a clock.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/statistics.h"

namespace hw::plan {

/// Grams that hands put on in a minute [g/min]. one_pair: of a pair of hands, > 0; hands: 1–6;
/// each_more: of that pace, what each further pair adds, 0–1.
[[nodiscard]] double grams_a_minute(double one_pair, int hands, double each_more);
/// With the house's figures (2.7 g/min, 0.9; data/plan/work_rates.csv).
[[nodiscard]] double grams_a_minute(int hands);

/// A zone that waits for its mix.
struct ZoneTask {
  std::string zone;
  double mix_g = 0;           ///< on its hair, 0–1000
  double minutes = 0;         ///< that its middle strand should get, > 0 to 180
  double least = 0;           ///< fewest minutes that still hit, ≤ minutes
  double most = 0;            ///< most minutes that still hit, ≥ minutes
  bool lightener = false;     ///< looked at every few minutes; its first strands forgive nothing
  double limit = 180;         ///< of any strand: label, or what is left of the visit's 45
  bool last = false;          ///< goes on after the others, for it bears the least
  bool pull_through = false;  ///< takes what lies on its neighbour, combed on, with half the mix
  bool in_order = false;      ///< to be wiped in the order it went on, whether it must or not
};

/// How a zone ends.
enum class Ending { rinsed_together, wiped_in_turn };
/// "rinsed together" or "wiped in turn".
[[nodiscard]] std::string name_of(Ending ending);

struct ZoneTimes {
  std::string zone;
  double apply_at = 0;    ///< first strand
  double applied_by = 0;  ///< last strand
  double stop_at = 0;     ///< wiped or rinsed
  double hard_stop_at = 0;
  std::vector<double> checks_at;  ///< lightener only, on the round five minutes
  double slack_early = 0;         ///< minutes it could stop sooner and still hit; below 0: a miss
  double slack_late = 0;          ///< minutes it could stay longer and still hit or hold its limit
  double uneven = 0;              ///< minutes that its first strand gets more than its last
  bool in_order = false;          ///< wiped in the order it went on
  double wipe_from = 0;           ///< its first strand; stop_at where it is not wiped in order
  bool cut_short = false;         ///< the limit stops it before its minutes are up
  bool pulled_through = false;
  Ending ending = Ending::rinsed_together;
};

struct Timetable {
  std::vector<ZoneTimes> zones;    ///< in the order of the tasks
  std::vector<std::size_t> order;  ///< of putting on, indices of zones
  double rinse_at = 0;             ///< last stop
  bool together = true;            ///< one common rinse
  std::vector<std::string> notes;  ///< sentences: wiped in turn, cut short, uneven
};

struct ClockRules {
  double grams_per_min = 2.7;  ///< of all hands together, > 0
  double check_every = 5;      ///< min; lightener_maker_help
  double pull_through = 0.5;   ///< share of fresh mix that a pulled-through zone takes; guess
  double wipe = 0.2;           ///< minutes of wiping to one of putting on, 0–1; guess
};

/// When everything happens. Ties start in the order given; pulled-through zones start last.
/// Errors: no zone, or a number outside its range (out_of_range, where: "tasks[0].minutes").
/// Worked: lengths 40 g for 35 min, roots 20 g for 15 min at 2.7 g/min: lengths 0 to 15, roots
/// 23.7 to 31.1, all rinsed at 42.4. 108 g for 30 min: on from 0 to 42, wiped from 30 to 72.
[[nodiscard]] Result<Timetable> timetable(std::span<const ZoneTask> tasks,
                                          const ClockRules& rules = {});

/// The zone whose slack runs out first, as a sentence; empty without zones.
[[nodiscard]] std::string slack_words(const Timetable& table);

/// One block of a day.
struct DayBlock {
  std::string id;
  std::string words;
  Band minutes;           ///< low and high by the trade, mid between them
  double hand_share = 0;  ///< of the block that a second pair of hands can share, 0–1
};
/// Blocks of a day of lift, colour and twists: data/plan/day_blocks.csv (common practice).
[[nodiscard]] const std::vector<DayBlock>& usual_blocks();

/// A block whose minutes are known better than by the trade.
struct KnownBlock {
  std::string id;
  Band minutes;  ///< with the hands that there are
};

struct DayPart {
  DayBlock block;
  double starts_at = 0;  ///< likely, minutes from the first block
};

struct Day {
  std::vector<DayPart> parts;
  double sum_low = 0;   ///< every block at its low end
  double sum_high = 0;  ///< every block at its high end
  Band minutes;         ///< what should hold 8 times in 10: blocks run long together by half
};

/// A day of some blocks, in the order of usual_blocks(). wanted: their ids; known: replaces the
/// trade's minutes of those ids. hands: pairs, 1–6; they shorten the trade's blocks by their
/// hand_share, and known ones not at all.
/// Errors: an id no block has (unknown_name), a block twice (conflict), a band out of order or
/// hands outside their range (out_of_range).
/// Worked: all blocks, one pair of hands: 295 to 570 min in sums.
[[nodiscard]] Result<Day> day_of(std::span<const std::string> wanted,
                                 std::span<const KnownBlock> known = {}, int hands = 1);

}  // namespace hw::plan
