// Grams of a course's bowls: what to order, how it is poured from what is on the shelf.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <optional>

#include "day_parts.h"
#include "figures.h"
#include "huewright/plan/amounts.h"

namespace hw::plan {
namespace {

constexpr double kNoise = 1e-9;  // of arithmetic [g or min]

/// Zones that can be put on from one mixing while it is young enough.
struct PourGroup {
  double share = 0;      ///< of the bowl's grams
  double starts_at = 0;  ///< first application [min of the visit]
  double ends_at = 0;    ///< last strand
};

/// Oldest that a bowl's mix may get by the labels of what is in it; a lightener whose labels say
/// nothing loses its strength all the same (work rate lightener_mix_life).
std::optional<double> oldest_of(const Case& head, const CourseBowl& bowl) {
  std::optional<double> oldest;
  for (const BowlPart& part : bowl.parts) {
    const process::Product* product = product_of(head, part.id);
    if (product == nullptr || !product->mix_life) continue;
    oldest = std::min(oldest.value_or(product->mix_life->value()), product->mix_life->value());
  }
  if (!oldest && is_lightener(bowl)) oldest = work_rate("lightener_mix_life").mid;
  return oldest;
}

/// A mix that waits for its next zone gets old too: zones of one mix in the order of putting on,
/// parted where one mixing would not last. Shares are of the bowl's grams over all its mixes.
std::vector<PourGroup> groups_of(const CourseBowl& bowl, int mix, std::optional<double> oldest) {
  struct Turn {
    double grams, from, to;
  };
  std::vector<Turn> order;
  double all = 0;
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) {
    const BowlZone& zone = bowl.zones[i];
    all += zone.grams;
    const int mixes = mixes_on(bowl, i);
    if (mix >= mixes) continue;
    const ZoneTimes& times = zone.times;
    const double from =
        mix == 0 ? times.apply_at : zone.again_at_min[static_cast<std::size_t>(mix) - 1];
    order.push_back({zone.grams / mixes, from, from + times.applied_by - times.apply_at});
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const Turn& a, const Turn& b) { return a.from < b.from; });
  std::vector<PourGroup> groups;
  for (const Turn& turn : order) {
    if (groups.empty() || (oldest && turn.to > groups.back().starts_at + *oldest)) {
      groups.push_back({0, turn.from, turn.to});
    }
    groups.back().ends_at = turn.to;
    groups.back().share += all > 0 ? turn.grams / all : 1 / static_cast<double>(order.size());
  }
  return groups;
}

/// pour_bowls(), and more of it where the scale is too coarse for so little.
Result<PouredBowls> pour_at_least(const CourseBowl& bowl, double grams, const PourRules& rules) {
  constexpr int kDoublings = 4;  // a few grams of many parts: up to sixteen times
  auto made = pour_bowls(bowl.parts, grams, rules);
  for (int i = 0; i < kDoublings && !made && made.error().code == ErrorCode::unreachable; ++i) {
    grams *= 2;
    made = pour_bowls(bowl.parts, grams, rules);
  }
  return made;
}

/// Every mix of a bowl, grams together at least order_g.
Result<PouredBowls> pour_all(const Case& head, const CourseBowl& bowl, double order_g) {
  PourRules rules;
  rules.step_g = head.salon.scale_step_g;
  if (bowl.purpose == Purpose::strand_test) rules.smallest_g = rules.step_g;
  rules.grams_per_min = pace_of(head.salon);
  rules.oldest_min = oldest_of(head, bowl);
  PouredBowls all;
  for (int mix = 0; mix < bowl.mixes; ++mix) {
    for (const PourGroup& group : groups_of(bowl, mix, rules.oldest_min)) {
      // A bowl lasts as long as its zones take, waits and wiping between them counted.
      const double minutes = group.ends_at - group.starts_at;
      if (minutes > kNoise) rules.grams_per_min = order_g * group.share / minutes;
      auto some = pour_at_least(bowl, order_g * group.share, rules);
      if (!some) return some;
      for (PouredBowl one : some->bowls) {
        one.mix_at_min += group.starts_at;
        one.empty_at_min += group.starts_at;
        all.bowls.push_back(std::move(one));
      }
      all.grams += some->grams;
    }
  }
  return all;
}

/// Least that the shelf holds over what is poured, of any part; above 1 where it is enough.
double share_at_hand(const PouredBowls& poured, const CourseBowl& bowl, const Stock& left) {
  double share = 2;  // enough
  for (const BowlPart& part : bowl.parts) {
    const auto at = left.find(part.id);
    const double grams = poured.grams_of(part.id);
    if (at == left.end() || grams <= at->second + kNoise) continue;
    share = std::min(share, at->second / grams);
  }
  return share;
}

std::string short_note(const CourseBowl& bowl, const MixOrder& order, double made) {
  return fmt::format("{}: the shelf makes {:.0f} g of the {:.0f} g to have at hand; {}.",
                     name_of(bowl.purpose), made, order.order_g,
                     made >= order.grams.mid
                         ? fmt::format("about {:.0f} g are likely to be needed", order.grams.mid)
                         : fmt::format("it may run short, {:.0f} to {:.0f} g are needed",
                                       order.grams.low, order.grams.high));
}

}  // namespace

Error at_bowl(Error error, Purpose purpose) {
  error.where =
      fmt::format("{}{}{}", name_of(purpose), error.where.empty() ? "" : ".", error.where);
  return error;
}

Result<MixOrder> order_for(const Case& head, const std::vector<std::size_t>& zones, bool lightener,
                           bool on_scalp) {
  const std::vector<double> mass = zone_mass_g(head);
  const std::vector<double> scalp = zone_scalp_cm2(head);
  std::vector<HairToCover> cover;
  for (const std::size_t zone : zones) {
    if (zone >= head.zones.size()) {
      return fail(ErrorCode::unknown_name, fmt::format("the head has no zone {}", zone), "zones",
                  "name a zone of the case");
    }
    cover.push_back({head.zones[zone].name, mass[zone], on_scalp ? scalp[zone] : 0});
  }
  CoverFacts facts = cover_facts(lightener);
  // A figure of the salon's own keeps the trade's relative doubt: heads differ as much.
  const double own = pick_up_of(head, lightener) / facts.pick_up.mid;
  facts.pick_up = {facts.pick_up.low * own, facts.pick_up.mid * own, facts.pick_up.high * own};
  facts.salon_factor = head.salon.amount_factor;
  return mix_order(cover, facts);
}

namespace {

/// The order for one more mix: it covers the hair anew, each zone that takes it.
Result<void> add_mix(const Case& head, const CourseBowl& bowl, int mix, MixOrder& order) {
  std::vector<std::size_t> zones;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) {
    if (mix >= mixes_on(bowl, i)) continue;
    zones.push_back(bowl.zones[i].zone);
    places.push_back(i);
  }
  if (zones.empty()) return {};
  const auto one = order_for(head, zones, is_lightener(bowl), bowl.on_scalp);
  if (!one) return tl::unexpected(one.error());
  for (std::size_t k = 0; k < places.size(); ++k) order.zone_g[places[k]] += one->zone_g[k];
  // One head is dense or thin for every mix: edge by edge.
  order.grams = {order.grams.low + one->grams.low, order.grams.mid + one->grams.mid,
                 order.grams.high + one->grams.high};
  order.order_g += one->order_g;
  return {};
}

}  // namespace

Result<MixOrder> weigh_out(const Case& head, CourseBowl& bowl) {
  if (bowl.mixes < 1) {
    return tl::unexpected(
        at_bowl({ErrorCode::out_of_range, "a bowl is mixed at least once", "mixes", "say 1 or 2"},
                bowl.purpose));
  }
  MixOrder order;
  if (bowl.purpose == Purpose::strand_test) {
    const double grams = work_rate("strand_test").mid;
    order.grams = {grams, grams, grams};
    order.order_g = grams;
    order.zone_g.assign(bowl.zones.size(), grams / static_cast<double>(bowl.zones.size()));
  } else {
    order.zone_g.assign(bowl.zones.size(), 0);
    for (int mix = 0; mix < bowl.mixes; ++mix) {
      if (const auto added = add_mix(head, bowl, mix, order); !added) {
        return tl::unexpected(at_bowl(added.error(), bowl.purpose));
      }
    }
  }
  for (std::size_t i = 0; i < bowl.zones.size(); ++i) bowl.zones[i].grams = order.zone_g[i];
  bowl.order_g = order.order_g;
  return order;
}

Stock stock_of(const Case& head) {
  Stock stock;
  for (const process::Product& product : head.shelf) {
    if (product.stock) stock[product.id] = product.stock->value();
  }
  return stock;
}

Result<void> pour(const Case& head, CourseBowl& bowl, const MixOrder& order, Stock& left,
                  std::vector<std::string>& notes) {
  constexpr double kFewer =
      0.98;  // of the order, each time it does not fit: whole steps are coarse
  double grams = order.order_g;
  auto poured = pour_all(head, bowl, grams);
  if (!poured) return tl::unexpected(at_bowl(poured.error(), bowl.purpose));
  double share = share_at_hand(*poured, bowl, left);
  while (share < 1) {
    grams *= std::min(share, kFewer);
    if (grams < order.grams.low) {
      return fail(ErrorCode::unreachable,
                  fmt::format("the shelf does not hold the {:.0f} g that are needed at least",
                              order.grams.low),
                  fmt::format("{}.stock", name_of(bowl.purpose)), "order more, or choose another");
    }
    poured = pour_all(head, bowl, grams);
    if (!poured) return tl::unexpected(at_bowl(poured.error(), bowl.purpose));
    share = share_at_hand(*poured, bowl, left);
  }
  if (grams < order.order_g) notes.push_back(short_note(bowl, order, poured->grams));
  bowl.cost = 0;
  for (const BowlPart& part : bowl.parts) {
    const double used = poured->grams_of(part.id);
    if (const auto at = left.find(part.id); at != left.end()) at->second -= used;
    const process::Product* product = product_of(head, part.id);
    if (product != nullptr) bowl.cost += used * product->price_per_g;
  }
  bowl.poured = *std::move(poured);
  return {};
}

}  // namespace hw::plan
