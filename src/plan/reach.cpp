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

/// The best colour on the canvases for one look.
Reachable nearest(const Case& head, const Look& look, const Kitchen& kitchen,
                  const std::vector<CanvasToday>& canvases) {
  InlineExecutor here;  // looks are what runs side by side
  const Target target = *plan::look(look.word, head.ladder, {&look, 1});
  const std::vector<Target> wish(head.zones.size(), target);
  std::vector<std::size_t> zones(head.zones.size());
  for (std::size_t z = 0; z < zones.size(); ++z) zones[z] = z;
  Reachable found{look.word, 1e6, 1e6, false};
  for (const CanvasToday& canvas : canvases) {
    constexpr double kBelow = 0.5;  // level: a canvas darker than that cannot be coloured lighter
    constexpr double kAbove = 3;    // level: lighter canvases were lifted for nothing
    if (canvas.lifted &&
        (canvas.level < look.level - kBelow || canvas.level > look.level + kAbove)) {
      continue;
    }
    for (const ColourOption& option : kitchen.options) {
      const auto formula =
          solve(head, canvas.hair, zones, wish, option, canvas.lifted, false, here);
      if (!formula || formula->expected_de00 >= found.expected_de00) continue;
      const process::DepositBowl bowl = bowl_of(head, option, canvas.lifted);
      double colour_g = formula->clear_g;
      for (const FormulaPour& pour : formula->pours) colour_g += pour.grams;
      const auto pours = poured(option, *formula, colour_g);
      double off = 0;
      for (const auto& hair : canvas.hair) {
        const auto labs = colours_of(process::deposit(hair, bowl, pours, Draws(head.seed), here),
                                     process::Whites::mixed_in);
        off = std::max(off, sds_off(mean_of(labs, near_quantile(labs, 0.5)), target));
      }
      found.expected_de00 = formula->expected_de00;
      found.sds_off = off;
    }
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
