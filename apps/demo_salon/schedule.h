#pragma once
// Who comes when: two years of visits for three chairs, made before anything happens.
#include <cstdint>
#include <vector>

#include "town_clock.h"

namespace hw::demo {

/// What goes otherwise in a visit, by the salon's fate and not by its colour.
struct Fate {
  bool no_show = false, cancelled = false;  ///< it does not take place
  bool moved = false;                       ///< was booked for another day first
  bool late_test = false;                   ///< the skin test is read too early
  bool burns = false;                       ///< the scalp, under lightener
  bool reacts = false;                      ///< two days after colour
  bool mistaken = false;                    ///< a pour was written down wrong, and is put right
  bool withdraws = false;                   ///< consent to the service
  bool care_only = false;                   ///< a treatment and twists, no colour
  bool new_wish = false;                    ///< another colour, talked over a week before
};

struct Slot {
  std::size_t ordinal = 0;  ///< of all visits, in their order in time
  std::size_t client = 0;
  std::size_t nth = 0;    ///< of the client's, from 0
  std::size_t chair = 0;  ///< 0–2
  Date date;
  int minute = 0;  ///< of the day
  Fate fate;
};

/// Most visits that three chairs take in two years, and most of one client; house rule.
inline constexpr std::size_t kMostVisits = 1200, kMostEach = 20;

/// The visits in their order. clients: ≥ 1; visits: ≥ clients, ≤ kMostVisits and kMostEach of each
/// client; end: the last day. No chair has two in a day, no client two in three weeks; Tuesday to
/// Saturday.
[[nodiscard]] std::vector<Slot> schedule(std::size_t clients, std::size_t visits, Date end,
                                         std::uint64_t seed);

}  // namespace hw::demo
