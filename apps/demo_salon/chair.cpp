#include "chair.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "huewright/base/check.h"
#include "huewright/book/visit_facts.h"
#include "huewright/process/bowl.h"
#include "town_clock.h"

namespace hw::demo {
namespace {

using plan::CourseBowl;
using plan::Purpose;
using process::PartKind;

/// What hands do to a plan. Guesses, for a salon that looks lived in.
constexpr double kPourSd = 0.02;          // of each pour
constexpr double kStopSdMin = 1.5;        // of each rinse
constexpr double kLateMin = 3;            // between bowls, likely
constexpr double kPourBeforeMin = 6;      // the first stroke
constexpr double kChecks[] = {0.5, 0.8};  // of the minutes on the hair
constexpr double kShortestChecked = 12;   // minutes

using Weighed = std::map<std::string, double>;  // grams by product

/// Everything that one visit shares.
struct Work {
  const Chair& chair;
  Truth& truth;
  Pen& pen;
  Chance& chance;
  double late_min = 0;
  int bowls = 0;
  Went went;

  [[nodiscard]] process::Moment at(double minute) const {
    return later(chair.first_stroke, minute + late_min);
  }
  template <class Body>
  void note(double minute, const Body& body) {
    const process::Moment when = at(minute);
    pen.note(chair.visit, when, chair.who.name, body);
    went.rinsed = std::max(went.rinsed, when);
  }
};

/// Grams that the plan pours for one mixing of a bowl.
Weighed planned_grams(const CourseBowl& bowl, int mix) {
  double again = 1e9;
  for (const plan::BowlZone& zone : bowl.zones) {
    if (!zone.again_at_min.empty()) again = std::min(again, zone.again_at_min.front());
  }
  Weighed grams;
  for (const plan::PouredBowl& one : bowl.poured.bowls) {
    const bool second = one.mix_at_min >= again - kPourBeforeMin;
    if (bowl.mixes > 1 && second != (mix > 0)) continue;
    for (const plan::Pour& pour : one.pours) grams[pour.id] += pour.grams;
  }
  return grams;
}

/// Weighs a bowl, with what slips, and writes it down.
Weighed pour(Work& work, const CourseBowl& bowl, int mix, const std::string& name, double minute) {
  Weighed weighed;
  const double step = work.chair.head.salon.scale_step_g;
  int turn = 0;
  for (const auto& [id, grams] : planned_grams(bowl, mix)) {
    const double off = std::abs(work.chance.normal()) * kPourSd;  // a hand pours too much
    const double steps = std::max(1.0, std::round(grams * (1 + off) / step));
    weighed[id] = steps * step;
    constexpr double kEachMin = 0.4;
    work.note(minute - kPourBeforeMin + kEachMin * turn++,
              book::PourFact{name, id, {}, weighed[id]});
  }
  return weighed;
}

/// What was mixed and not needed goes away.
void throw_away(Work& work, const CourseBowl& bowl, const Weighed& weighed, const std::string& name,
                double minute) {
  double mixed = 0;
  for (const auto& [id, grams] : weighed) mixed += grams;
  double used = 0;
  for (const plan::BowlZone& zone : bowl.zones) used += zone.grams;
  used *= work.chair.thickness / bowl.mixes;
  const double left = std::floor(mixed - used);
  if (left >= 1) work.note(minute, book::LeftoverFact{name, {}, left});
}

process::Mix mix_of(const Work& work, const Weighed& weighed) {
  process::Bowl bowl;
  for (const auto& [id, grams] : weighed) {
    const process::Product* product = plan::product_of(work.chair.head, id);
    HW_CHECK(product != nullptr);
    process::Part part;
    part.kind = product->kind;
    part.grams = Grams(grams);
    part.peroxide = product->peroxide;
    bowl.parts.push_back(part);
  }
  const auto mix = process::mix_bowl(bowl);
  HW_CHECK(mix.has_value());
  return *mix;
}

/// Looks at a zone while lightener is on it.
void check(Work& work, const plan::ZoneCase& zone, const process::Application& bowl,
           double middle_min) {
  if (bowl.minutes < kShortestChecked) return;
  for (const double part : kChecks) {
    const double minutes = std::round(part * bowl.minutes + work.chance.normal());
    colour::HairLab lab = work.truth.lab_during(zone, bowl, minutes, work.chair.rate_today);
    lab.l += hair::moisture_shift(hair::Moisture::wiped).lstar;
    book::ReadingFact reading;
    reading.zone = zone.name;
    reading.when = "check";
    reading.minute = minutes;
    reading.level = by_eye(work.chair, lab, work.chance);
    reading.seen = "wiped";
    reading.reader = work.chair.who.name;
    work.note(middle_min + minutes, reading);
  }
}

/// One mixing of a lightener on all its zones.
void lift_once(Work& work, const CourseBowl& bowl, int mix) {
  const std::string name = std::to_string(++work.bowls);
  const auto which = static_cast<std::size_t>(mix);
  std::vector<std::size_t> takers;  // of bowl.zones: not every zone takes every mix
  std::vector<double> starts(bowl.zones.size(), 0);
  double first = 1e9;
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) {
    const plan::BowlZone& zone = bowl.zones[i];
    if (which >= bowl.applications[i].size() || which > zone.again_at_min.size()) continue;
    starts[i] = mix == 0 ? zone.times.apply_at : zone.again_at_min[which - 1];
    first = std::min(first, starts[i]);
    takers.push_back(i);
  }
  if (takers.empty()) return;
  const Weighed weighed = pour(work, bowl, mix, name, first);
  const process::Mix ready = mix_of(work, weighed);
  double end = 0;
  for (const std::size_t i : takers) {
    const plan::BowlZone& on = bowl.zones[i];
    const plan::ZoneCase& zone = work.chair.head.zones[on.zone];
    const double takes = on.times.applied_by - on.times.apply_at;
    const double from = starts[i];
    const double middle = from + takes / 2;
    process::Application real = bowl.applications[i][which];
    real.peroxide_percent = ready.peroxide.value();
    real.powder_percent = ready.powder.value();
    real.minutes = std::max(1.0, real.minutes + kStopSdMin * work.chance.normal());
    const bool burns = work.chair.burns && !work.went.hurt && zone.from_cm <= 0;
    if (burns) real.minutes *= 0.8;
    work.note(from, book::ApplyFact{name, zone.name, "on"});
    work.note(from + takes, book::ApplyFact{name, zone.name, "done"});
    if (mix == 0) check(work, zone, real, middle);
    const double stop = middle + real.minutes;
    if (burns) {
      work.went.hurt = true;
      work.note(stop - 1, book::PainFact{"crown, " + zone.name, "rinsed at once with cool water"});
    }
    work.note(stop, book::RinseFact{zone.name, burns ? "burning" : ""});
    work.truth.lift(zone, real, work.chair.rate_today);
    end = std::max(end, stop);
  }
  throw_away(work, bowl, weighed, name, end + 2);
  work.went.lightened = true;
}

/// A colour or a filler on all its zones.
void colour_once(Work& work, const CourseBowl& bowl) {
  const std::string name = std::to_string(++work.bowls);
  double first = 1e9;
  for (const plan::BowlZone& zone : bowl.zones) first = std::min(first, zone.times.apply_at);
  const Weighed weighed = pour(work, bowl, 0, name, first);
  double colour_g = 0, developer_g = 0;
  for (const auto& [id, grams] : weighed) {
    const process::Product* product = plan::product_of(work.chair.head, id);
    (product->kind == PartKind::developer ? developer_g : colour_g) += grams;
  }
  process::DepositBowl real = *bowl.deposit;
  if (real.developer_parts > 0) real.developer_parts = developer_g / colour_g;
  std::vector<process::Poured> pours;
  for (const process::Poured& poured : bowl.pours) {
    const auto grams = weighed.find(poured.shade.id);
    if (grams == weighed.end()) continue;
    pours.push_back({process::settled(poured.shade, Draws(work.chair.salon_seed), 0),
                     grams->second / colour_g});
    if (real.developer_parts > 0) work.went.oxidative.push_back(poured.shade.id);
  }
  double end = 0;
  for (const plan::BowlZone& on : bowl.zones) {
    const plan::ZoneCase& zone = work.chair.head.zones[on.zone];
    const double middle = (on.times.apply_at + on.times.applied_by) / 2;
    process::DepositBowl here = real;
    here.minutes = std::max(1.0, real.minutes + kStopSdMin * work.chance.normal());
    work.note(on.times.apply_at, book::ApplyFact{name, zone.name, "on"});
    work.note(on.times.applied_by, book::ApplyFact{name, zone.name, "done"});
    const double stop = std::max(middle + here.minutes, on.times.applied_by + 1);
    work.note(stop, book::RinseFact{zone.name, {}});
    work.truth.colour(zone, here, pours);
    end = std::max(end, stop);
  }
  throw_away(work, bowl, weighed, name, end + 2);
  work.went.coloured = true;
}

/// A remover or chelator: one mix, on and off.
void clear_once(Work& work, const CourseBowl& bowl) {
  const std::string name = std::to_string(++work.bowls);
  const double first = bowl.zones.front().times.apply_at;
  (void)pour(work, bowl, 0, name, first);
  for (const plan::BowlZone& on : bowl.zones) {
    const plan::ZoneCase& zone = work.chair.head.zones[on.zone];
    work.note(on.times.apply_at, book::ApplyFact{name, zone.name, "on"});
    const double minutes = std::max(1.0, on.stop_min.mid + kStopSdMin * work.chance.normal());
    work.note(on.times.apply_at + minutes, book::RinseFact{zone.name, {}});
    if (bowl.purpose == Purpose::remove) work.truth.remove(zone, minutes);
  }
}

/// What is done between the bowls.
void treat(Work& work, double minute) {
  book::TreatmentFact treatment;
  treatment.product = "mask-moist";
  treatment.what_done = "two shampoos, mask, rinsed, towel-dried, read dry";
  treatment.minutes = 5 + static_cast<double>(work.chance.below(6));
  work.note(minute, treatment);
}

}  // namespace

double said(double level) {
  return std::clamp(std::round(level * 2) / 2, 1.0, 10.0);
}

double by_eye(const Chair& chair, const colour::HairLab& lab, Chance& chance) {
  return said(chair.head.ladder.level_of(lab.l) + chair.bias_today + kEyeSd * chance.normal());
}

Went carry_out(const Chair& chair, Truth& truth, Pen& pen, Chance& chance) {
  Work work{chair, truth, pen, chance, 0, 0, {}};
  work.went.rinsed = chair.first_stroke;
  bool treated = false;
  for (const CourseBowl& bowl : chair.course.bowls) {
    if (bowl.visit > 1 || bowl.zones.empty() || bowl.poured.bowls.empty()) continue;
    work.late_min += kLateMin * std::abs(chance.normal());
    if (bowl.purpose == Purpose::lift) {
      for (int mix = 0; mix < bowl.mixes; ++mix) lift_once(work, bowl, mix);
    } else if (bowl.deposit) {
      if (work.went.lightened && !treated) {
        treat(work, bowl.zones.front().times.apply_at - 20);
        treated = true;
      }
      colour_once(work, bowl);
    } else if (bowl.purpose == Purpose::remove || bowl.purpose == Purpose::chelate) {
      clear_once(work, bowl);
    }
  }
  return work.went;
}

}  // namespace hw::demo
