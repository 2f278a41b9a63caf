// A visit under way: what is on which zone, when it is due, and what the looks so far changed.
// Deadlines are moments, counted from what was recorded; a page shows them less the server's clock.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "handlers.h"
#include "huewright/book/lessons.h"
#include "huewright/plan/course_chart.h"
#include "planning.h"

namespace hw::server {
namespace {

/// When a bowl went on a zone and came off.
struct Stroke {
  process::Moment on;
  std::optional<process::Moment> off = {};
};

/// The visit as its facts tell it.
struct Running {
  book::VisitState visit;
  std::optional<process::Moment> started = {};
  std::map<std::pair<std::string, std::string>, Stroke> strokes;  ///< by bowl and zone
  std::map<std::string, process::Moment> looked;                  ///< last check of a zone
};

process::Moment moment_of(const std::string& text) {
  return process::moment_from_iso(text).value_or(process::Moment{});
}

void take(Running& running, const book::Fact& fact) {
  const process::Moment at = moment_of(fact.at);
  if (fact.kind == book::ApplyFact::kKind) {
    const auto apply = book::body_of<book::ApplyFact>(fact);
    running.strokes.emplace(std::pair(apply.bowl, apply.zone), Stroke{at});
    if (!running.started || at < *running.started) running.started = at;
  }
  if (fact.kind == book::RinseFact::kKind) {
    const auto rinse = book::body_of<book::RinseFact>(fact);
    for (auto& [where, stroke] : running.strokes) {
      const bool this_one = rinse.zone.empty() || rinse.zone == where.second;
      if (this_one && !stroke.off && stroke.on <= at) stroke.off = at;
    }
  }
  if (fact.kind == book::ReadingFact::kKind) {
    const auto reading = book::body_of<book::ReadingFact>(fact);
    if (reading.when == "check") running.looked[reading.zone] = at;
  }
}

Running running_of(std::span<const book::Fact> facts) {
  Running running;
  running.visit = book::visit_of(facts);
  for (const book::Fact& fact : book::in_force(facts)) take(running, fact);
  return running;
}

/// The chosen course, planned on after the looks so far.
struct Now {
  std::shared_ptr<const Planned> before;  ///< as it was chosen
  std::shared_ptr<const Planned> after;   ///< as it is now
  std::size_t course_before = 0, course_after = 0;
  [[nodiscard]] const plan::Course& was() const {
    return before->answer.plan.courses[course_before];
  }
  [[nodiscard]] const plan::Course& is() const { return after->answer.plan.courses[course_after]; }
};

Result<Now> now_of(Service& service, const std::string& id, const Running& running,
                   std::span<const book::Fact> facts) {
  if (!running.visit.plan || running.visit.plan->course < 1) {
    return fail(ErrorCode::conflict, "no course was chosen for this visit", "visit",
                "plan it and choose one");
  }
  const auto asked = plan_of_visit(service, id);
  if (!asked) return tl::unexpected(asked.error());
  const auto before = planned(service, *asked);
  if (!before) return tl::unexpected(before.error());
  Now now{*before, *before, 0, 0};
  const auto chosen = static_cast<std::size_t>(running.visit.plan->course) - 1;
  if (chosen >= (*before)->answer.plan.courses.size()) {
    return fail(ErrorCode::conflict, "the plan that was chosen cannot be made any more", "visit",
                "plan it anew");
  }
  now.course_before = now.course_after = chosen;
  auto readings = book::checks_of(facts);
  for (const book::Fact& fact : book::in_force(facts)) {
    if (fact.kind != book::StrandTestFact::kKind) continue;
    if (auto test = book::check_reading(fact, {})) readings.push_back(*std::move(test));
  }
  if (readings.empty()) return now;
  std::string key = id + "\n" + running.visit.plan->case_json;
  for (const book::Fact& fact : facts) {
    if (fact.kind == book::ReadingFact::kKind || fact.kind == book::StretchFact::kKind ||
        fact.kind == book::ApplyFact::kKind || fact.kind == book::StrandTestFact::kKind) {
      key += '\n' + fact.id;
    }
  }
  now.course_after = 0;
  if (auto known = service.plans().find(key)) {
    now.after = known;
    return now;
  }
  auto again = plan::plan_again((*before)->answer.head, (*before)->answer.plan, chosen, readings,
                                service.threads());
  if (!again) return tl::unexpected(again.error());
  auto made = std::make_shared<Planned>(**before);
  made->answer.plan = std::move(again->plan);
  made->answer.checked = std::move(again->checked);
  if (made->answer.plan.courses.empty()) {  // nothing is left but to rinse
    now.course_after = now.course_before;
    return now;
  }
  service.plans().keep(key, made);
  now.after = made;
  return now;
}

process::Moment after_minutes(const process::Moment& from, double minutes) {
  constexpr double kMinutesPerHour = 60;
  return process::hours_later(from, minutes / kMinutesPerHour, from.offset);
}

Json when(const std::optional<process::Moment>& at) {
  return at ? Json(process::iso_text(*at)) : Json("");
}

/// What a zone is expected to look like now, with tiles to either side.
class Expected {
 public:
  Expected(const Now& now, Executor& threads) : head_(now.after->answer.head) {
    constexpr std::size_t kColumns = 90, kRowsPerZone = 4;
    for (const std::string& section : plan::sections_of(head_)) {
      charts_.emplace(
          section,
          plan::strand_chart(
              plan::chart_course(head_, now.after->answer.plan.zones, now.is(), 1, section),
              kColumns, kRowsPerZone * head_.zones.size(), head_.ladder, threads));
    }
  }
  [[nodiscard]] Json at(const plan::ZoneCase& zone, double minute) const {
    const plan::StrandChart& chart = charts_.at(zone.section);
    const colour::HairLab lab = plan::colour_at(chart, minute, middle(zone));
    Json one;
    one["level"] = head_.ladder.level_of(lab.l);
    one["paint"] = paint(lab, head_.ladder);
    return one;
  }
  /// Half levels from one and a half below to one and a half above, each as this zone looks when it
  /// is there, or would by its warmth.
  [[nodiscard]] Json neighbours(const plan::ZoneCase& zone, double minute) const {
    const plan::StrandChart& chart = charts_.at(zone.section);
    const double level = head_.ladder.level_of(plan::colour_at(chart, minute, middle(zone)).l);
    Json list = Json::array();
    for (int half = -3; half <= 3; ++half) {
      const double wanted = std::clamp(std::round(level * 2 + half) / 2, 1.0, 10.0);
      if (!list.empty() && list.back()["level"] == wanted) continue;
      Json one;
      one["level"] = wanted;
      one["paint"] = paint(colour_of(chart, zone, wanted), head_.ladder);
      list.push_back(one);
    }
    return list;
  }

 private:
  static double middle(const plan::ZoneCase& zone) { return (zone.from_cm + zone.to_cm) / 2; }
  [[nodiscard]] colour::HairLab colour_of(const plan::StrandChart& chart,
                                          const plan::ZoneCase& zone, double level) const {
    colour::HairLab nearest{};
    double off = 100;
    for (const double minute : chart.minute) {
      const colour::HairLab lab = plan::colour_at(chart, minute, middle(zone));
      const double miss = std::abs(head_.ladder.level_of(lab.l) - level);
      if (miss < off) {
        off = miss;
        nearest = lab;
      }
    }
    nearest.l = head_.ladder.lstar_of(level);
    return nearest;
  }
  const plan::Case& head_;
  std::map<std::string, plan::StrandChart> charts_;
};

/// A bowl on a zone with its moments.
struct OnZone {
  std::string bowl;
  const plan::BowlZone* planned = nullptr;
  const Stroke* stroke = nullptr;
  [[nodiscard]] double shift(const process::Moment& started) const {
    if (stroke == nullptr) return 0;
    return std::chrono::duration<double, std::ratio<60>>(stroke->on.utc - started.utc).count() -
           planned->times.apply_at;
  }
};

/// The bowl that counts for a zone now: the last that went on, else the first that waits.
OnZone bowl_for(const Now& now, const Running& running, std::size_t zone) {
  const plan::Case& head = now.after->answer.head;
  OnZone found;
  for (std::size_t b = 0; b < now.is().bowls.size(); ++b) {
    const plan::CourseBowl& bowl = now.is().bowls[b];
    if (bowl.visit != 1) continue;
    for (const plan::BowlZone& planned : bowl.zones) {
      if (planned.zone != zone) continue;
      const std::string name = std::to_string(b + 1);
      const auto stroke = running.strokes.find({name, head.zones[zone].name});
      const bool on = stroke != running.strokes.end();
      if (on || found.planned == nullptr || (found.stroke != nullptr && found.stroke->off)) {
        found = {name, &planned, on ? &stroke->second : nullptr};
      }
      if (!on) return found;
    }
  }
  return found;
}

/// The first check of a zone that nobody has made yet.
std::optional<process::Moment> next_check(const OnZone& on, const process::Moment& started,
                                          const Running& running, const std::string& zone) {
  const auto looked = running.looked.find(zone);
  constexpr std::chrono::minutes kEarly{2};  // a look shortly before its time counts for it
  for (const double minute : on.planned->times.checks_at) {
    const process::Moment at = after_minutes(started, minute + on.shift(started));
    if (looked == running.looked.end() || looked->second.utc + kEarly < at.utc) return at;
  }
  return {};
}

struct Due {
  std::string zone, what;
  process::Moment at;
};

/// One card. Adds what is due on it.
Json zone_json(const Now& now, const Running& running, std::size_t z, const Expected& expected,
               const process::Moment& clock, bool seen, std::vector<Due>& due) {
  const plan::Case& head = now.after->answer.head;
  const plan::ZoneCase& zone = head.zones[z];
  const OnZone on = bowl_for(now, running, z);
  Json one;
  one["zone"] = zone.name;
  one["section"] = zone.section;
  one["seen"] = seen;
  if (on.planned == nullptr) {
    one["state"] = "not planned";
    return one;
  }
  const process::Moment started = running.started.value_or(clock);
  const plan::ZoneTimes& times = on.planned->times;
  const double shift = on.shift(started);
  const process::Moment stop = after_minutes(started, times.stop_at + shift);
  const process::Moment hard = after_minutes(started, times.hard_stop_at + shift);
  const auto check = next_check(on, started, running, zone.name);
  const double minute =
      std::chrono::duration<double, std::ratio<60>>(clock.utc - started.utc).count() - shift;
  one["bowl"] = on.bowl;
  one["purpose"] = name_of(now.is().bowls[std::stoul(on.bowl) - 1].purpose);
  one["apply_at"] = process::iso_text(after_minutes(started, times.apply_at));
  one["on_at"] = on.stroke != nullptr ? Json(process::iso_text(on.stroke->on)) : Json("");
  one["next_check_at"] = when(check);
  one["stop_at"] = process::iso_text(stop);
  one["hard_stop_at"] = process::iso_text(hard);
  one["slack_min"] = times.slack_late;
  one["expect"] = expected.at(zone, on.stroke == nullptr ? 0 : minute);
  one["neighbours"] = expected.neighbours(zone, on.stroke == nullptr ? 0 : minute);
  if (on.stroke == nullptr) {
    one["state"] = "waits";
    due.push_back({zone.name, "apply", after_minutes(started, times.apply_at)});
  } else if (on.stroke->off) {
    one["state"] = "off";
  } else {
    const bool check_due = check && check->utc <= clock.utc;
    one["state"] = clock.utc >= hard.utc   ? "stop"
                   : clock.utc >= stop.utc ? "due"
                   : check_due             ? "check"
                                           : "on";
    if (check && check->utc < stop.utc) due.push_back({zone.name, "check", *check});
    due.push_back({zone.name, "stop", stop});
  }
  return one;
}

/// Of a day, what lies before its first bowl: that is past when the first strand is covered.
double minutes_before_bowls(const plan::VisitDay& day) {
  for (const plan::DayPart& part : day.day.parts) {
    if (part.block.id == "lift" || part.block.id == "colour_apply") return part.starts_at;
  }
  return 0;
}

/// What the looks changed, in sentences.
Json changed_json(const Now& now) {
  Json list = Json::array();
  if (now.after == now.before) return list;
  const plan::Case& head = now.after->answer.head;
  const std::size_t bowls = std::min(now.was().bowls.size(), now.is().bowls.size());
  for (std::size_t b = 0; b < bowls; ++b) {
    for (const plan::BowlZone& is : now.is().bowls[b].zones) {
      const auto was = std::ranges::find(now.was().bowls[b].zones, is.zone, &plan::BowlZone::zone);
      if (was == now.was().bowls[b].zones.end()) continue;
      const double minutes = std::round(is.times.stop_at - was->times.stop_at);
      if (minutes == 0) continue;
      list.push_back(fmt::format("{}: stop {:.0f} min {}", head.zones[is.zone].name,
                                 std::abs(minutes), minutes < 0 ? "earlier" : "later"));
    }
  }
  return list;
}

/// Zones whose strands gave way since the first bowl went on.
std::set<std::string> zones_to_rinse(const Now& now, const Running& running) {
  constexpr std::array<std::string_view, 3> kGiveWay{"stays_stretched", "gummy", "snaps"};
  std::set<std::string> zones;
  if (now.after->answer.checked) {
    for (const plan::ZoneCheck& check : now.after->answer.checked->checks) {
      if (check.rinse_now) zones.insert(check.zone);
    }
  }
  for (const auto& stretch : running.visit.stretches) {
    const bool since = running.started && *running.started <= moment_of(stretch.at);
    if (since && std::ranges::find(kGiveWay, stretch.body.worst) != kGiveWay.end()) {
      zones.insert(stretch.body.zone.empty() ? "the whole head" : stretch.body.zone);
    }
  }
  return zones;
}

Json findings_json(const Now& now, const Running& running) {
  Json list = Json::array();
  for (const auto* found : {&now.after->answer.plan.refusals, &now.after->answer.plan.cautions}) {
    for (const process::Refusal& refusal : *found) list.push_back(refusal_json(refusal));
  }
  for (const std::string& zone : zones_to_rinse(now, running)) {
    list.push_back({{"id", "rinse_now"},
                    {"kind", "never"},
                    {"text", zone + ": the strand gives way. Rinse it now, whatever the colour."},
                    {"source", "rule wet_stretch_failed of data/process/rules.csv"}});
  }
  return list;
}

}  // namespace

Result<Reply> run_of_visit(Service& service, const Request& request) {
  const std::string& id = request.parts.at(0);
  std::vector<book::Fact> facts;
  {
    const auto book = service.book();
    if (const auto line = book.store().visit(id); !line) return tl::unexpected(line.error());
    auto all = book.store().facts_of(book::About::visit, id);
    if (!all) return tl::unexpected(all.error());
    facts = *std::move(all);
  }
  const Running running = running_of(facts);
  const auto now = now_of(service, id, running, facts);
  if (!now) return tl::unexpected(now.error());
  const process::Moment clock = service.now();
  const Expected expected(*now, service.threads());
  const auto seen = service.seen(id);
  std::vector<Due> due;
  Json body;
  body["now"] = process::iso_text(clock);
  body["started_at"] = when(running.started);
  const process::Moment from = running.started.value_or(clock);
  const plan::VisitDay& day = now->is().days.front();
  const double before = minutes_before_bowls(day);
  body["ends_at"] = process::iso_text(after_minutes(from, day.minutes.mid - before));
  body["ends_low"] = process::iso_text(after_minutes(from, day.minutes.low - before));
  body["ends_high"] = process::iso_text(after_minutes(from, day.minutes.high - before));
  body["zones"] = Json::array();
  const auto& zones = now->after->answer.head.zones;
  for (std::size_t z = 0; z < zones.size(); ++z) {
    body["zones"].push_back(
        zone_json(*now, running, z, expected, clock, seen.contains(zones[z].name), due));
  }
  std::ranges::stable_sort(due, {}, [](const Due& one) { return one.at.utc; });
  body["next"] = due.empty() ? Json()
                             : Json{{"zone", due.front().zone},
                                    {"what", due.front().what},
                                    {"at", process::iso_text(due.front().at)}};
  body["changed"] = changed_json(*now);
  body["findings"] = findings_json(*now, running);
  body["course"] = now->course_after + 1;
  body["plan"] = plan_json(now->after->answer);
  body["blocks"] = Json::array();
  for (const plan::DayPart& part : day.day.parts) {
    body["blocks"].push_back({{"block", part.block.id},
                              {"words", part.block.words},
                              {"starts_at_min", part.starts_at},
                              {"minutes", part.block.minutes.mid}});
  }
  return reply(body);
}

Result<Reply> seen_on_visit(Service& service, const Request& request) {
  const auto body = body_of(request, {"zone"});
  if (!body) return tl::unexpected(body.error());
  const auto zone = text_of(*body, "zone");
  if (!zone) return tl::unexpected(zone.error());
  if (zone->empty()) return fail(ErrorCode::missing, "is missing", "zone", "say which zone");
  {
    const auto book = service.book();
    const auto line = book.store().visit(request.parts.at(0));
    if (!line) return tl::unexpected(line.error());
  }
  service.mark_seen(request.parts.at(0), *zone);
  service.tell({"visit", request.parts.at(0)});
  return reply(Json::object());
}

}  // namespace hw::server
