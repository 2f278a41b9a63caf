// How near every look of a list can be got to today.
#include <algorithm>
#include <cmath>

#include "course_make.h"
#include "course_search.h"
#include "huewright/base/random.h"
#include "huewright/plan/amounts.h"
#include "plan_parts.h"

namespace hw::plan {
namespace {

constexpr double kFits = 2;  // sds of the patch: the word fits; target.h

/// A canvas that a permitted lift leaves today.
struct CanvasToday {
  HeadHair hair;
  double level = 1;  ///< of its darkest zone
  bool lifted = false;
};

/// The hair as it is, and the kindest permitted lift to each level above it.
std::vector<CanvasToday> canvases_today(const Case& head, const HeadHair& rough,
                                        const Kitchen& kitchen, Executor& executor) {
  LiftAims aims;
  for (int level = 2; level <= 10; ++level) {
    aims.wishes.emplace_back(rough.size(), static_cast<double>(level));
  }
  const auto lifts = try_lifts(head, rough, kitchen.recipes, aims, executor);
  std::vector<CanvasToday> canvases;
  const auto add = [&](const LiftTry& lift) {
    CanvasToday canvas{{}, 10, lift.lifts()};
    for (const ZoneLift& zone : lift.zones) {
      canvas.hair.push_back(zone.canvas);
      canvas.level = std::min(canvas.level, zone.outcome.level.mid);
    }
    canvases.push_back(std::move(canvas));
  };
  add(no_lift(head, rough));
  for (const std::size_t i : worth_colouring(lifts, 1)) {
    if (lifts[i].wear_high <= head.limits.wear) add(lifts[i]);
  }
  return canvases;
}

/// How near one zone gets to a look.
struct Near {
  double expected_de00 = 1e6;
  double sds_off = 1e6;
};

Near nearness(std::span<const colour::HairLab> labs, const Target& target) {
  double sum = 0;
  for (const colour::HairLab& lab : labs) sum += expected_de00(lab, target);
  return {sum / static_cast<double>(labs.size()),
          sds_off(mean_of(labs, near_quantile(labs, 0.5)), target)};
}

/// The best for one zone of a canvas: as it stands there, or under a bowl of its own.
Near nearest_of_zone(const Case& head, const CanvasToday& canvas, std::size_t zone,
                     const Target& target, const Kitchen& kitchen) {
  InlineExecutor here;  // looks are what runs side by side
  const std::vector<Target> wish(head.zones.size(), target);
  const process::LiftMembers& hair = canvas.hair[zone];
  Near found = nearness(colours_of(hair, process::Whites::mixed_in), target);
  for (const ColourOption& option : kitchen.options) {
    const auto formula = solve(head, canvas.hair, {zone}, wish, option, canvas.lifted, false, here);
    if (!formula) continue;
    double colour_g = formula->clear_g;
    for (const FormulaPour& pour : formula->pours) colour_g += pour.grams;
    const auto pours = poured(option, *formula, colour_g);
    const auto coloured =
        process::deposit(hair, bowl_of(head, option, canvas.lifted), pours, Draws(head.seed), here);
    const Near near = nearness(colours_of(coloured, process::Whites::mixed_in), target);
    if (near.expected_de00 < found.expected_de00) found = near;
  }
  return found;
}

/// The best on the canvases for one look: each zone may have a bowl of its own, or none where it
/// looks so already. A head is as far off as its farthest zone.
Reachable nearest(const Case& head, const Look& look, const Kitchen& kitchen,
                  const std::vector<CanvasToday>& canvases) {
  const Target target = *plan::look(look.word, head.ladder, {&look, 1});
  Reachable found{look.word, 1e6, 1e6, false};
  for (const CanvasToday& canvas : canvases) {
    constexpr double kBelow = 0.5;  // level: a canvas darker than that cannot be coloured lighter
    constexpr double kAbove = 3;    // level: lighter canvases were lifted for nothing
    if (canvas.lifted &&
        (canvas.level < look.level - kBelow || canvas.level > look.level + kAbove)) {
      continue;
    }
    Near head_near{0, 0};
    for (std::size_t z = 0; z < canvas.hair.size(); ++z) {
      const Near zone = nearest_of_zone(head, canvas, z, target, kitchen);
      head_near.expected_de00 += zone.expected_de00 / static_cast<double>(canvas.hair.size());
      head_near.sds_off = std::max(head_near.sds_off, zone.sds_off);
    }
    if (head_near.sds_off >= found.sds_off) continue;
    found.expected_de00 = head_near.expected_de00;
    found.sds_off = head_near.sds_off;
  }
  found.today = found.sds_off <= kFits;
  return found;
}

}  // namespace

Result<std::vector<Reachable>> reach_of(const Case& head, std::span<const Look> looks,
                                        Executor& executor) {
  Case wished = head;
  if (!wished.target && !looks.empty()) {
    auto any = look(looks.front().word, head.ladder, looks);
    if (!any) return tl::unexpected(any.error());
    wished.target = *std::move(any);
  }
  auto beliefs = believe(wished, executor);
  if (!beliefs) return tl::unexpected(beliefs.error());
  warm_by_scalp(wished, *beliefs);
  const HeadHair rough = thinned(hair_of(*beliefs), kRoughMembers);
  Standing standing;
  const auto kitchen = stock_kitchen(wished, rough, standing);
  if (!kitchen) return tl::unexpected(kitchen.error());
  const auto canvases = canvases_today(wished, rough, *kitchen, executor);
  std::vector<Reachable> reach(looks.size());
  executor.run(looks.size(),
               [&](std::size_t i) { reach[i] = nearest(wished, looks[i], *kitchen, canvases); });
  std::erase_if(reach, [](const Reachable& one) { return one.sds_off >= 1e6; });
  std::stable_sort(reach.begin(), reach.end(),
                   [](const Reachable& a, const Reachable& b) { return a.sds_off < b.sds_off; });
  return reach;
}

}  // namespace hw::plan
