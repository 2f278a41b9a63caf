#include "replay_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/base/statistics.h"

namespace hw::book {
namespace {

/// Sds from the middle to either end of a band that holds 8 in 10 of a normal.
constexpr double kBandSds = 1.2815515655;

void add_way(const plan::Course& course, std::vector<ReplayWay>& into) {
  ReplayWay way{course.name, course.sentence, course.refusals};
  way.findings.insert(way.findings.end(), course.cautions.begin(), course.cautions.end());
  into.push_back(std::move(way));
}

bool holds(const std::vector<process::Refusal>& list, const process::Refusal& one) {
  return std::ranges::any_of(
      list, [&](const auto& other) { return other.id == one.id && other.text == one.text; });
}

/// Whether a lesson moved what is believed: by more than a tenth of its doubt, or the doubt itself
/// by a twentieth; house rule, no source.
bool moved(const plan::NormalBelief& before, const plan::NormalBelief& after) {
  constexpr double kMean = 0.1, kDoubt = 0.05;
  return std::abs(after.mean - before.mean) > kMean * before.sd ||
         after.sd < (1 - kDoubt) * before.sd;
}

/// A sentence on a zone of a client names the client by id: nobody's id is for telling.
std::string without_id(std::string sentence, const std::string& client) {
  const std::string name = client + " / ";
  if (const auto at = sentence.find(name); !client.empty() && at != std::string::npos) {
    sentence.erase(at, name.size());
  }
  return sentence;
}

}  // namespace

std::vector<std::string> wish_of(const plan::Case& head) {
  std::vector<std::string> told;
  if (head.target) {
    told.push_back(fmt::format("Wish: {}", head.target->words));
    if (!head.target->note.empty()) told.push_back(head.target->note);
  } else if (!head.zones.empty()) {
    told.push_back(fmt::format("Wish: level {:.1f}", wished_level_of(head, head.zones.front())));
  }
  return told;
}

std::vector<ReplayZone> zones_now(const ReplaySource& source) {
  std::vector<ReplayZone> zones;
  for (std::size_t z = 0; z < source.plan->zones.size(); ++z) {
    const plan::ZoneBelief& belief = source.plan->zones[z];
    ReplayZone zone;
    zone.zone = belief.name;
    zone.level = band_of(belief.level_now);
    const plan::Reading& read = source.head.zones[z].readings.front();
    zone.found = read.level;
    if (read.lab) {
      zone.found = source.head.ladder.level_of(read.lab->l);
      zone.lab = *read.lab;
    }
    zones.push_back(std::move(zone));
  }
  return zones;
}

void put_plan(const ReplaySource& source, const plan::Course* chosen, ReplayStep& into) {
  const plan::HeadPlan& plan = *source.plan;
  into.examined = plan.examined;
  into.findings = plan.refusals;
  into.findings.insert(into.findings.end(), plan.cautions.begin(), plan.cautions.end());
  if (chosen != nullptr) {
    add_way(*chosen, into.courses);
    into.told = chosen->notes;
  }
  for (const plan::Course& course : plan.courses) {
    if (&course != chosen) add_way(course, into.courses);
  }
  for (const plan::LeftOut& one : plan.left_out) {
    into.left_out.push_back({one.name, {}, one.refusals});
  }
  for (const plan::LookNext& one : plan.look_next) into.told.push_back(one.sentence);
}

std::vector<std::string> lessons_told(const ReplaySource& source, const VisitState& visit) {
  plan::Facts without = source.lessons;
  std::erase_if(without.visits, [&](const plan::VisitFact& one) { return one.id == visit.id; });
  std::erase_if(without.amounts, [&](const plan::AmountFact& one) { return one.id == visit.id; });
  const auto before = plan::learn(without);
  const auto after = plan::learn(source.lessons);
  std::vector<std::string> told;
  if (!before || !after) return told;
  for (const plan::Factor& factor : after->factors) {
    const plan::Factor* was = before->find(factor.kind, factor.name);
    const plan::NormalBelief prior{0, plan::factor_prior(factor.kind).sd_between};
    if (!moved(was == nullptr ? prior : was->learned, factor.learned)) continue;
    told.push_back(without_id(factor.sentence, visit.client));
  }
  if (told.empty()) told.emplace_back("This visit moved nothing that was known.");
  return told;
}

ReplayLooks::ReplayLooks(const ReplaySource& source, const plan::Course* course, Executor& executor)
    : source_(source),
      course_(course),
      executor_(executor),
      first_stroke_(first_stroke(in_force(source.facts))) {
  if (course != nullptr) standing_ = standing_of(*source.plan, *course);
}

ReplayLooks::Standing ReplayLooks::standing_of(const plan::HeadPlan& plan,
                                               const plan::Course& course) const {
  Standing made;
  for (std::size_t b = 0; b < course.bowls.size(); ++b) {
    if (course.bowls[b].visit != 1) continue;
    for (const plan::BowlZone& zone : course.bowls[b].zones) {
      made.stops[{std::to_string(b + 1), source_.head.zones[zone.zone].name}] = zone.times.stop_at;
    }
  }
  made.rate = band_of(plan.zones.front().origin.head_rate).mid;
  made.notes = course.notes;
  for (const auto* list : {&plan.refusals, &plan.cautions, &course.refusals, &course.cautions}) {
    made.findings.insert(made.findings.end(), list->begin(), list->end());
  }
  return made;
}

void ReplayLooks::compare(const Standing& after, ReplayStep& into) const {
  constexpr double kTold = 0.5;       // min: what is shown without decimals
  constexpr double kToldPercent = 3;  // as learn_words tells a rate
  for (const auto& [where, minute] : after.stops) {
    const auto was = standing_.stops.find(where);
    if (was == standing_.stops.end() || std::abs(minute - was->second) < kTold) continue;
    into.stops.push_back({where.second, was->second, minute});
  }
  const double percent = 100 * (after.rate / standing_.rate - 1);
  if (std::abs(percent) >= kToldPercent) {
    into.told.push_back(fmt::format("The hair lifts {:.0f} % {} than was thought before this look.",
                                    std::abs(percent), percent > 0 ? "faster" : "slower"));
  }
  for (const std::string& note : after.notes) {
    if (std::ranges::find(standing_.notes, note) == standing_.notes.end())
      into.told.push_back(note);
  }
  for (const process::Refusal& finding : after.findings) {
    if (!holds(standing_.findings, finding)) into.findings.push_back(finding);
  }
  if (into.stops.empty() && into.told.empty() && into.findings.empty()) {
    into.told.emplace_back("This look moves nothing: it fits what was expected.");
  }
}

void ReplayLooks::take(std::span<const Fact> looks, ReplayStep& into) {
  for (const Fact& fact : looks) {
    const auto reading = check_reading(fact, first_stroke_);
    HW_CHECK(reading.has_value());
    readings_.push_back(*reading);
    ReplayZone zone;
    zone.zone = reading->zone;
    zone.reader = reading->reader.empty() ? fact.by : reading->reader;
    zone.seen = reading->seen == hair::Moisture::wet     ? "wet"
                : reading->seen == hair::Moisture::wiped ? "wiped"
                                                         : "dry";
    zone.lab = reading->lab;
    zone.found = reading->lab ? source_.head.ladder.level_of(reading->lab->l) : *reading->level;
    zone.level = {*zone.found, *zone.found, *zone.found};
    into.zones.push_back(std::move(zone));
  }
  if (course_ == nullptr) return;
  const auto index = static_cast<std::size_t>(course_ - source_.plan->courses.data());
  const auto again = plan::plan_again(source_.head, *source_.plan, index, readings_, executor_);
  if (!again) {
    into.told.push_back(
        fmt::format("The rest could not be planned from here: {}.", again.error().message));
    return;
  }
  const std::size_t before = readings_.size() - into.zones.size();
  for (std::size_t i = 0; i < into.zones.size(); ++i) {
    const plan::ReadingForecast& forecast = again->checked.forecasts[before + i];
    ReplayZone& zone = into.zones[i];
    const double half = kBandSds * forecast.sd_level;
    zone.level = {forecast.expected_level - half, forecast.expected_level,
                  forecast.expected_level + half};
    zone.held = *zone.found >= zone.level.low && *zone.found <= zone.level.high;
  }
  if (!again->checked.believable) {
    into.told.emplace_back("A reading is far from anything this head should show: look again.");
  }
  const Standing after = standing_of(again->plan, again->plan.courses.front());
  compare(after, into);
  standing_ = after;
}

std::optional<double> ReplayLooks::stop_of(const std::string& bowl, const std::string& zone) const {
  const auto at = standing_.stops.find({bowl, zone});
  if (at == standing_.stops.end()) return {};
  return at->second;
}

}  // namespace hw::book
