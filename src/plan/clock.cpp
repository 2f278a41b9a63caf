#include "huewright/plan/clock.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "figures.h"

namespace hw::plan {
namespace {

constexpr double kNoise = 1e-9;    // of arithmetic [min]
constexpr double kLongest = 180;   // min; no label allows more
constexpr double kMostMix = 1000;  // g on one zone
constexpr double kNever = 1e9;     // min; later than any rinse

bool in(double value, double low, double high) {
  return value >= low && value <= high;
}

Result<void> checked(std::span<const ZoneTask> tasks, const ClockRules& rules) {
  if (tasks.empty()) return fail(ErrorCode::missing, "no zone to put on", "tasks", "name a zone");
  const auto outside = [](std::size_t i, const char* key, double value) {
    return fail(ErrorCode::out_of_range, fmt::format("{} is outside its range", value),
                fmt::format("tasks[{}].{}", i, key), "check the number and its unit");
  };
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const ZoneTask& task = tasks[i];
    if (!in(task.mix_g, 0, kMostMix)) return outside(i, "mix_g", task.mix_g);
    if (!in(task.minutes, kNoise, kLongest)) return outside(i, "minutes", task.minutes);
    if (!in(task.least, 0, task.minutes)) return outside(i, "least", task.least);
    if (!in(task.most, task.minutes, 10 * kLongest)) return outside(i, "most", task.most);
    if (!in(task.limit, kNoise, kLongest)) return outside(i, "limit", task.limit);
  }
  if (!in(rules.grams_per_min, 0.01, 1000) || !in(rules.check_every, 1, kLongest) ||
      !in(rules.pull_through, 0, 1) || !in(rules.wipe, 0, 1)) {
    return fail(ErrorCode::out_of_range, "a rule of the clock is outside its range", "rules",
                "check grams a minute and minutes between looks");
  }
  return {};
}

/// Minutes that putting a zone on takes.
double takes(const ZoneTask& task, const ClockRules& rules) {
  return task.mix_g * (task.pull_through ? rules.pull_through : 1) / rules.grams_per_min;
}

/// Minutes that each strand can get.
double can_have(const ZoneTask& task) {
  return std::min(task.minutes, task.limit);
}

/// Minutes that the last strand of a zone must have: the fewest that still hit of a colour that is
/// put on for longer than it processes, which forgives the first strands more; else what it gets.
double last_strand(const ZoneTask& task, double duration) {
  return !task.lightener && duration > task.minutes ? task.least : 0;
}

/// Whether a zone that is put on in so many minutes is wiped in the order it went on.
bool wiped_in_order(const ZoneTask& task, double duration) {
  const double got = can_have(task);
  const bool too_slow = task.lightener && duration > got + kNoise;
  return task.in_order || too_slow || got + duration / 2 > task.limit + kNoise;
}

/// Slowest first; pulled-through zones last.
std::vector<std::size_t> order_of(std::span<const ZoneTask> tasks) {
  std::vector<std::size_t> order(tasks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (tasks[a].pull_through != tasks[b].pull_through) return tasks[b].pull_through;
    if (tasks[a].last != tasks[b].last) return tasks[b].last;
    return tasks[a].minutes > tasks[b].minutes;
  });
  return order;
}

/// Starts so that all end together, later where hands are still busy; the first at 0.
void start_zones(Timetable& table, std::span<const ZoneTask> tasks, const ClockRules& rules) {
  double rinse = 0;
  double free_from = 0;
  for (std::size_t place = 0; place < table.order.size(); ++place) {
    const ZoneTask& task = tasks[table.order[place]];
    ZoneTimes& times = table.zones[table.order[place]];
    double duration = takes(task, rules);
    times.in_order = wiped_in_order(task, duration);
    const double got = times.in_order ? can_have(task) : task.minutes;
    // From when the first strands are due, hands wipe as well.
    if (times.in_order) duration += rules.wipe * std::max(0.0, duration - got);
    const double on = times.in_order ? duration + got : duration / 2 + got;
    if (place == 0) rinse = on;
    times.zone = task.zone;
    times.apply_at = std::max(free_from, rinse - on);
    times.applied_by = times.apply_at + duration;
    times.uneven = times.in_order ? 0 : duration;
    times.hard_stop_at = (times.in_order ? times.applied_by : times.apply_at) + task.limit;
    times.pulled_through = task.pull_through;
    free_from = times.applied_by;
  }
}

double middle(const ZoneTimes& times) {
  return (times.apply_at + times.applied_by) / 2;
}

/// One rinse inside the window and limit of every zone that is rinsed at once, nearest to what they
/// wish; empty when there is none.
std::optional<double> common_rinse(const Timetable& table, std::span<const ZoneTask> tasks) {
  double from = 0;
  double to = kNever;
  double wish = 0;
  double count = 0;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const ZoneTimes& times = table.zones[i];
    if (times.in_order) continue;
    from = std::max({from, middle(times) + tasks[i].least,
                     times.applied_by + last_strand(tasks[i], times.uneven)});
    to = std::min({to, middle(times) + tasks[i].most, times.hard_stop_at});
    wish += middle(times) + tasks[i].minutes;
    count += 1;
  }
  if (count == 0 || from > to + kNoise) return std::nullopt;
  return std::min(to, std::max(from, wish / count));
}

void stop_in_order(ZoneTimes& times, const ZoneTask& task) {
  const double got = can_have(task);
  times.wipe_from = times.apply_at + got;
  times.stop_at = times.applied_by + got;
  times.cut_short = got < task.minutes - kNoise;
  times.ending = Ending::wiped_in_turn;
  times.slack_early = got - task.least;
  times.slack_late = std::min(task.most, task.limit) - got;
}

void stop_at_once(ZoneTimes& times, const ZoneTask& task, std::optional<double> rinse) {
  const double own = middle(times) + task.minutes;
  times.stop_at = rinse
                      ? *rinse
                      : std::min(std::max(own, times.applied_by + last_strand(task, times.uneven)),
                                 times.hard_stop_at);
  times.wipe_from = times.stop_at;
  times.cut_short = times.stop_at < own - kNoise && times.stop_at > times.hard_stop_at - kNoise;
  const double got = times.stop_at - middle(times);
  times.slack_early = got - task.least;
  times.slack_late = std::min(task.most - got, times.hard_stop_at - times.stop_at);
}

void stop_zones(Timetable& table, std::span<const ZoneTask> tasks) {
  const auto rinse = common_rinse(table, tasks);
  table.together = rinse.has_value();
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    ZoneTimes& times = table.zones[i];
    if (times.in_order) {
      table.together = false;
      stop_in_order(times, tasks[i]);
    } else {
      stop_at_once(times, tasks[i], rinse);
    }
    table.rinse_at = std::max(table.rinse_at, times.stop_at);
  }
  for (ZoneTimes& times : table.zones) {
    if (times.in_order) continue;
    const bool last = times.stop_at > table.rinse_at - kNoise;
    times.ending = last ? Ending::rinsed_together : Ending::wiped_in_turn;
  }
}

void set_checks(Timetable& table, std::span<const ZoneTask> tasks, const ClockRules& rules) {
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    if (!tasks[i].lightener) continue;
    ZoneTimes& times = table.zones[i];
    const auto first = std::floor(times.apply_at / rules.check_every + kNoise) + 1;
    for (int k = 0; (first + k) * rules.check_every < times.stop_at - kNoise; ++k) {
      times.checks_at.push_back((first + k) * rules.check_every);
    }
  }
}

void add_notes(Timetable& table, std::span<const ZoneTask> tasks) {
  const auto rinsed_apart = std::count_if(table.zones.begin(), table.zones.end(), [](auto& times) {
    return !times.in_order && times.ending == Ending::wiped_in_turn;
  });
  if (rinsed_apart > 0) {
    table.notes.push_back(
        "Hands are too slow for one rinse: wipe the zones in the order of their "
        "stops, then rinse all.");
  }
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const ZoneTimes& times = table.zones[i];
    if (times.cut_short) {
      table.notes.push_back(
          fmt::format("{}: the limit of {:.0f} min stops it before its {:.0f} min.", times.zone,
                      tasks[i].limit, tasks[i].minutes));
    }
    if (times.in_order) {
      table.notes.push_back(
          fmt::format("{}: wipe it section by section in the order it went on, {:.0f} min each{}.",
                      times.zone, can_have(tasks[i]),
                      times.applied_by > times.wipe_from ? ", by turns with putting on" : ""));
    }
    if (times.uneven > tasks[i].most - tasks[i].least + kNoise) {
      table.notes.push_back(fmt::format(
          "{}: putting it on takes {:.0f} min, longer than its window; rinse in the order of "
          "putting on, or use more hands.",
          times.zone, times.uneven));
    }
  }
}

}  // namespace

double grams_a_minute(double one_pair, int hands, double each_more) {
  HW_CHECK(one_pair > 0 && hands >= 1 && hands <= 6 && each_more >= 0 && each_more <= 1);
  return one_pair * (1 + each_more * (hands - 1));
}

double grams_a_minute(int hands) {
  return grams_a_minute(work_rate("grams_per_min").mid, hands, work_rate("each_more_pair").mid);
}

std::string name_of(Ending ending) {
  return ending == Ending::rinsed_together ? "rinsed together" : "wiped in turn";
}

Result<Timetable> timetable(std::span<const ZoneTask> tasks, const ClockRules& rules) {
  if (const auto sound = checked(tasks, rules); !sound) return tl::unexpected(sound.error());
  Timetable table;
  table.zones.resize(tasks.size());
  table.order = order_of(tasks);
  start_zones(table, tasks, rules);
  stop_zones(table, tasks);
  set_checks(table, tasks, rules);
  add_notes(table, tasks);
  return table;
}

std::string slack_words(const Timetable& table) {
  std::vector<const ZoneTimes*> zones;
  for (const ZoneTimes& times : table.zones) zones.push_back(&times);
  std::stable_sort(zones.begin(), zones.end(),
                   [](const auto* a, const auto* b) { return a->slack_late < b->slack_late; });
  std::string words;
  for (const ZoneTimes* times : zones) {
    words += fmt::format("{}{} {:.0f} min", words.empty() ? "" : ", ", times->zone,
                         std::max(0.0, std::floor(times->slack_late + kNoise)));
  }
  return words.empty() ? words : words + " before they miss.";
}

}  // namespace hw::plan
