#include "huewright/plan/pours.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "figures.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

using process::PartKind;

constexpr double kMmPerCm = 10;
constexpr double kMixDensity = 1;        // g/cm3 of creams: guess
constexpr double kNearlyNothing = 1e-9;  // noise of arithmetic [g or steps]
constexpr double kMostGrams = 1000;   // of hair, and cm2 of scalp, that a head is believed to have
constexpr double kMostOrder = 10000;  // g; more is a slip of the pen
constexpr double kGrowsTo = 2;        // times what is needed

bool in(double value, double low, double high) {
  return value >= low && value <= high;
}

bool ordered(const Band& band, double low, double high) {
  return in(band.low, low, high) && band.low <= band.mid && band.mid <= band.high &&
         band.high <= high;
}

tl::unexpected<Error> outside(const std::string& where, double value) {
  return fail(ErrorCode::out_of_range, fmt::format("{} is outside its range", value), where,
              "check the number and its unit");
}

Result<void> checked(std::span<const HairToCover> zones, const CoverFacts& facts) {
  if (zones.empty()) return fail(ErrorCode::missing, "no hair to cover", "cover", "name a zone");
  for (std::size_t i = 0; i < zones.size(); ++i) {
    const std::string at = fmt::format("cover[{}]", i);
    if (!in(zones[i].hair_g, 0, kMostGrams)) return outside(at + ".hair_g", zones[i].hair_g);
    if (!in(zones[i].scalp_cm2, 0, kMostGrams))
      return outside(at + ".scalp_cm2", zones[i].scalp_cm2);
  }
  struct Range {
    const char* key;
    const Band& band;
    double low, high;
  };
  const Range ranges[] = {{"pick_up", facts.pick_up, kNearlyNothing, 10},
                          {"hair_factor", facts.hair_factor, 0.1, 5},
                          {"film_mm", facts.film_mm, 0, 5},
                          {"waste", facts.waste, 0, 0.9}};
  for (const Range& one : ranges) {
    if (!ordered(one.band, one.low, one.high)) {
      return outside(fmt::format("facts.{}", one.key), one.band.mid);
    }
  }
  if (!in(facts.salon_factor, 0.2, 5)) return outside("facts.salon_factor", facts.salon_factor);
  return {};
}

double squares(std::initializer_list<double> parts) {
  double sum = 0;
  for (const double part : parts) sum += part * part;
  return std::sqrt(sum);
}

/// Whole steps for some shares of a sum: floors, then the largest remainders, the first of equals.
std::vector<double> shared_steps(const std::vector<double>& shares, double steps) {
  const double all = std::accumulate(shares.begin(), shares.end(), 0.0);
  std::vector<double> whole;
  std::vector<std::size_t> order(shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  double left = steps;
  for (const double share : shares) {
    whole.push_back(std::floor(steps * share / all + kNearlyNothing));
    left -= whole.back();
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto rest = [&](std::size_t i) { return steps * shares[i] / all - whole[i]; };
    return rest(a) > rest(b) + kNearlyNothing;
  });
  const auto missing = static_cast<std::size_t>(std::max(0L, std::lround(left)));
  for (std::size_t i = 0; i < missing; ++i) whole[order[i]] += 1;
  return whole;
}

/// The parts that the others are measured against: colour and lightener, else the largest one.
std::vector<bool> base_of(std::span<const BowlPart> parts) {
  std::vector<bool> base;
  for (const BowlPart& part : parts) {
    base.push_back(part.kind == PartKind::colour || part.kind == PartKind::lightener);
  }
  if (std::find(base.begin(), base.end(), true) == base.end()) {
    const auto largest =
        std::max_element(parts.begin(), parts.end(),
                         [](const BowlPart& a, const BowlPart& b) { return a.parts < b.parts; });
    base[static_cast<std::size_t>(largest - parts.begin())] = true;
  }
  return base;
}

/// Steps of every part when the base takes `base_steps`.
std::vector<double> steps_for(std::span<const BowlPart> parts, const std::vector<bool>& base,
                              double base_steps) {
  std::vector<double> shares;
  double base_parts = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!base[i]) continue;
    shares.push_back(parts[i].parts);
    base_parts += parts[i].parts;
  }
  const std::vector<double> of_base = shared_steps(shares, base_steps);
  std::vector<double> steps;
  std::size_t next = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const double exact = base_steps * parts[i].parts / base_parts;
    const bool developer = parts[i].kind == PartKind::developer;
    steps.push_back(base[i]     ? of_base[next++]
                    : developer ? std::floor(exact + kNearlyNothing)
                                : std::round(exact));
  }
  return steps;
}

/// One bowl of at least `grams`; empty when the scale cannot weigh it within twice that.
std::vector<double> weigh(std::span<const BowlPart> parts, double grams, const PourRules& rules) {
  const std::vector<bool> base = base_of(parts);
  double all = 0, base_parts = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    all += parts[i].parts;
    base_parts += base[i] ? parts[i].parts : 0;
  }
  double base_steps =
      std::max(1.0, std::ceil(grams * base_parts / all / rules.step_g - kNearlyNothing));
  for (;; base_steps += 1) {
    std::vector<double> poured = steps_for(parts, base, base_steps);
    double sum = 0;
    double least = kMostOrder;
    for (double& one : poured) {
      one *= rules.step_g;
      sum += one;
      least = std::min(least, one);
    }
    if (sum > kGrowsTo * grams + rules.step_g * static_cast<double>(parts.size())) return {};
    const bool enough = sum >= grams - kNearlyNothing;
    if (enough && least >= std::max(rules.smallest_g, rules.step_g) - kNearlyNothing) return poured;
  }
}

Result<void> checked(std::span<const BowlPart> parts, double order_g, const PourRules& rules) {
  if (parts.empty()) return fail(ErrorCode::missing, "nothing to pour", "parts", "name a part");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!in(parts[i].parts, kNearlyNothing, kMostOrder)) {
      return outside(fmt::format("parts[{}].parts", i), parts[i].parts);
    }
  }
  if (!in(order_g, kNearlyNothing, kMostOrder)) return outside("order_g", order_g);
  if (!in(rules.step_g, 0.01, 10)) return outside("rules.step_g", rules.step_g);
  if (!in(rules.smallest_g, 0, 100)) return outside("rules.smallest_g", rules.smallest_g);
  if (!in(rules.grams_per_min, 0.01, 1000)) {
    return outside("rules.grams_per_min", rules.grams_per_min);
  }
  if (rules.oldest_min && !in(*rules.oldest_min, 0.1, 1440)) {
    return outside("rules.oldest_min", *rules.oldest_min);
  }
  return {};
}

}  // namespace

Band work_rate(std::string_view id) {
  static const Table table = embedded_table(tables::work_rates, "plan/work_rates.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (*table.text(row, "id") != id) continue;
    return {*table.number(row, "low"), *table.number(row, "mid"), *table.number(row, "high")};
  }
  HW_CHECK(false);
  return {};
}

CoverFacts cover_facts(bool lightener) {
  return {work_rate(lightener ? "pick_up_lightener" : "pick_up_colour"), work_rate("hair_mass"),
          work_rate("scalp_film"), work_rate("waste"), 1};
}

Result<MixOrder> mix_order(std::span<const HairToCover> zones, const CoverFacts& facts) {
  if (const auto sound = checked(zones, facts); !sound) return tl::unexpected(sound.error());
  MixOrder order;
  double hair = 0, scalp = 0;
  const auto film = [](double mm, double cm2) { return mm / kMmPerCm * cm2 * kMixDensity; };
  for (const HairToCover& zone : zones) {
    order.zone_g.push_back(facts.salon_factor *
                           (zone.hair_g * facts.hair_factor.mid * facts.pick_up.mid +
                            film(facts.film_mm.mid, zone.scalp_cm2)));
    hair += zone.hair_g;
    scalp += zone.scalp_cm2;
  }
  const double on_hair = hair * facts.hair_factor.mid * facts.pick_up.mid;
  const double on_scalp = film(facts.film_mm.mid, scalp);
  const double mixed = facts.salon_factor * (on_hair + on_scalp) / (1 - facts.waste.mid);
  const auto edge = [&](double Band::*side, double waste) {
    const double pick_up = on_hair * (facts.pick_up.*side / facts.pick_up.mid - 1);
    const double mass = on_hair * (facts.hair_factor.*side / facts.hair_factor.mid - 1);
    const double of_film = film(facts.film_mm.*side, scalp) - on_scalp;
    const double wasted = (on_hair + on_scalp) * ((1 - facts.waste.mid) / (1 - waste) - 1);
    return facts.salon_factor * squares({pick_up, mass, of_film, wasted}) / (1 - facts.waste.mid);
  };
  order.grams = {mixed - edge(&Band::low, facts.waste.low), mixed,
                 mixed + edge(&Band::high, facts.waste.high)};
  order.order_g = order.grams.high;
  return order;
}

double PouredBowls::grams_of(const std::string& id) const {
  double sum = 0;
  for (const PouredBowl& bowl : bowls) {
    for (const Pour& pour : bowl.pours) sum += pour.id == id ? pour.grams : 0;
  }
  return sum;
}

Result<PouredBowls> pour_bowls(std::span<const BowlPart> parts, double order_g,
                               const PourRules& rules) {
  if (const auto sound = checked(parts, order_g, rules); !sound) {
    return tl::unexpected(sound.error());
  }
  constexpr int kMostBowls = 100;  // more is no plan
  for (int count = 1; count <= kMostBowls; ++count) {
    const std::vector<double> grams = weigh(parts, order_g / count, rules);
    if (grams.empty()) {
      return fail(ErrorCode::unreachable,
                  count == 1 ? "a share of the bowl is too small for the scale"
                             : "bowls small enough for the label's age are too small for the scale",
                  "parts", "leave the smallest part out, mix more, or put on faster");
    }
    PouredBowl bowl;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      bowl.pours.push_back({parts[i].id, grams[i]});
      bowl.grams += grams[i];
    }
    const double minutes = bowl.grams / rules.grams_per_min;
    if (rules.oldest_min && minutes > *rules.oldest_min + kNearlyNothing) continue;
    PouredBowls made;
    for (int i = 0; i < count; ++i) {
      bowl.mix_at_min = i * minutes;
      bowl.empty_at_min = (i + 1) * minutes;
      made.bowls.push_back(bowl);
      made.grams += bowl.grams;
    }
    return made;
  }
  return fail(ErrorCode::unreachable, "no bowl can be used up while its label allows it",
              "rules.oldest_min", "put on faster or with more hands");
}

Leftover leftover(double mixed_g, double used_g, double price_per_g) {
  HW_CHECK(mixed_g >= 0 && used_g >= 0 && price_per_g >= 0);
  const double grams = std::max(0.0, mixed_g - used_g);
  return {grams, mixed_g > 0 ? grams / mixed_g : 0, grams * price_per_g};
}

}  // namespace hw::plan
