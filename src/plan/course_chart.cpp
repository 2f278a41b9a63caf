#include "huewright/plan/course_chart.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/plan/lift_recipe.h"

namespace hw::plan {
namespace {

constexpr double kMinutesPerWeek = 7 * 24 * 60;

/// What the picture calls a bowl, short and over its stretch of the day.
struct BowlWords {
  const char* word;
  const char* phase;
};
BowlWords words_of(Purpose purpose) {
  constexpr std::array<BowlWords, 8> kWords = {{{"lift", "lift bowl"},
                                                {"filler", "filler"},
                                                {"colour", "colour bowl"},
                                                {"toner", "toner"},
                                                {"gloss", "gloss"},
                                                {"remover", "colour remover"},
                                                {"chelate", "chelating wash"},
                                                {"strand test", "strand test"}}};
  return kWords[static_cast<std::size_t>(purpose)];
}

/// Bowls that are one step of a visit: the same purpose, side by side, on different zones.
struct Step {
  Purpose purpose = Purpose::lift;
  std::vector<std::size_t> bowls;
};

bool on_same_zone(const CourseBowl& a, const CourseBowl& b) {
  return std::any_of(a.zones.begin(), a.zones.end(), [&](const BowlZone& one) {
    return std::any_of(b.zones.begin(), b.zones.end(),
                       [&](const BowlZone& other) { return one.zone == other.zone; });
  });
}

std::vector<Step> steps_of(const Course& course, int visit) {
  std::vector<Step> steps;
  for (std::size_t b = 0; b < course.bowls.size(); ++b) {
    const CourseBowl& bowl = course.bowls[b];
    if (bowl.visit != visit) continue;
    const bool joins =
        !steps.empty() && steps.back().purpose == bowl.purpose &&
        std::none_of(steps.back().bowls.begin(), steps.back().bowls.end(),
                     [&](std::size_t i) { return on_same_zone(course.bowls[i], bowl); });
    if (!joins) steps.push_back({bowl.purpose, {}});
    steps.back().bowls.push_back(b);
  }
  return steps;
}

/// The most poured shade that colours decides how a bowl fades; none for clear alone.
const process::Shade* main_shade(const std::vector<process::Poured>& pours) {
  const process::Poured* most = nullptr;
  for (const process::Poured& pour : pours) {
    const bool colours = std::any_of(pour.shade.full.begin(), pour.shade.full.end(),
                                     [](double mu) { return mu > 0; });
    if (colours && (most == nullptr || pour.share > most->share)) most = &pour;
  }
  return most == nullptr ? nullptr : &most->shade;
}

/// A colour bowl as one member of the head takes it.
ChartColour colour_of(const CourseBowl& bowl, std::uint64_t seed, std::size_t member) {
  const Draws draws(seed);
  ChartColour colour;
  colour.bowl = *bowl.deposit;
  colour.uptake = process::draw_uptake(draws, member + 1)[member];
  for (const process::Poured& pour : bowl.pours) {
    colour.pours.push_back({process::settled(pour.shade, draws, member), pour.share});
  }
  if (const process::Shade* shade = main_shade(bowl.pours); shade != nullptr) {
    for (const auto state :
         {process::HairState::virgin, process::HairState::white, process::HairState::bleached}) {
      const auto usual = process::fade_constants(shade->dye_class, shade->family, state);
      colour.fade[static_cast<std::size_t>(state)] =
          process::draw_fade(usual, draws, member + 1)[member];
    }
  }
  return colour;
}

double chemistry_min(const CourseBowl& bowl, std::size_t k) {
  const BowlZone& on = bowl.zones[k];
  if (on.stop_min.mid > 0) return on.stop_min.mid;
  return on.times.stop_at - on.times.apply_at;
}

/// A remover as one member takes it.
ChartRemover remover_of(const Case& head, const CourseBowl& bowl, std::size_t k,
                        std::size_t member) {
  const Draws draws(head.seed);
  const ZonePast& past = head.zones[bowl.zones[k].zone].past;
  const auto kind = past.old_colour ? past.old_colour->kind : process::OldDye::unknown;
  const double round = chemistry_min(bowl, k) / bowl.mixes;
  process::LiftMembers hair;
  hair.resize(member + 1);
  ChartRemover remover;
  double before = 1;  // left by the rounds that are over
  for (int mix = 0; mix < bowl.mixes; ++mix) {
    const auto whole = static_cast<int>(std::lround(round));
    for (int minute = 1; minute <= whole; ++minute) {
      remover.left.push_back(before *
                             process::remover_left(kind, minute, draws, member + 1)[member]);
    }
    before = remover.left.back();
    hair = process::after_remover(hair, kind, round, draws);
  }
  remover.wear = hair.wear[member];
  return remover;
}

ChartEvent event_of(const Case& head, const CourseBowl& bowl, std::size_t k, std::size_t member,
                    double shift) {
  const BowlZone& on = bowl.zones[k];
  const ZoneTimes& times = on.times;
  HW_CHECK(times.stop_at > times.apply_at);
  // The middle strand goes on when half of the zone is on, and comes off at the rinse, or half way
  // through wiping; where that is more than its minutes, nothing further comes of the rest.
  const double middle_on = (times.apply_at + times.applied_by) / 2;
  const double middle_off = times.in_order ? (times.wipe_from + times.stop_at) / 2 : times.stop_at;
  const double from =
      std::max(times.apply_at, std::min(middle_on, middle_off - chemistry_min(bowl, k)));
  ChartEvent event;
  event.on_min = times.apply_at + shift;
  event.from_min = from + shift;
  event.stop_min = times.stop_at + shift;
  for (const double again : on.again_at_min) event.again_min.push_back(again + shift);
  if (bowl.deposit) {
    ChartColour colour = colour_of(bowl, head.seed, member);
    colour.bowl.minutes = chemistry_min(bowl, k);
    event.what = std::move(colour);
  } else if (bowl.purpose == Purpose::remove) {
    event.what = remover_of(head, bowl, k, member);
  } else {
    HW_CHECK(bowl.applications.empty() || bowl.applications.size() == bowl.zones.size());
    event.what = ChartLift{bowl.applications.empty() ? std::vector<process::Application>{}
                                                     : bowl.applications[k]};
    if (times.hard_stop_at > times.apply_at) event.hard_stop_min = times.hard_stop_at + shift;
  }
  return event;
}

/// Everything that happens to a zone up to the end of a visit.
std::vector<ChartEvent> events_of(const Case& head, const Course& course, std::size_t zone,
                                  int visit) {
  std::vector<ChartEvent> events;
  for (int v = 1; v <= visit; ++v) {
    const double shift = (v - visit) * head.habits.weeks_to_next * kMinutesPerWeek;
    const auto steps = steps_of(course, v);
    for (std::size_t s = 0; s < steps.size(); ++s) {
      for (const std::size_t b : steps[s].bowls) {
        const CourseBowl& bowl = course.bowls[b];
        for (std::size_t k = 0; k < bowl.zones.size(); ++k) {
          if (bowl.zones[k].zone != zone) continue;
          ChartEvent event = event_of(head, bowl, k, course.zones[zone].nearest_member, shift);
          event.step = s;
          if (!events.empty()) event.from_min = std::max(event.from_min, events.back().stop_min);
          events.push_back(std::move(event));
        }
      }
    }
    if (v == visit) break;
    ChartEvent washes;
    washes.on_min = washes.from_min = washes.stop_min =
        shift + head.habits.weeks_to_next * kMinutesPerWeek - 1;
    washes.what =
        ChartWashes{head.habits.washes_per_week * head.habits.weeks_to_next,
                    head.habits.light_h_per_week * head.habits.weeks_to_next, head.habits.wash};
    events.push_back(washes);
  }
  return events;
}

/// When the bowls of a step are on any zone.
struct Stretch {
  double from = 0;
  double to = 0;
};
Stretch stretch_of(const Course& course, const Step& step) {
  Stretch stretch{course.bowls[step.bowls[0]].zones[0].times.apply_at, 0};
  for (const std::size_t b : step.bowls) {
    for (const BowlZone& on : course.bowls[b].zones) {
      stretch.from = std::min(stretch.from, on.times.apply_at);
      stretch.to = std::max(stretch.to, on.times.stop_at);
    }
  }
  return stretch;
}

/// Minutes of the day after the last rinse.
double finishing_min(const Course& course, int visit) {
  constexpr double kShownMin = 15;  // so that the finish can be seen; choice of picture
  double minutes = 0;
  if (static_cast<std::size_t>(visit) <= course.days.size()) {
    for (const DayPart& part : course.days[static_cast<std::size_t>(visit) - 1].day.parts) {
      const std::string& id = part.block.id;
      if (id == "style" || id == "hood" || id == "finish") minutes += part.block.minutes.mid;
    }
  }
  return std::max(minutes, kShownMin);
}

/// Names over the day, its end, and the checks.
void lay_day(const Case& head, const Course& course, int visit, ChartCourse& chart) {
  const auto steps = steps_of(course, visit);
  double last_stop = 0;
  for (std::size_t s = 0; s < steps.size(); ++s) {
    const Stretch stretch = stretch_of(course, steps[s]);
    const bool lifted = s > 0 && !course.bowls[steps[s - 1].bowls[0]].deposit;
    if (s > 0 && stretch.from > last_stop) {
      chart.phases.push_back({last_stop, lifted ? "wash and care" : "rinse"});
    }
    chart.phases.push_back({stretch.from, words_of(steps[s].purpose).phase});
    chart.steps.emplace_back(words_of(steps[s].purpose).word);
    last_stop = std::max(last_stop, stretch.to);
    for (const std::size_t b : steps[s].bowls) {
      for (const BowlZone& on : course.bowls[b].zones) {
        const auto& checks = on.times.checks_at;
        chart.check_min.insert(chart.check_min.end(), checks.begin(), checks.end());
      }
    }
  }
  const std::string style = head.style.twists ? "twist and finish" : "style and finish";
  chart.phases.push_back({last_stop, steps.empty() ? style : "rinse, " + style});
  chart.end_min = last_stop + finishing_min(course, visit);
  std::sort(chart.check_min.begin(), chart.check_min.end());
  chart.check_min.erase(std::unique(chart.check_min.begin(), chart.check_min.end()),
                        chart.check_min.end());
}

}  // namespace

std::vector<std::string> sections_of(const Case& head) {
  std::vector<std::string> sections;
  for (const ZoneCase& zone : head.zones) {
    if (std::find(sections.begin(), sections.end(), zone.section) == sections.end()) {
      sections.push_back(zone.section);
    }
  }
  return sections;
}

ChartCourse chart_course(const Case& head, std::span<const ZoneBelief> beliefs,
                         const Course& course, int visit, const std::string& section) {
  HW_CHECK(visit >= 1 && visit <= course.visits);
  HW_CHECK(beliefs.size() == head.zones.size() && course.zones.size() == head.zones.size());
  ChartCourse chart;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (head.zones[i].section != section) continue;
    ChartZone zone;
    zone.name = head.zones[i].name;
    zone.from_cm = head.zones[i].from_cm;
    zone.to_cm = head.zones[i].to_cm;
    zone.member = one_member(beliefs[i].members, course.zones[i].nearest_member);
    zone.member.warmth_c[0] = 0;  // the chart adds the scalp's warmth at each distance
    zone.events = events_of(head, course, i, visit);
    zone.resting_factor = 1 - head.shrinkage;
    chart.zones.push_back(std::move(zone));
  }
  HW_CHECK(!chart.zones.empty());
  std::sort(chart.zones.begin(), chart.zones.end(),
            [](const ChartZone& a, const ChartZone& b) { return a.from_cm < b.from_cm; });
  for (std::size_t i = 0; i + 1 < chart.zones.size(); ++i) {
    chart.zones[i].to_cm = chart.zones[i + 1].from_cm;
  }
  chart.room_c = head.room_c;
  lay_day(head, course, visit, chart);
  return chart;
}

ChartCourse chart_course(const Case& head, std::span<const ZoneBelief> beliefs,
                         const Course& course, int visit) {
  return chart_course(head, beliefs, course, visit, head.zones.front().section);
}

}  // namespace hw::plan
