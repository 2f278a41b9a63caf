#include "strand_play.h"

#include <algorithm>

#include "huewright/base/check.h"

namespace hw::plan {
namespace {

using process::HairState;
using process::LiftMembers;

std::vector<colour::HairLab> colours_of(const LiftMembers& hair) {
  std::vector<colour::HairLab> labs(hair.size());
  process::lift_colours(hair, process::starting_moment(hair), labs);
  return labs;
}

/// White strands are their own table of fade; of the others worn ones hold less.
HairState state_of(const LiftMembers& hair) {
  constexpr double kLightenedWear = 0.1;  // share of cystine: beyond what untouched hair shows
  constexpr double kMostlyWhite = 0.5;
  if (hair.wear[0] > kLightenedWear) return HairState::bleached;
  return hair.white_share > kMostlyWhite ? HairState::white : HairState::virgin;
}

/// Reports one event that ends in `played.after`.
class Player {
 public:
  Player(Played& played, double every_min, Executor& executor)
      : played_(played), every_min_(every_min), executor_(executor) {}

  void operator()(const ChartEvent& event) {
    event_ = &event;
    std::visit([&](const auto& what) { one(what); }, event.what);
  }

 private:
  [[nodiscard]] double every() const {
    return event_->stop_min > 0 ? every_min_ : std::max(working_min(*event_), every_min_);
  }

  /// Appends moments whose colours are worked out by `lab_of(i)`.
  template <class Minute, class Colours>
  void report(std::size_t count, Minute minute, Colours colours) {
    const std::size_t first = played_.moments.size();
    played_.moments.resize(first + count);
    executor_.run(count, [&](std::size_t i) {
      played_.moments[first + i] = {event_->from_min + minute(i), colours(i)};
    });
  }

  void one(const ChartLift&) {
    const auto bowls = cut_applications(*event_);
    if (bowls.empty()) return;
    const LiftMembers& hair = played_.after.hair;
    const auto moments = process::simulate_lift(hair, bowls, every(), executor_);
    report(
        moments.size(), [&](std::size_t i) { return moments[i].minute_total; },
        [&](std::size_t i) {
          std::vector<colour::HairLab> labs(hair.size());
          process::lift_colours(hair, moments[i], labs);
          return labs;
        });
    played_.after.hair = process::canvas_after(hair, moments.back());
  }

  void one(const ChartColour& colour) {
    process::DepositBowl bowl = colour.bowl;
    bowl.minutes = working_min(*event_);
    if (!(bowl.minutes > 0)) return;
    DyedHair& after = played_.after;
    const HairState state = state_of(after.hair);
    // Shades are settled, so no draw changes anything.
    auto series = process::deposit_series(after.hair, bowl, colour.pours, {&colour.uptake, 1},
                                          Draws(0), every(), executor_);
    report(
        series.size(), [&](std::size_t i) { return series[i].minute; },
        [&](std::size_t i) { return colours_of(series[i].hair); });
    after.hair = std::move(series.back().hair);
    const std::size_t layers = after.hair.dyes.size();
    // Where a strand held too many, older layers were joined: they keep the first one's history.
    after.layers.resize(std::min(after.layers.size(), layers));
    LayerFade fresh;
    fresh.constants = colour.fade[static_cast<std::size_t>(state)];
    fresh.fades = fresh.constants.washes > 0;
    after.layers.resize(layers, fresh);
  }

  void one(const ChartRemover& remover) {
    HW_CHECK(!remover.left.empty());
    const double minutes = working_min(*event_);
    const auto rounds = static_cast<std::size_t>(minutes);
    LiftMembers& hair = played_.after.hair;
    const auto thinned = [&](std::size_t minute) {
      LiftMembers weaker = hair;
      for (hair::DyeLayer& dye : weaker.dyes) {
        for (double& amount : dye.amount) amount *= remover.left[minute];
      }
      return weaker;
    };
    report(
        rounds + 1, [](std::size_t i) { return static_cast<double>(i); },
        [&](std::size_t i) { return colours_of(thinned(i)); });
    hair = thinned(rounds);
    for (double& wear : hair.wear) wear = std::min(process::kWearCap, wear + remover.wear);
  }

  void one(const ChartWashes& washes) {
    played_.after = washed(played_.after, washes);
    report(
        1, [&](std::size_t) { return event_->stop_min - event_->from_min; },
        [&](std::size_t) { return colours_of(played_.after.hair); });
  }

  Played& played_;
  double every_min_;
  Executor& executor_;
  const ChartEvent* event_ = nullptr;
};

}  // namespace

DyedHair undyed(const LiftMembers& hair) {
  return {hair, std::vector<LayerFade>(hair.dyes.size())};
}

DyedHair washed(const DyedHair& hair, const ChartWashes& washes) {
  DyedHair after = hair;
  constexpr process::WashHabit kStandard{38, 7, false};  // counts 1: process/fade.h
  const double more = washes.washes * process::wash_factor(washes.habit);
  for (std::size_t d = 0; d < after.layers.size(); ++d) {
    LayerFade& layer = after.layers[d];
    if (!layer.fades) continue;
    const double before =
        process::dye_left(layer.constants, layer.washes, kStandard, layer.light_h);
    layer.washes += more;
    layer.light_h += washes.light_h;
    const double now = process::dye_left(layer.constants, layer.washes, kStandard, layer.light_h);
    for (double& amount : after.hair.dyes[d].amount) amount *= now / before;
  }
  return after;
}

std::vector<process::Application> cut_applications(const ChartEvent& event) {
  std::vector<process::Application> cut;
  double left = event.stop_min - event.from_min;
  for (process::Application bowl : std::get<ChartLift>(event.what).applications) {
    bowl.minutes = std::min(bowl.minutes, left);
    if (!(bowl.minutes > 0)) break;
    left -= bowl.minutes;
    cut.push_back(bowl);
  }
  return cut;
}

double working_min(const ChartEvent& event) {
  if (std::holds_alternative<ChartWashes>(event.what)) return 0;
  const double on_hair = std::max(0.0, event.stop_min - event.from_min);
  if (const auto* colour = std::get_if<ChartColour>(&event.what)) {
    return std::min(on_hair, colour->bowl.minutes);
  }
  if (const auto* remover = std::get_if<ChartRemover>(&event.what)) {
    return std::min(on_hair, static_cast<double>(remover->left.size() - 1));
  }
  double minutes = 0;
  for (const process::Application& bowl : cut_applications(event)) minutes += bowl.minutes;
  return minutes;
}

LiftMembers copies_of(const LiftMembers& one, std::span<const double> warmths) {
  HW_CHECK(one.size() == 1);
  const std::size_t n = warmths.size();
  LiftMembers out = one;
  out.constants.assign(n, one.constants[0]);
  using Column = std::vector<double> LiftMembers::*;
  for (const Column column :
       {&LiftMembers::eumelanin_percent, &LiftMembers::pheomelanin_percent,
        &LiftMembers::warm_percent, &LiftMembers::base_share, &LiftMembers::strand_um,
        &LiftMembers::opened, &LiftMembers::wear, &LiftMembers::rate, &LiftMembers::warmth_c,
        &LiftMembers::surface_term}) {
    (out.*column).assign(n, (one.*column)[0]);
  }
  if (!one.dye_opened.empty()) out.dye_opened.assign(n, one.dye_opened[0]);
  for (hair::DyeLayer& dye : out.dyes) {
    const double amount = dye.amount[0];
    dye.amount.assign(n, amount);
  }
  for (std::size_t m = 0; m < n; ++m) out.warmth_c[m] += warmths[m];
  return out;
}

Played play(const LiftMembers& members, std::span<const ChartEvent> events, double every_min,
            Executor& executor) {
  HW_CHECK(every_min > 0);
  Played played;
  played.after = undyed(members);
  const double start = events.empty() ? 0 : events.front().from_min;
  played.moments.push_back({start, colours_of(members)});
  Player one(played, every_min, executor);
  for (const ChartEvent& event : events) one(event);
  return played;
}

}  // namespace hw::plan
