#include "schedule.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

#include "pen.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kSchedule = 1'300'000'000;  // stream
constexpr int kDays = 2 * 365 - 21;                 // the first weeks are for asking and for tests
constexpr int kLeastBetween = 22;                   // days
constexpr int kDaysPerWeek = 7;

/// How many visits each client makes: few come often, some came once.
std::vector<std::size_t> counts(std::size_t clients, std::size_t visits, Chance& chance) {
  constexpr std::array kKeen = {0.15, 0.5, 0.8, 1.0, 1.3};
  std::vector<double> keen;
  for (std::size_t i = 0; i < clients; ++i) keen.push_back(chance.pick(kKeen));
  std::vector<std::size_t> count(clients, 1);
  for (std::size_t left = visits - clients; left > 0; --left) {
    // To whom the most is still owed.
    std::size_t next = 0;
    double most = -1;
    for (std::size_t i = 0; i < clients; ++i) {
      const double owed = count[i] < kMostEach ? keen[i] / static_cast<double>(count[i]) : -1;
      if (owed > most) most = owed, next = i;
    }
    ++count[next];
  }
  return count;
}

/// Days of one client's visits, counted from the first: some weeks apart, as they like it.
std::vector<int> days_of(std::size_t count, Chance& chance) {
  std::vector<double> gaps;
  for (std::size_t i = 1; i < count; ++i) {
    // Six to eight weeks as a rule; now and then much longer, so that tests lapse.
    const double weeks = chance.one_in(8) ? chance.uniform(11, 16) : chance.uniform(5, 9);
    gaps.push_back(weeks * kDaysPerWeek);
  }
  const double wanted = std::accumulate(gaps.begin(), gaps.end(), 0.0);
  const double room = kDays - 5.0 * static_cast<double>(count);  // for days that are taken
  const double squeeze = wanted > room ? room / wanted : 1;
  const double start = chance.uniform() * std::max(0.0, room - wanted * squeeze);
  std::vector<int> days = {static_cast<int>(start)};
  double at = start;
  for (const double gap : gaps) {
    at += gap * squeeze;
    days.push_back(std::max(static_cast<int>(at), days.back() + kLeastBetween));
  }
  return days;
}

/// Chairs by day.
using Taken = std::map<int, std::array<bool, 3>>;

bool open_on(Date date) {
  const std::chrono::weekday day{std::chrono::sys_days(date)};
  return day != std::chrono::Sunday && day != std::chrono::Monday;
}

/// Finds the nearest open day on which a chair is free, the client's own before others; never
/// beyond the end.
void seat(Slot& slot, int day, int least, std::size_t own, Date first_day, Taken& taken) {
  constexpr std::array kOffsets = {0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6};
  for (int far = 0;; far += kDaysPerWeek) {
    if (far > kDays) least = 0;  // the client's weeks are full: sooner than they like
    for (const int offset : kOffsets) {
      for (const int sign : {1, -1}) {
        const int one = day + sign * far + offset;
        if (one < least || one >= kDays) continue;
        const Date date = process::days_later(first_day, one);
        if (!open_on(date)) continue;
        for (std::size_t i = 0; i < 3; ++i) {
          const std::size_t chair = (own + i) % 3;
          if (taken[one][chair]) continue;
          taken[one][chair] = true;
          slot.date = date;
          slot.chair = chair;
          return;
        }
      }
    }
  }
}

/// Each of these befalls every so many visits, from a given one on.
void befall(std::vector<Slot>& slots) {
  const auto every = [](std::size_t ordinal, std::size_t first, std::size_t period) {
    return ordinal >= first && (ordinal - first) % period == 0;
  };
  for (Slot& slot : slots) {
    Fate& fate = slot.fate;
    const std::size_t i = slot.ordinal;
    fate.no_show = every(i, 9, 31);
    fate.cancelled = every(i, 12, 19);
    fate.moved = every(i, 4, 13);
    fate.late_test = every(i, 6, 17);
    fate.burns = every(i, 2, 23);
    fate.mistaken = every(i, 3, 29);
    fate.withdraws = every(i, 16, 150) && slot.nth > 0;
    fate.new_wish = every(i, 10, 19) && slot.nth > 0;
    fate.care_only = every(i, 5, 6) && slot.nth > 0 && !fate.new_wish && !fate.withdraws;
  }
  // Who reacts is not coloured again: at a client's last visit, so that she need not come for
  // nothing all the rest of the time.
  std::map<std::size_t, std::size_t> last;
  for (const Slot& slot : slots) last[slot.client] = slot.ordinal;
  std::vector<std::size_t> ends;
  for (const auto& [client, ordinal] : last) ends.push_back(ordinal);
  std::ranges::sort(ends);
  constexpr std::size_t kAllOfFew = 3, kOneIn = 12;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    slots[ends[i]].fate.reacts = i < kAllOfFew || i % kOneIn == 0;
  }
}

}  // namespace

std::vector<Slot> schedule(std::size_t clients, std::size_t visits, Date end, std::uint64_t seed) {
  Chance chance(seed, kSchedule);
  const Date first_day = process::days_later(end, 1 - kDays);
  std::vector<Slot> slots;
  Taken taken;
  const std::vector<std::size_t> count = counts(clients, visits, chance);
  for (std::size_t client = 0; client < clients; ++client) {
    const std::vector<int> days = days_of(count[client], chance);
    const std::size_t own = chance.below(3);
    int least = 0;
    for (std::size_t nth = 0; nth < days.size(); ++nth) {
      Slot slot;
      slot.client = client;
      slot.nth = nth;
      constexpr int kOpens = 9 * 60, kHalfHour = 30;
      slot.minute = kOpens + kHalfHour * static_cast<int>(chance.below(4));
      seat(slot, std::min(days[nth], kDays - 1), least, own, first_day, taken);
      least = process::days_between(first_day, slot.date) + kLeastBetween - 1;
      slots.push_back(slot);
    }
  }
  std::ranges::stable_sort(slots, {}, [](const Slot& slot) {
    return std::pair(std::chrono::sys_days(slot.date).time_since_epoch().count(), slot.minute);
  });
  for (std::size_t i = 0; i < slots.size(); ++i) slots[i].ordinal = i;
  befall(slots);
  return slots;
}

}  // namespace hw::demo
