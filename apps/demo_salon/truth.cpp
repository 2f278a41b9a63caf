#include "truth.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/hair/head.h"
#include "huewright/plan/belief.h"
#include "huewright/plan/learn.h"
#include "huewright/process/remover.h"
#include "huewright/process/warmth.h"
#include "pen.h"

namespace hw::demo {
namespace {

constexpr double kUmPerCm = 1e4;
constexpr double kDaysPerWeek = 7;

colour::HairLab lab_of_hair(const process::LiftMembers& hair, process::Whites whites) {
  std::array<colour::HairLab, 1> lab;
  process::lift_colours(hair, process::starting_moment(hair), lab, whites);
  return lab[0];
}

/// As the planner takes it: lightened hair fades as bleached, mostly white hair as white.
process::HairState state_of(const process::LiftMembers& hair) {
  constexpr double kLightenedWear = 0.1, kMostlyWhite = 0.5;
  if (hair.wear[0] > kLightenedWear) return process::HairState::bleached;
  return hair.white_share > kMostlyWhite ? process::HairState::white : process::HairState::virgin;
}

bool untouched(const plan::ZoneCase& zone) {
  return zone.past.lightened == 0 && zone.past.permanent_colours == 0 &&
         zone.past.demi_colours == 0 && !zone.past.old_colour;
}

/// Takes out of the last colour what washes and light of these days take.
void fade(Segment& segment, double washes, double light_h, const process::WashHabit& wash) {
  if (segment.fade.empty()) return;
  segment.washes += washes;
  segment.light_h += light_h;
  const double left =
      process::dye_left(segment.fade.front(), segment.washes, wash, segment.light_h);
  const std::size_t older = segment.hair.dyes.size() - segment.fresh.size();
  for (std::size_t d = 0; d < segment.fresh.size(); ++d) {
    segment.hair.dyes[older + d].amount[0] = segment.fresh[d] * left;
  }
}

/// What is in the hair after a chemical step is old colour: the next one hides it.
void settle(Segment& segment) {
  segment.fade.clear();
  segment.fresh.clear();
  segment.natural = false;
}

}  // namespace

Result<Truth> Truth::draw(const plan::Case& head, const HiddenClient& client,
                          const Colourist& reader, std::uint64_t seed) {
  const auto day = [](plan::FactorKind kind) { return plan::factor_prior(kind).sd_visit; };
  plan::Case hidden = head;
  hidden.members = 1;
  hidden.priors.ln_rate_mean = client.ln_rate;
  hidden.priors.ln_rate_sd = 1e-6;  // each day adds its own
  hidden.priors.reader_bias_mean = reader.bias;
  hidden.priors.reader_bias_sd = day(plan::FactorKind::reader_bias);
  InlineExecutor here;
  Result<std::vector<plan::ZoneBelief>> zones = tl::unexpected(Error{});
  // A single member may be one that cannot explain the readings: the next one, then.
  constexpr std::uint64_t kTries = 20;
  for (std::uint64_t i = 0; !zones && i < kTries; ++i) {
    hidden.seed = seed + i;
    zones = plan::believe(hidden, here);
  }
  if (!zones) return tl::unexpected(zones.error());
  Truth truth(seed, client);
  truth.shrinkage_ = head.shrinkage;
  truth.room_c_ = head.room_c;
  for (std::size_t z = 0; z < zones->size(); ++z) {
    const plan::ZoneCase& zone = head.zones[z];
    Segment made;
    made.section = zone.section;
    made.from_cm = zone.from_cm;
    made.to_cm = zone.to_cm;
    made.hair = (*zones)[z].members;
    made.natural = untouched(zone);
    if (made.natural && zone.from_cm <= 0) truth.grows_.push_back(made);
    truth.segments_.push_back(std::move(made));
  }
  return truth;
}

void Truth::pass(double days, const plan::Habits& habits) {
  const double washes = days / kDaysPerWeek * habits.washes_per_week * client_.wash_factor;
  const double light_h = days / kDaysPerWeek * habits.light_h_per_week;
  const double grown = days * habits.growth_um_per_day * client_.growth_factor / kUmPerCm;
  for (Segment& segment : segments_) {
    fade(segment, washes, light_h, habits.wash);
    segment.from_cm += grown;
    segment.to_cm += grown;
  }
  std::vector<std::string> sections;
  for (const Segment& segment : segments_) {
    if (std::ranges::find(sections, segment.section) == sections.end()) {
      sections.push_back(segment.section);
    }
  }
  for (const std::string& section : sections) {
    const auto first = std::ranges::min_element(segments_, {}, [&](const Segment& one) {
      return one.section == section ? one.from_cm : 1e9;
    });
    const auto root = std::ranges::find(grows_, section, &Segment::section);
    if (first->natural || root == grows_.end()) {
      first->from_cm = 0;
      continue;
    }
    Segment fresh = *root;
    fresh.from_cm = 0;
    fresh.to_cm = first->from_cm;
    segments_.push_back(std::move(fresh));
  }
}

void Truth::trim(double cm) {
  std::vector<std::pair<std::string, double>> ends;
  for (const Segment& segment : segments_) {
    auto at = std::ranges::find(ends, segment.section, &std::pair<std::string, double>::first);
    if (at == ends.end()) at = ends.insert(ends.end(), {segment.section, 0});
    at->second = std::max(at->second, segment.to_cm - cm);
  }
  for (const auto& [section, end] : ends) {
    std::erase_if(segments_, [&](const Segment& one) {
      return one.section == section && one.from_cm > 0 && one.from_cm >= end;
    });
    for (Segment& one : segments_) {
      if (one.section == section) one.to_cm = std::min(one.to_cm, std::max(end, 0.1));
    }
  }
}

std::vector<std::size_t> Truth::within(const plan::ZoneCase& zone) const {
  std::vector<std::size_t> found;
  std::size_t nearest = 0;
  double least = 1e9;
  for (std::size_t i = 0; i < segments_.size(); ++i) {
    if (segments_[i].section != zone.section) continue;
    const double middle = (segments_[i].from_cm + segments_[i].to_cm) / 2;
    if (middle >= zone.from_cm && middle < zone.to_cm) found.push_back(i);
    const double off = std::abs(middle - (zone.from_cm + zone.to_cm) / 2);
    if (off < least) least = off, nearest = i;
  }
  if (found.empty()) found.push_back(nearest);  // a zone that the salon only imagines
  return found;
}

namespace {

/// Mean over segments by their length.
template <class LabOf>
colour::HairLab mean_lab(const std::vector<Segment>& segments,
                         const std::vector<std::size_t>& which, const LabOf& lab_of) {
  colour::HairLab sum{};
  double whole = 0;
  for (const std::size_t i : which) {
    const double cm = std::max(0.01, segments[i].to_cm - segments[i].from_cm);
    const colour::HairLab lab = lab_of(segments[i]);
    sum = {sum.l + cm * lab.l, sum.a + cm * lab.a, sum.b + cm * lab.b};
    whole += cm;
  }
  return {sum.l / whole, sum.a / whole, sum.b / whole};
}

/// A bowl as it works on a segment: warmer near the scalp.
process::LiftMembers warmed(const Segment& segment, double shrinkage, double room_c,
                            double day_rate) {
  process::LiftMembers hair = segment.hair;
  const double middle = (segment.from_cm + segment.to_cm) / 2;
  hair.warmth_c[0] = process::scalp_warmth_c(hair::resting_cm(middle, shrinkage), room_c);
  hair.rate[0] *= day_rate;
  return hair;
}

}  // namespace

colour::HairLab Truth::lab_of(const plan::ZoneCase& zone, process::Whites whites) const {
  return mean_lab(segments_, within(zone),
                  [&](const Segment& one) { return lab_of_hair(one.hair, whites); });
}

colour::HairLab Truth::lab_during(const plan::ZoneCase& zone, const process::Application& bowl,
                                  double minutes, double day_rate) const {
  process::Application so_far = bowl;
  so_far.minutes = std::max(0.1, minutes);
  InlineExecutor here;
  return mean_lab(segments_, within(zone), [&](const Segment& one) {
    const auto hair = warmed(one, shrinkage_, room_c_, day_rate);
    const auto moments = process::simulate_lift(hair, {&so_far, 1}, so_far.minutes, here);
    std::array<colour::HairLab, 1> lab;
    process::lift_colours(hair, moments.back(), lab, process::Whites::left_out);
    return lab[0];
  });
}

void Truth::lift(const plan::ZoneCase& zone, const process::Application& bowl, double day_rate) {
  InlineExecutor here;
  for (const std::size_t i : within(zone)) {
    Segment& one = segments_[i];
    const auto hair = warmed(one, shrinkage_, room_c_, day_rate);
    const auto moments = process::simulate_lift(hair, {&bowl, 1}, bowl.minutes, here);
    const double rate = one.hair.rate[0];
    one.hair = process::canvas_after(hair, moments.back());
    one.hair.rate[0] = rate;
    settle(one);
  }
}

void Truth::colour(const plan::ZoneCase& zone, const process::DepositBowl& bowl,
                   const std::vector<process::Poured>& pours) {
  if (pours.empty()) return;
  InlineExecutor here;
  const auto main = std::ranges::max_element(pours, {}, &process::Poured::share);
  for (const std::size_t i : within(zone)) {
    Segment& one = segments_[i];
    const std::size_t before = one.hair.dyes.size();
    one.hair =
        process::deposit(warmed(one, shrinkage_, room_c_, 1), bowl, pours, Draws(seed_), here);
    settle(one);
    one.fade = process::draw_fade(
        process::fade_constants(main->shade.dye_class, main->shade.family, state_of(one.hair)),
        Draws(seed_), 1);
    one.washes = one.light_h = 0;
    for (std::size_t d = std::min(before, one.hair.dyes.size()); d < one.hair.dyes.size(); ++d) {
      one.fresh.push_back(one.hair.dyes[d].amount[0]);
    }
  }
}

void Truth::remove(const plan::ZoneCase& zone, double minutes) {
  const process::OldDye kind =
      zone.past.old_colour ? zone.past.old_colour->kind : process::OldDye::unknown;
  for (const std::size_t i : within(zone)) {
    segments_[i].hair = process::after_remover(segments_[i].hair, kind, minutes, Draws(seed_));
    settle(segments_[i]);
  }
}

double Truth::wear_of(const plan::ZoneCase& zone) const {
  double most = 0;
  for (const std::size_t i : within(zone)) most = std::max(most, segments_[i].hair.wear[0]);
  return most;
}

double Truth::length_cm() const {
  double most = 0;
  for (const Segment& one : segments_) most = std::max(most, one.to_cm);
  return most;
}

}  // namespace hw::demo
