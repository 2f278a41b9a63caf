// The rest of a visit after readings.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "course_make.h"
#include "course_pick.h"
#include "huewright/plan/day_sheet.h"
#include "look_next.h"
#include "plan_parts.h"
#include "zone_lift.h"

namespace hw::plan {
namespace {

/// What the readings tell of where a run stands.
struct RunState {
  std::vector<bool> at_once;  ///< zones that come off now: read at their aim, or a strand gave way
  std::vector<std::optional<double>> rinsed;  ///< minutes a zone had, where it is off already
  std::vector<double> so_far;                 ///< minutes a zone has had, at the last reading
  double last_minute = 0;                     ///< of the last reading of the run
};

const BowlZone* lift_on(const Course& course, std::size_t zone) {
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.purpose != Purpose::lift || bowl.visit != 1) continue;
    for (const BowlZone& on : bowl.zones) {
      if (on.zone == zone) return &on;
    }
  }
  return nullptr;
}

/// A reading of the run belongs to its first visit: one long after it is a slip of the pen. A visit
/// may run over by an hour; guess.
Result<void> none_is_late(const Course& course, std::span<const CheckReading> readings) {
  constexpr double kOverRun = 60;
  double last = 0;
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.visit != 1) continue;
    for (const BowlZone& zone : bowl.zones) {
      last = std::max({last, zone.times.hard_stop_at, zone.times.stop_at});
    }
  }
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].strand_test || last <= 0 || readings[i].minute <= last + kOverRun) continue;
    return fail(
        ErrorCode::out_of_range,
        fmt::format("minute {:g} lies more than {:g} min after the last stop, minute {:.0f}",
                    readings[i].minute, kOverRun, last),
        fmt::format("readings[{}].minute", i), "give minutes from the first stroke of the visit");
  }
  return {};
}

/// A dry reading after the zone's first minute was made when it was off; the stop is then the
/// planned one, or the reading where it came sooner.
RunState state_of(const Case& head, const Course& course, std::span<const CheckReading> readings) {
  RunState state;
  state.rinsed.resize(head.zones.size());
  state.at_once.assign(head.zones.size(), false);
  state.so_far.assign(head.zones.size(), 0);
  for (const CheckReading& reading : readings) {
    if (!reading.strand_test) state.last_minute = std::max(state.last_minute, reading.minute);
  }
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const BowlZone* on = lift_on(course, z);
    if (on == nullptr) continue;
    // The middle strand went on half way through putting on.
    const double start = (on->times.apply_at + on->times.applied_by) / 2;
    state.so_far[z] = std::max(0.0, state.last_minute - start);
    for (const CheckReading& reading : readings) {
      const bool off = reading.zone == head.zones[z].name && !reading.strand_test &&
                       reading.seen == hair::Moisture::dry && reading.minute > start;
      const bool reached = reading.zone == head.zones[z].name && !reading.strand_test &&
                           reading.seen != hair::Moisture::wet && reading.level &&
                           z < course.origin.wish.size() &&
                           *reading.level >= course.origin.wish[z] && reading.minute > start;
      if (reached) state.at_once[z] = true;
      if (off) state.rinsed[z] = std::max(1.0, std::min(on->stop_min.mid, reading.minute - start));
    }
  }
  return state;
}

/// What was put on, for the readings: a zone that is still on stays on as long as its bowl may.
std::vector<ZoneRun> runs_of(const Case& head, const Course& course, const Kitchen& kitchen,
                             const RunState& state, std::span<const CheckReading> readings) {
  std::vector<ZoneRun> runs;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const BowlZone* on = lift_on(course, z);
    if (on == nullptr) continue;
    const LiftRecipe& recipe = kitchen.recipes[course.origin.recipe[z]];
    const double minutes = state.rinsed[z].value_or(recipe.recipe.longest_min);
    const auto bowls =
        applications_of(head, head.zones[z], recipe.recipe, recipe.applications, minutes);
    const bool tested = std::any_of(readings.begin(), readings.end(), [&](const auto& one) {
      return one.strand_test && one.zone == head.zones[z].name;
    });
    for (const bool strand : {false, true}) {
      if (strand && !tested) continue;
      ZoneRun run{head.zones[z].name, strand, {}};
      double at = strand ? 0 : (on->times.apply_at + on->times.applied_by) / 2;
      for (const process::Application& bowl : bowls) {
        run.bowls.push_back({bowl, at});
        at += bowl.minutes;
      }
      runs.push_back(std::move(run));
    }
  }
  return runs;
}

/// The lift as it was mixed, on hair as it is believed now. Off already: its minutes stand. On: no
/// sooner than what it has had.
LiftTry lift_from_here(const Case& head, const HeadHair& hair, const Kitchen& kitchen,
                       const CourseOrigin& origin, const RunState& state, Executor& executor) {
  LiftTry lift = no_lift(head, hair);
  lift.recipe = origin.recipe;
  lift.wish = origin.wish;
  std::vector<std::vector<double>> now;
  for (const auto& zone : hair) {
    now.push_back(levels_of(head, colours_of(zone, process::Whites::left_out)));
  }
  executor.run(hair.size(), [&](std::size_t z) {
    if (origin.recipe[z] >= kitchen.recipes.size()) return;
    const ZoneStart start{head.zones[z], hair[z], now[z]};
    const LiftRecipe& recipe = kitchen.recipes[origin.recipe[z]];
    if (state.rinsed[z]) {
      lift.zones[z] = stopped_at(head, start, recipe.recipe, recipe.applications, origin.wish[z],
                                 *state.rinsed[z]);
      return;
    }
    ZoneLift anew = std::move(
        lift_zone(head, start, recipe.recipe, recipe.applications, {&origin.wish[z], 1}).front());
    if (!anew.outcome.already_there && !state.at_once[z] &&
        anew.outcome.stop_min.mid >= state.so_far[z]) {
      lift.zones[z] = std::move(anew);
    } else if (state.so_far[z] > 0) {
      lift.zones[z] = stopped_at(head, start, recipe.recipe, recipe.applications, origin.wish[z],
                                 std::min(state.so_far[z], recipe.recipe.longest_min));
    }
  });
  return lift;
}

/// Zones without a lift bowl in the course stay without one.
CourseOrigin origin_of(const Case& head, const Course& course, const Kitchen& kitchen) {
  CourseOrigin origin = course.origin;
  origin.recipe.resize(head.zones.size(), kitchen.recipes.size());
  origin.wish.resize(head.zones.size(), 1);
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    if (lift_on(course, z) == nullptr) origin.recipe[z] = kitchen.recipes.size();
  }
  return origin;
}

/// Holds every stop to the one that dry and wiped readings alone would set.
void never_later_than(const LiftTry& dry, const Case& head, const HeadHair& hair,
                      const Kitchen& kitchen, const RunState& state, LiftTry& lift) {
  for (std::size_t z = 0; z < lift.zones.size(); ++z) {
    ZoneLift& zone = lift.zones[z];
    const ZoneOutcome& other = dry.zones[z].outcome;
    if (zone.outcome.already_there || other.already_there || state.rinsed[z]) continue;
    const double stop = never_later(zone.outcome.stop_min.mid, other.stop_min.mid);
    if (stop >= zone.outcome.stop_min.mid) continue;
    const auto now = levels_of(head, colours_of(hair[z], process::Whites::left_out));
    const LiftRecipe& recipe = kitchen.recipes[lift.recipe[z]];
    zone = stopped_at(head, {head.zones[z], hair[z], now}, recipe.recipe, recipe.applications,
                      lift.wish[z], stop);
  }
}

/// A zone that is on has started when it did: only its end is planned anew. One that is not on yet
/// starts no sooner than now.
void keep_starts(const Course& before, const RunState& state, Course& after) {
  for (CourseBowl& bowl : after.bowls) {
    if (bowl.purpose != Purpose::lift || bowl.visit != 1) continue;
    for (BowlZone& zone : bowl.zones) {
      const BowlZone* was = lift_on(before, zone.zone);
      if (was == nullptr) continue;
      ZoneTimes& times = zone.times;
      const bool on = was->times.apply_at <= state.last_minute;
      const double start = on ? was->times.apply_at
                              : std::max({times.apply_at, was->times.apply_at, state.last_minute});
      const double by = start - times.apply_at;
      const double putting_on = (on ? was->times.applied_by : times.applied_by + by) - start;
      times.apply_at = start;
      times.applied_by = start + putting_on;
      times.hard_stop_at = on ? was->times.hard_stop_at : times.hard_stop_at + by;
      times.in_order = on ? was->times.in_order : times.in_order;
      const double from = times.in_order ? times.applied_by : start + putting_on / 2;
      times.stop_at = std::min(from + zone.stop_min.mid, times.hard_stop_at);
      times.wipe_from = times.in_order ? times.stop_at - putting_on : times.stop_at;
      constexpr double kEveryMin = 5;  // lightener_maker_help
      times.checks_at.clear();
      for (double look = kEveryMin; look < times.stop_at; look += kEveryMin) {
        if (look > std::max(start, state.last_minute)) times.checks_at.push_back(look);
      }
    }
  }
}

/// What a strand that gave way during the run means: the wet stretch test of its zone, failed.
std::vector<process::Refusal> judge_stretch(const Case& head, std::size_t z) {
  process::HairFacts hair = head.zones[z].facts;
  hair.stretch.worst = process::WetStretch::stays_stretched;
  process::ApplicationFacts facts;
  facts.bowl.parts = {{process::PartKind::lightener, Grams(1)},
                      {process::PartKind::developer, Grams(2), Percent(3)}};
  facts.mix = *process::mix_bowl(facts.bowl);
  auto raised = check_application(head.person, hair, facts, head.settings);
  std::erase_if(raised, [](const process::Refusal& one) { return one.id != "wet_stretch_failed"; });
  return raised;
}

/// The rest with the colour that comes nearest, where the one that was planned no longer makes a
/// bowl for this hair; without any where none does.
std::optional<Draft> with_another_colour(const Case& head, const HeadHair& hair,
                                         const Kitchen& kitchen, const LiftTry& lift, bool gave_way,
                                         Executor& executor) {
  std::optional<Draft> best;
  for (std::size_t i = 0; i < kitchen.options.size(); ++i) {
    if (gave_way && kitchen.options[i].oxidative()) continue;
    auto draft = course_of(head, hair, kitchen, lift, i, executor);
    if (!draft || process::forbids(draft->course.refusals)) continue;
    if (!best || draft->course.expected_de00 < best->course.expected_de00) best = std::move(draft);
  }
  if (!best) best = course_of(head, hair, kitchen, lift, kitchen.options.size(), executor);
  if (best) {
    best->course.notes.insert(best->course.notes.begin(),
                              "The colour that was planned no longer fits this hair; this is the "
                              "nearest that the shelf makes now.");
  }
  return best;
}

}  // namespace

Result<Replanned> plan_again(const Case& head, const HeadPlan& before, std::size_t course,
                             std::span<const CheckReading> readings, Executor& executor) {
  if (course >= before.courses.size()) {
    return fail(ErrorCode::unknown_name, "the plan has no such course", "course",
                "count the courses of the plan from 1");
  }
  const Course& chosen = before.courses[course];
  if (const auto late = none_is_late(chosen, readings); !late) {
    return tl::unexpected(late.error());
  }
  Standing standing;
  const auto kitchen = stock_kitchen(head, hair_of(before.zones), standing);
  if (!kitchen) return tl::unexpected(kitchen.error());
  const CourseOrigin origin = origin_of(head, chosen, *kitchen);
  const RunState state = state_of(head, chosen, readings);
  const auto runs = runs_of(head, chosen, *kitchen, state, readings);
  auto checked = check(head, before.zones, runs, readings, executor);
  if (!checked) return tl::unexpected(checked.error());

  RunState rest = state;
  bool gave_way = false;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    if (!checked->checks[z].rinse_now) continue;
    gave_way = rest.at_once[z] = true;
    for (const process::Refusal& one : judge_stretch(head, z)) standing.refusals.push_back(one);
  }
  const HeadHair hair = hair_of(checked->zones);
  LiftTry lift = lift_from_here(head, hair, *kitchen, origin, rest, executor);
  if (!checked->without_wet.empty()) {
    const LiftTry dry =
        lift_from_here(head, hair_of(checked->without_wet), *kitchen, origin, rest, executor);
    never_later_than(dry, head, hair, *kitchen, rest, lift);
  }
  add_up(head, kitchen->recipes, lift);
  std::size_t option = kitchen->options.size();
  for (std::size_t i = 0; i < kitchen->options.size(); ++i) {
    const bool peroxide = kitchen->options[i].oxidative();
    const bool chosen_one = origin.option && kitchen->options[i].index == *origin.option;
    if (chosen_one && !(gave_way && peroxide)) option = i;
  }
  auto draft = course_of(head, hair, *kitchen, lift, option, executor);
  if (!draft) draft = with_another_colour(head, hair, *kitchen, lift, gave_way, executor);
  if (!draft) {
    return fail(ErrorCode::unreachable, "the rest of this course cannot be mixed from the shelf",
                "shelf", "look at the stock, or plan the head anew");
  }
  keep_starts(chosen, state, draft->course);
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    if (!rest.at_once[z]) continue;
    draft->course.notes.insert(
        draft->course.notes.begin(),
        checked->checks[z].rinse_now
            ? "Rinse the " + head.zones[z].name + " now: the strand does not come back."
            : "The " + head.zones[z].name + " were read at their aim: rinse now, or look again.");
  }
  Replanned again;
  again.plan.zones = checked->zones;
  again.plan.look_next =
      look_next(head, again.plan.zones, draft->course, {draft->lifted, draft->now});
  again.plan.courses.push_back(std::move(draft->course));
  again.plan.whys = before.whys;
  again.plan.examined = 1;
  say_once(head, std::move(standing), again.plan);
  again.checked = *std::move(checked);
  return again;
}

}  // namespace hw::plan
