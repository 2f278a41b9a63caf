// Which bowls of a visit run side by side, and the clock of all of them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "day_parts.h"
#include "figures.h"

namespace hw::plan {
namespace {

bool share_a_zone(const CourseBowl& a, const CourseBowl& b) {
  return std::any_of(a.zones.begin(), a.zones.end(), [&](const BowlZone& one) {
    return std::any_of(b.zones.begin(), b.zones.end(),
                       [&](const BowlZone& other) { return other.zone == one.zone; });
  });
}

/// What is taken out is rinsed out before a lift begins, on whichever zone.
bool takes_out(Purpose purpose) {
  return purpose == Purpose::remove || purpose == Purpose::chelate;
}

bool runs_beside(const Course& course, const DayStage& stage, const CourseBowl& bowl) {
  if (stage.work != work_of(bowl.purpose) || stage.work == Work::strand_test) return false;
  const Purpose first = course.bowls[stage.bowls.front()].purpose;
  if ((takes_out(first) || takes_out(bowl.purpose)) && first != bowl.purpose) return false;
  return std::none_of(stage.bowls.begin(), stage.bowls.end(),
                      [&](std::size_t at) { return share_a_zone(course.bowls[at], bowl); });
}

/// Minutes of chemistry that one mix of a bowl gives a zone.
double minutes_of(const CourseBowl& bowl, std::size_t i, int mix) {
  if (i < bowl.applications.size() && !bowl.applications[i].empty()) {
    return bowl.applications[i][static_cast<std::size_t>(mix)].minutes;
  }
  return bowl.zones[i].stop_min.mid / bowl.mixes;
}

/// A zone of a stage: where it stands in the course.
struct Place {
  std::size_t bowl = 0;
  std::size_t zone = 0;  ///< of the bowl
};

/// Minutes of lightener that each zone of the head had today.
using Lightened = std::vector<double>;

Result<ZoneTask> task_of(const Case& head, const CourseBowl& bowl, std::size_t i, int mix,
                         const Lightened& lightened) {
  constexpr double kUnlimited = 180;  // min: no strand is on longer (clock.h)
  const BowlZone& zone = bowl.zones[i];
  ZoneTask task;
  task.zone = head.zones[zone.zone].name;
  task.mix_g = zone.grams / mixes_on(bowl, i);
  task.minutes = minutes_of(bowl, i, mix);
  const double share = task.minutes / std::max(zone.stop_min.mid, task.minutes);
  task.least = std::min(task.minutes, zone.stop_min.low * share);
  task.most = std::max(task.minutes, zone.stop_min.high * share);
  if (zone.most_min > 0) {
    task.least = std::min(task.minutes, zone.least_min * share);
    task.most = std::max(task.minutes, zone.most_min * share);
  }
  task.lightener = is_lightener(bowl);
  // Thin edges have the least of it (common practice, no source).
  task.last = task.lightener && head.zones[zone.zone].facts.thin_edges;
  // What the first strands had too much of the first mix would be missing from the next.
  task.in_order = task.lightener && mixes_on(bowl, i) > 1;
  const double duration = task.mix_g / pace_of(head.salon);
  if (!task.lightener) {
    // Colour has taken most of what it will when its time is up: a strand that went on first may
    // stay as long as putting on takes. Shares are guesses.
    constexpr double kLeast = 0.7;
    task.least = std::min(task.least, kLeast * task.minutes);
    task.most = std::max(task.most, task.minutes + duration);
  }
  task.limit = kUnlimited;
  if (task.lightener) {
    const double of_day = std::min(head.longest_min, work_rate("lightener_total").mid);
    task.limit = std::min(of_day, bowl.label_min.value_or(of_day)) - lightened[zone.zone];
  } else if (bowl.label_min) {
    task.limit = std::min(kUnlimited, duration + std::max(*bowl.label_min, task.minutes));
  }
  if (task.limit <= 0) {
    return fail(ErrorCode::unreachable, task.zone + " has no minute of lightener left today",
                "minutes", "leave it alone, or plan another visit");
  }
  return task;
}

void shift(ZoneTimes& times, double by) {
  times.apply_at += by;
  times.applied_by += by;
  times.stop_at += by;
  times.wipe_from += by;
  times.hard_stop_at += by;
  for (double& check : times.checks_at) check += by;
}

/// A later mix on the same zone: one start, all checks, the last stop.
void append(ZoneTimes& times, const ZoneTimes& next) {
  times.stop_at = next.stop_at;
  times.wipe_from = next.wipe_from;
  times.hard_stop_at = next.hard_stop_at;
  times.checks_at.insert(times.checks_at.end(), next.checks_at.begin(), next.checks_at.end());
  times.slack_early += next.slack_early;
  times.slack_late = std::min(times.slack_late, next.slack_late);
  times.uneven = std::max(times.uneven, next.uneven);
  times.cut_short = times.cut_short || next.cut_short;
  times.ending = next.ending;
}

double next_round(double minute, double step) {
  constexpr double kNoise = 1e-9;  // of arithmetic [min]
  return std::ceil(minute / step - kNoise) * step;
}

ClockRules clock_rules(const Salon& salon) {
  ClockRules rules;
  rules.grams_per_min = pace_of(salon);
  rules.wipe = work_rate("wipe").mid;
  return rules;
}

/// The zones of a stage as they go on where nothing else decides: hair off the scalp first, for the
/// scalp's warmth catches up.
std::vector<Place> places_of(const Case& head, const Course& course, const DayStage& stage) {
  std::vector<Place> order;
  for (const bool at_scalp : {false, true}) {
    for (const std::size_t at : stage.bowls) {
      for (std::size_t i = 0; i < course.bowls[at].zones.size(); ++i) {
        const bool scalp = head.zones[course.bowls[at].zones[i].zone].from_cm <= 0;
        const bool lift = is_lightener(course.bowls[at]);
        if ((lift && scalp) == at_scalp) order.push_back({at, i});
      }
    }
  }
  return order;
}

/// One mix of a stage from `starts_at` on.
Result<void> run_mix(const Case& head, Course& course, DayStage& stage, int mix, double starts_at,
                     Lightened& lightened) {
  std::vector<ZoneTask> tasks;
  std::vector<Place> places;
  for (const auto& [at, i] : places_of(head, course, stage)) {
    if (mix >= mixes_on(course.bowls[at], i)) continue;
    auto task = task_of(head, course.bowls[at], i, mix, lightened);
    if (!task) return tl::unexpected(at_bowl(task.error(), course.bowls[at].purpose));
    tasks.push_back(*std::move(task));
    places.push_back({at, i});
  }
  if (tasks.empty()) return {};
  const auto table = timetable(tasks, clock_rules(head.salon));
  if (!table) {
    return tl::unexpected(at_bowl(table.error(), course.bowls[stage.bowls.front()].purpose));
  }
  double early = 0, late = 0;
  for (std::size_t k = 0; k < places.size(); ++k) {
    ZoneTimes times = table->zones[k];
    if (tasks[k].lightener && stage.work != Work::strand_test) {  // a strand is not its zone
      const std::size_t zone = course.bowls[places[k].bowl].zones[places[k].zone].zone;
      lightened[zone] += times.wipe_from - times.apply_at;  // of its first strand
      early = std::max(early, tasks[k].minutes - tasks[k].least);
      late = std::max(late, std::min(tasks[k].most - tasks[k].minutes,
                                     std::max(0.0, times.hard_stop_at - times.stop_at)));
    }
    stage.hands_on += times.applied_by - times.apply_at;
    if (mixes_on(course.bowls[places[k].bowl], places[k].zone) > mix + 1) {
      stage.again_from = std::max(stage.again_from, starts_at + times.stop_at);
    }
    shift(times, starts_at);
    stage.applied_by = std::max(stage.applied_by, times.applied_by);
    BowlZone& zone = course.bowls[places[k].bowl].zones[places[k].zone];
    if (mix == 0) {
      zone.times = std::move(times);
      zone.again_at_min.clear();
    } else {
      zone.again_at_min.push_back(times.apply_at);
      append(zone.times, times);
    }
  }
  stage.chemistry_early += early;
  stage.chemistry_late += late;
  stage.rinse_at = std::max(stage.rinse_at, starts_at + table->rinse_at);
  for (const std::string& note : table->notes) {
    if (std::find(stage.notes.begin(), stage.notes.end(), note) == stage.notes.end()) {
      stage.notes.push_back(note);
    }
  }
  if (tasks.front().lightener && mix == 0) stage.notes.push_back(slack_words(*table));
  return {};
}

}  // namespace

Work work_of(Purpose purpose) {
  switch (purpose) {
    case Purpose::lift:
    case Purpose::remove:
    case Purpose::chelate:
      return Work::lift;
    case Purpose::fill:
      return Work::fill;
    case Purpose::strand_test:
      return Work::strand_test;
    case Purpose::deposit:
    case Purpose::tone:
    case Purpose::gloss:
      break;
  }
  return Work::colour;
}

int mixes_on(const CourseBowl& bowl, std::size_t zone) {
  const bool said = zone < bowl.applications.size() && !bowl.applications[zone].empty();
  return said ? static_cast<int>(bowl.applications[zone].size()) : bowl.mixes;
}

bool is_lightener(const CourseBowl& bowl) {
  return bowl.purpose == Purpose::lift ||
         std::any_of(bowl.parts.begin(), bowl.parts.end(), [](const BowlPart& part) {
           return part.kind == process::PartKind::lightener;
         });
}

double pace_of(const Salon& salon) {
  return grams_a_minute(salon.grams_per_min, salon.hands, work_rate("each_more_pair").mid);
}

std::vector<DayStage> stages_of(const Course& course, int visit) {
  std::vector<DayStage> stages;
  for (std::size_t at = 0; at < course.bowls.size(); ++at) {
    const CourseBowl& bowl = course.bowls[at];
    if (bowl.visit != visit) continue;
    if (stages.empty() || !runs_beside(course, stages.back(), bowl)) {
      stages.emplace_back();
      stages.back().work = work_of(bowl.purpose);
    }
    stages.back().bowls.push_back(at);
    stages.back().mixings = std::max(stages.back().mixings, bowl.mixes);
  }
  return stages;
}

bool cleansed_first(const Case& head, const Course& course, const std::vector<DayStage>& stages) {
  for (const DayStage& stage : stages) {
    if (stage.work == Work::lift) return false;
    if (stage.work != Work::colour) continue;
    for (const std::size_t at : stage.bowls) {
      for (const BowlPart& part : course.bowls[at].parts) {
        const process::Product* product = product_of(head, part.id);
        if (product != nullptr && product->dye_class &&
            *product->dye_class != process::DyeClass::permanent) {
          return true;
        }
      }
    }
  }
  return false;
}

double minutes_between(const Case& head, Work before) {
  const double mixing = work_rate("mixing").mid;
  switch (before) {
    case Work::lift: {
      const std::vector<std::string> wash{"wash"};
      const auto day = day_of(wash, {}, head.salon.hands);
      HW_CHECK(day.has_value());
      return day->minutes.mid + mixing;
    }
    case Work::fill:
      return mixing;
    case Work::colour:
    case Work::strand_test:
      break;
  }
  return work_rate("rinse").mid + mixing;
}

Result<void> run_clock(const Case& head, Course& course, std::vector<DayStage>& stages) {
  Lightened lightened;
  for (const ZoneCase& zone : head.zones) {
    lightened.push_back(zone.facts.lightener_minutes_today.value());
  }
  const double round = ClockRules{}.check_every;
  double from = 0;
  for (DayStage& stage : stages) {
    stage.starts_at = from;
    for (int mix = 0; mix < stage.mixings; ++mix) {
      if (mix > 0) {
        from = next_round(stage.again_from + work_rate("mixing").mid, round);
        stage.notes.push_back(fmt::format("Wipe off and put on fresh mix at minute {:.0f}.", from));
      }
      if (auto run = run_mix(head, course, stage, mix, from, lightened); !run) return run;
    }
    from = next_round(stage.rinse_at + minutes_between(head, stage.work), round);
  }
  return {};
}

}  // namespace hw::plan
