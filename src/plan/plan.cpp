#include "huewright/plan/plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "cleared.h"
#include "course_judge.h"
#include "course_make.h"
#include "course_pick.h"
#include "course_search.h"
#include "huewright/plan/day_sheet.h"
#include "look_next.h"
#include "plan_parts.h"
#include "staged.h"

namespace hw::plan {
namespace {

using process::Refusal;

constexpr std::size_t kShown = 4;       // courses
constexpr std::size_t kWorkedOut = 10;  // courses, on all members

/// Drops what is said already.
void drop_repeated(std::vector<Refusal>& list, const std::vector<Refusal>& said) {
  std::erase_if(list, [&](const Refusal& one) {
    return std::any_of(said.begin(), said.end(), [&](const Refusal& r) { return r.id == one.id; });
  });
}

bool in_all(const std::vector<std::vector<Refusal>>& lists, const std::string& id) {
  return std::ranges::all_of(lists, [&](const std::vector<Refusal>& list) {
    return std::ranges::any_of(list, [&](const Refusal& one) { return one.id == id; });
  });
}

/// Whether no zone that a course takes something from is spent beyond the limit.
bool bearable(const Case& head, const Course& course) {
  return std::all_of(course.zones.begin(), course.zones.end(), [&](const CourseZone& zone) {
    return zone.wear_added < kNoWear || zone.wear.high <= head.limits.wear;
  });
}

/// Whether a course stays inside the hours and the money of the case.
bool affordable(const Case& head, const Course& course) {
  if (head.limits.money && course.cost.mid > *head.limits.money) return false;
  return !head.limits.minutes ||
         std::none_of(course.days.begin(), course.days.end(),
                      [&](const VisitDay& day) { return day.minutes.mid > *head.limits.minutes; });
}

/// Keeps those inside hours and money; where there are none, all of them, each saying so.
void keep_affordable(const Case& head, std::vector<Draft>& drafts) {
  const auto dear = [&](const Draft& draft) { return !affordable(head, draft.course); };
  if (!std::all_of(drafts.begin(), drafts.end(), dear)) {
    std::erase_if(drafts, dear);
    return;
  }
  for (Draft& draft : drafts) {
    draft.course.notes.insert(draft.course.notes.begin(),
                              "More hours or money than was given: no course stays inside both.");
  }
}

/// A lift alone is judged by the levels that it stays short.
void count_short(Course& course, const LiftTry& lift) {
  double sum = 0;
  for (const ZoneLift& zone : lift.zones) {
    sum += std::max(0.0, zone.outcome.wished_level - zone.outcome.level.mid);
  }
  course.expected_de00 = kShortLevel * sum / static_cast<double>(lift.zones.size());
}

std::vector<std::string> whys(const Case& head) {
  std::vector<std::string> lines;
  for (const process::ConstantNote& note : process::constant_notes()) {
    lines.push_back(fmt::format("{}{}: {:g} ({:g} to {:g}); {}; source: {}", note.words,
                                note.unit == "1" ? "" : " [" + note.unit + "]", note.central,
                                note.low, note.high, note.grade, note.source));
  }
  lines.push_back(fmt::format("{} hypotheses about each zone side by side, drawn with seed {}",
                              head.members, head.seed));
  return lines;
}

/// Tests that the oxidative shades of the courses still need, when dates are known.
std::vector<process::TestToMake> tests_for(const Case& head, const std::vector<Course>& courses) {
  if (!head.tests || !head.visit_at) return {};
  std::vector<process::ColourMeant> meant;
  for (const Course& course : courses) {
    for (const CourseBowl& bowl : course.bowls) {
      if (!bowl.deposit || bowl.deposit->developer_parts <= 0) continue;
      for (const process::ColourMeant& one : meant_in(head, bowl)) {
        const bool known = std::any_of(meant.begin(), meant.end(), [&](const auto& other) {
          return other.colour == one.colour;
        });
        if (!known) meant.push_back(one);
      }
    }
  }
  return process::what_to_test(*head.tests, meant, head.asked_at.value_or(*head.visit_at),
                               *head.visit_at, head.settings);
}

/// The rough courses on all members, laid out; forbidden ones are told of.
std::vector<Draft> worked_out(const Case& head, const HeadHair& hair, const Kitchen& kitchen,
                              const Search& search, Standing& standing, Executor& executor) {
  std::vector<std::optional<Draft>> made(search.best.size());
  executor.run(made.size(), [&](std::size_t i) {
    InlineExecutor here;
    const RoughCourse& rough = search.best[i];
    const LiftTry lift = lift_again(head, hair, kitchen.recipes, rough.lift, here);
    made[i] = course_of(head, hair, kitchen, lift, rough.option, here);
  });
  std::vector<Draft> drafts;
  for (std::optional<Draft>& draft : made) {
    if (!draft) continue;
    if (process::forbids(draft->course.refusals)) {
      standing.left_out.push_back({draft->course.name, draft->course.refusals});
      continue;
    }
    if (bearable(head, draft->course)) drafts.push_back(*std::move(draft));
  }
  return drafts;
}

/// Several visits, where one leaves the wish out of reach.
void add_staged(const Case& head, const HeadHair& hair, const Kitchen& kitchen, Standing& standing,
                std::vector<Draft>& drafts, Executor& executor) {
  if (head.limits.most_visits < 2) return;
  const bool needed = std::all_of(drafts.begin(), drafts.end(), [&](const Draft& draft) {
    return may_stay_short(head, draft.course);
  });
  if (!needed) return;
  auto staged = staged_course(head, hair, kitchen, executor);
  if (!staged || !bearable(head, staged->course)) {
    for (Draft& draft : drafts) {
      draft.course.notes.emplace_back(
          "More visits were tried and come no nearer: the rules or the fibre stop them.");
    }
    return;
  }
  if (process::forbids(staged->course.refusals)) {
    standing.left_out.push_back({staged->course.name, staged->course.refusals});
    return;
  }
  drafts.push_back(*std::move(staged));
}

}  // namespace

void say_once(const Case& head, Standing standing, HeadPlan& plan) {
  const std::vector<std::vector<Refusal>> lists = {standing.refusals};
  plan.refusals = process::merged(lists);
  std::vector<std::vector<Refusal>> cautions;
  for (Course& course : plan.courses) {
    cautions.push_back(course.cautions);
    drop_repeated(course.refusals, plan.refusals);
  }
  plan.cautions = process::merged(cautions);
  std::erase_if(plan.cautions, [&](const Refusal& one) { return !in_all(cautions, one.id); });
  for (Course& course : plan.courses) drop_repeated(course.cautions, plan.cautions);
  plan.left_out = std::move(standing.left_out);
  for (Course& course : plan.courses) {
    if (stays_short(head, course)) {
      course.notes.emplace_back(
          "It ends darker than the wish: more than this the rules, the time "
          "or the fibre do not allow.");
    }
    course.sentence = sentence_of(head, course, plan.courses.front());
  }
}

namespace {

/// The strand test that a rule waits for, as a bowl of its own before the lift: the same mix on a
/// strand of each zone that must pass it.
void add_strand_test(const Case& head, Course& course) {
  const bool waits = std::any_of(
      course.refusals.begin(), course.refusals.end(),
      [](const Refusal& one) { return one.id == "texture_service_without_strand_test"; });
  if (!waits) return;
  for (std::size_t at = 0; at < course.bowls.size(); ++at) {
    if (course.bowls[at].purpose != Purpose::lift) continue;
    CourseBowl test = course.bowls[at];
    test.purpose = Purpose::strand_test;
    test.on_scalp = false;
    for (std::size_t i = test.zones.size(); i-- > 0;) {
      const process::TextureServices& past = head.zones[test.zones[i].zone].facts.texture;
      const bool reshaped = past.relaxed_hydroxide || past.relaxed_other || past.permed ||
                            past.texturised || past.smoothed;
      if (reshaped) continue;
      test.zones.erase(test.zones.begin() + static_cast<std::ptrdiff_t>(i));
      test.applications.erase(test.applications.begin() + static_cast<std::ptrdiff_t>(i));
    }
    if (test.zones.empty()) continue;
    course.bowls.insert(course.bowls.begin(), std::move(test));
    return;
  }
}

/// How lightener goes on a tender scalp and thin edges.
void note_tender(const Case& head, Course& course) {
  std::string names;
  for (const CourseBowl& bowl : course.bowls) {
    for (const BowlZone& on : bowl.zones) {
      const ZoneCase& zone = head.zones[on.zone];
      const bool tender =
          head.person.scalp == process::ScalpState::sensitive || zone.facts.thin_edges;
      if (bowl.purpose != Purpose::lift || bowl.visit != 1 || !tender || zone.from_cm > 0) continue;
      names += (names.empty() ? "" : ", ") + zone.name;
    }
  }
  if (names.empty()) return;
  course.notes.push_back(names +
                         ": tender. On last, looked at first, with the mildest developer "
                         "that does it; off at the first burning (common practice, no "
                         "source).");
}

}  // namespace

std::optional<Draft> course_of(const Case& head, const HeadHair& hair, const Kitchen& kitchen,
                               const LiftTry& lift, std::size_t option, Executor& executor) {
  Draft draft = begun(hair);
  Stage stage{lift, option < kitchen.options.size() ? &kitchen.options[option] : nullptr};
  if (!add_stage(head, stage, kitchen.recipes, kitchen.wish, 1, draft, executor)) return {};
  conclude(head, draft);
  if (!head.target) count_short(draft.course, lift);
  add_strand_test(head, draft.course);
  if (!lay_out(head, draft.course)) return {};
  name_course(head, draft.course);
  note_tender(head, draft.course);
  return draft;
}

bool HeadPlan::refused() const {
  if (!refusals.empty() || courses.empty()) return true;
  return std::any_of(courses.begin(), courses.end(),
                     [](const Course& course) { return !course.refusals.empty(); });
}

namespace {

/// Zones whose wet strands gave way, in words; empty: none did.
std::string fragile_zones(const Case& head) {
  std::string names;
  for (const ZoneCase& zone : head.zones) {
    if (!process::gives_way(zone.facts.stretch)) continue;
    names += (names.empty() ? "" : ", ") + zone.name;
  }
  return names;
}

/// Whatever is put on a head is rinsed over all of it, so one zone that gives way keeps lightener
/// and peroxide off the whole of it. House rule, no source.
void spare_fragile(const std::string& names, Kitchen& kitchen) {
  if (names.empty() || kitchen.wish.empty()) return;
  kitchen.recipes.clear();
  std::erase_if(kitchen.options, [](const ColourOption& option) { return option.oxidative(); });
}

/// Nothing put on, as a course that can be chosen; and what is done for the zones that gave way.
void add_rest(const Case& head, const HeadHair& hair, const Kitchen& kitchen,
              const std::string& names, std::vector<Draft>& drafts, Executor& executor) {
  if (names.empty() || kitchen.wish.empty()) return;
  if (auto rest =
          course_of(head, hair, kitchen, no_lift(head, hair), kitchen.options.size(), executor)) {
    drafts.push_back(*std::move(rest));
  }
  for (Draft& draft : drafts) {
    draft.course.notes.push_back(
        names +
        ": wet strands gave way, so no lightener and no peroxide goes on any part of this head "
        "today; a rinse would carry it over them. A protein treatment and a moisture treatment, "
        "each by itself; a trim takes off what is spent; stretch again before any lift (common "
        "practice, no source).");
  }
}

}  // namespace

Result<HeadPlan> plan_head(const Case& head, Executor& executor) {
  auto beliefs = believe(head, executor);
  if (!beliefs) return tl::unexpected(beliefs.error());
  warm_by_scalp(head, *beliefs);
  return plan_believed(head, *std::move(beliefs), executor);
}

Result<HeadPlan> plan_believed(const Case& head, std::vector<ZoneBelief> beliefs,
                               Executor& executor) {
  HeadPlan plan;
  plan.zones = std::move(beliefs);
  const HeadHair hair = hair_of(plan.zones);
  const HeadHair rough = thinned(hair, kRoughMembers);
  Standing standing;
  auto kitchen = stock_kitchen(head, rough, standing);
  if (!kitchen) return tl::unexpected(kitchen.error());
  const std::string fragile = fragile_zones(head);
  spare_fragile(fragile, *kitchen);
  const auto search = search_courses(head, rough, *kitchen, kWorkedOut, standing, executor);
  if (!search) return tl::unexpected(search.error());
  plan.examined = search->examined;
  auto drafts = worked_out(head, hair, *kitchen, *search, standing, executor);
  if (fragile.empty()) {
    for (Draft& one : cleared_courses(head, hair, executor)) {
      if (bearable(head, one.course)) drafts.push_back(std::move(one));
    }
  }
  if (fragile.empty()) add_staged(head, hair, *kitchen, standing, drafts, executor);
  add_rest(head, hair, *kitchen, fragile, drafts, executor);
  keep_affordable(head, drafts);
  const std::vector<std::size_t> shown = picked(drafts, kShown);
  if (!shown.empty()) {
    const Draft& first = drafts[shown.front()];
    plan.look_next = look_next(head, plan.zones, first.course, {first.lifted, first.now});
  }
  for (const std::size_t i : shown) plan.courses.push_back(std::move(drafts[i].course));
  say_once(head, std::move(standing), plan);
  plan.tests_to_make = tests_for(head, plan.courses);
  plan.whys = whys(head);
  return plan;
}

}  // namespace hw::plan
