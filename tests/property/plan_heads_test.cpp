// Every plan of random heads, checked again by other means than those that made it: rules, ratio,
// stock, wear, minutes, sums. HW_HEADS sets how many (500); tests and scripts/long share this file.
#include "property/plan_heads.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <mutex>
#include <thread>

#include "huewright/plan/plan.h"
#include "huewright/process/care.h"

namespace hw::plan {
namespace {

using process::Refusal;

std::size_t heads_wanted() {
  const char* asked = std::getenv("HW_HEADS");
  constexpr std::size_t kUsual = 500;
  return asked != nullptr ? std::strtoull(asked, nullptr, 10) : kUsual;
}

/// What was found wrong, and what was raised.
struct Findings {
  std::vector<std::string> faults;
  std::map<std::string, std::size_t> hits;
  bool course = false;
  void raised(const std::vector<Refusal>& list) {
    for (const Refusal& one : list) ++hits[one.id];
  }
};

/// One bowl as the rules see it, from the grams that are really poured.
process::Bowl bowl_of(const Case& head, const CourseBowl& bowl) {
  process::Bowl made;
  made.on_scalp = bowl.on_scalp;
  for (const BowlPart& part : bowl.parts) {
    process::Part poured{part.kind, Grams(bowl.poured.grams_of(part.id))};
    const process::Product* product = product_of(head, part.id);
    if (product != nullptr && part.kind == process::PartKind::developer) {
      poured.peroxide = product->peroxide;
    }
    if (product != nullptr && part.kind == process::PartKind::lightener) {
      poured.for_scalp = product->for_scalp;
    }
    made.parts.push_back(poured);
  }
  return made;
}

void check_grams(const Case& head, const CourseBowl& bowl, const std::string& at, Findings& found) {
  double sum = 0;
  double leading = 0;
  double developer = 0;
  double leading_parts = 0;
  double developer_parts = 0;
  for (const BowlPart& part : bowl.parts) {
    const double grams = bowl.poured.grams_of(part.id);
    sum += grams;
    const bool is_developer = part.kind == process::PartKind::developer;
    const bool leads =
        part.kind == process::PartKind::colour || part.kind == process::PartKind::lightener;
    if (leads) leading += grams;
    if (leads) leading_parts += part.parts;
    if (is_developer) developer += grams;
    if (is_developer) developer_parts += part.parts;
    const double steps = grams / head.salon.scale_step_g;
    if (std::abs(steps - std::round(steps)) > 1e-6) found.faults.push_back(at + "half a step");
    const process::Product* product = product_of(head, part.id);
    if (product != nullptr && product->stock && grams > product->stock->value() + 1e-9) {
      found.faults.push_back(
          at + fmt::format("{} g of {} but {} in stock", grams, part.id, product->stock->value()));
    }
  }
  if (std::abs(sum - bowl.poured.grams) > 1e-6) found.faults.push_back(at + "grams do not add up");
  if (leading > 0 && developer_parts > 0) {
    const double most = developer_parts / leading_parts * leading + 1e-6;
    if (developer > most) {
      found.faults.push_back(at + fmt::format("{} g developer on {} g", developer, leading));
    }
  }
}

void check_minutes(const Case& head, const CourseBowl& bowl, const std::string& at,
                   std::vector<double>& lightener, Findings& found) {
  for (const BowlZone& zone : bowl.zones) {
    const ZoneTimes& times = zone.times;
    if (times.stop_at > times.hard_stop_at + 1e-6)
      found.faults.push_back(at + "past the hard stop");
    if (times.stop_at < times.applied_by - 1e-6) found.faults.push_back(at + "off before it is on");
    for (const double check : times.checks_at) {
      if (check < times.apply_at || check > times.stop_at)
        found.faults.push_back(at + "idle check");
    }
    if (bowl.powder_percent <= 0 || bowl.purpose == Purpose::strand_test) continue;
    lightener[zone.zone] += zone.stop_min.mid;
    const double label = bowl.label_min.value_or(45);
    if (zone.stop_min.mid / bowl.mixes > label + 1e-6)
      found.faults.push_back(at + "past its label");
  }
  for (std::size_t z = 0; z < lightener.size(); ++z) {
    const double today = head.zones[z].facts.lightener_minutes_today.value();
    if (lightener[z] > 0 && bowl.visit == 1 && lightener[z] + today > 45 + 1e-6) {
      found.faults.push_back(at + "more than 45 minutes of lightener");
    }
  }
}

/// The rules again, on the bowl as poured and the wear as predicted.
void check_rules(const Case& head, const Course& course, const CourseBowl& bowl,
                 const std::string& at, Findings& found) {
  process::ApplicationFacts facts;
  facts.bowl = bowl_of(head, bowl);
  const auto mix = process::mix_bowl(facts.bowl);
  if (!mix) {
    found.faults.push_back(at + one_line(mix.error()));
    return;
  }
  facts.mix = *mix;
  if (std::abs(mix->peroxide.value() - bowl.peroxide_percent) > 0.35) {
    found.faults.push_back(
        at + fmt::format("{} % said, {} % poured", bowl.peroxide_percent, mix->peroxide.value()));
  }
  process::Person person = head.person;
  if (head.tests) person.skin_test = process::SkinTest::clear;  // asked of the record below
  std::vector<process::ColourMeant> meant;
  for (const process::Poured& pour : bowl.pours) {
    const process::Product* tube = product_of(head, pour.shade.id);
    meant.push_back({{tube->name.empty() ? tube->id : tube->name, tube->id}, tube->test_each_use});
  }
  for (const BowlZone& zone : bowl.zones) {
    facts.minutes = Minutes(zone.stop_min.mid / bowl.mixes);
    process::HairFacts hair = head.zones[zone.zone].facts;
    const bool takes = course.zones[zone.zone].wear_added >= kNoWear;
    if (takes) hair.wear_high_90 = course.zones[zone.zone].wear.high;
    if (takes) hair.wet_strength_ratio = course.zones[zone.zone].strength_left_low;
    if (bowl.visit > 1) hair.lightener_minutes_today = Minutes(0);
    if (bowl.visit > 1) hair.lightened_on_scalp_today = false;
    facts.bowl.on_scalp = head.zones[zone.zone].from_cm <= 0;
    auto raised = check_application(person, hair, facts, head.settings);
    if (head.tests && mix->has_oxidative_colour) {
      const auto tests = check_skin_tests(*head.tests, meant, *head.visit_at, head.settings);
      raised.insert(raised.end(), tests.begin(), tests.end());
    }
    found.raised(raised);
    for (const Refusal& one : raised) {
      if (one.kind == process::RefusalKind::never) found.faults.push_back(at + one.id);
      if (one.kind == process::RefusalKind::not_until && !course.draft) {
        found.faults.push_back(at + one.id + " but no draft");
      }
    }
  }
}

void check_course(const Case& head, const Course& course, const std::string& at, Findings& found) {
  for (const CourseZone& zone : course.zones) {
    const bool takes = zone.wear_added >= kNoWear;
    if (takes && zone.wear.high > head.limits.wear + 1e-9) found.faults.push_back(at + "wear");
  }
  for (int visit = 1; visit <= course.visits; ++visit) {
    std::vector<double> lightener(head.zones.size(), 0);
    for (const CourseBowl& bowl : course.bowls) {
      if (bowl.visit == visit) check_minutes(head, bowl, at, lightener, found);
    }
  }
  for (const CourseBowl& bowl : course.bowls) {
    check_grams(head, bowl, at, found);
    check_rules(head, course, bowl, at, found);
  }
  if (!(course.minutes.low <= course.minutes.mid && course.minutes.mid <= course.minutes.high)) {
    found.faults.push_back(at + "minutes out of order");
  }
}

Findings findings_of(std::uint64_t index) {
  InlineExecutor here;
  Findings found;
  const Case head = test::random_head(index);
  const auto plan = plan_head(head, here);
  if (!plan) {
    // A shelf that can mix nothing is an answer; anything else is a fault.
    if (plan.error().code != ErrorCode::unreachable) {
      found.faults.push_back(head.title + ": " + one_line(plan.error()));
    }
    return found;
  }
  found.raised(plan->refusals);
  found.raised(plan->cautions);
  for (const LeftOut& out : plan->left_out) found.raised(out.refusals);
  for (const Course& course : plan->courses) {
    found.raised(course.refusals);
    found.raised(course.cautions);
    check_course(head, course, head.title + ", " + course.name + ": ", found);
  }
  found.course = !plan->courses.empty();
  return found;
}

/// Rules that no plan can raise, since it plans none of it: heat, metal, what stands in a bowl
/// beside its label, a canvas that was not read. Each is raised by its own question.
void ask_the_rest(Findings& found) {
  process::ApplicationFacts facts;
  facts.bowl.parts = {{process::PartKind::lightener, Grams(30)},
                      {process::PartKind::developer, Grams(60), Percent(20)}};
  facts.bowl.parts[0].for_scalp = true;
  facts.mix = *process::mix_bowl(facts.bowl);
  facts.added_heat = true;
  facts.minutes = Minutes(50);
  facts.label_max_minutes = Minutes(45);
  facts.metal_bowl = true;
  process::HairFacts hair;
  hair.lightener_minutes_today = Minutes(10);
  hair.wear_high_90 = 0.43;
  hair.wet_strength_ratio = 0.4;
  found.raised(check_application({}, hair, facts));
  const std::vector<process::Canvas> canvas = {{"roots", false, false}};
  found.raised(check_colour_bowl(canvas, process::DyeClass::demi));
  const std::vector<process::Ingredient> parts = {{process::PartKind::colour},
                                                  {process::PartKind::developer},
                                                  {process::PartKind::treatment, true, false}};
  found.raised(check_blend(parts));
}

TEST(PlanHeads, no_course_breaks_a_rule_a_ratio_stock_wear_or_a_stop) {
  const std::size_t heads = heads_wanted();
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  std::mutex lock;
  std::map<std::string, std::size_t> hits;
  std::size_t with_course = 0;
  std::vector<std::string> faults;
  threads->run(heads, [&](std::size_t i) {
    const Findings found = findings_of(i);
    const std::lock_guard hold(lock);
    with_course += found.course ? 1 : 0;
    faults.insert(faults.end(), found.faults.begin(), found.faults.end());
    for (const auto& [id, count] : found.hits) hits[id] += count;
  });
  constexpr std::size_t kShown = 20;
  for (std::size_t i = 0; i < faults.size() && i < kShown; ++i) ADD_FAILURE() << faults[i];
  EXPECT_EQ(faults.size(), 0U);
  const double share = static_cast<double>(with_course) / static_cast<double>(heads);
  fmt::print("{} heads, {:.0f} % with a course\n", heads, 100 * share);
  EXPECT_GE(share, 0.6);
  Findings rest;
  ask_the_rest(rest);
  for (const process::Rule& rule : process::rules()) {
    const std::size_t planned = hits[rule.id];
    const std::size_t asked = rest.hits[rule.id];
    fmt::print("  {:<42} {:>7}{}\n", rule.id, planned,
               planned == 0 ? " (by its own question)" : "");
    if (rule.id == "closing_advice") continue;
    EXPECT_GT(planned + asked, 0U) << rule.id;
  }
}

}  // namespace
}  // namespace hw::plan
