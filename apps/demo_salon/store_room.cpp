#include "store_room.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/book/reorder.h"
#include "huewright/book/visit_facts.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kRoom = 1'600'000'000;  // stream
constexpr const char* kBy = "the desk";
constexpr double kLeadDays = 4, kOrderCost = 6;
constexpr int kTurnsBetweenCounts = 7, kTurnsBetweenDrops = 5;  // a turn is a fortnight

double size_of(const process::Product& product) {
  using process::PartKind;
  if (product.kind == PartKind::colour) return product.tone == "clear" ? 250 : 60;
  return product.kind == PartKind::lightener ? 500 : 1000;
}

}  // namespace

StoreRoom::StoreRoom(std::uint64_t seed) : pen_(seed, kRoom), chance_(seed, kRoom + 1) {}

std::string StoreRoom::lot(const std::string& id) {
  return fmt::format("{}{:05}", static_cast<char>('A' + id.size() % 26), chance_.below(100000));
}

void StoreRoom::furnish(std::span<const process::Product> shelf, const process::Moment& at) {
  for (const process::Product& product : shelf) {
    book::ProductFact made;
    made.product = product;
    made.product.stock.reset();
    made.size_g = size_of(product);
    made.price = std::round(100 * made.size_g * product.price_per_g) / 100;
    made.lead_days = kLeadDays;
    made.order_cost = kOrderCost;
    products_[product.id] = made;
    pen_.note(product.id, at, kBy, made);
    constexpr double kTap = 100000;  // g: nobody counts it again
    const double grams = product.kind == process::PartKind::water ? kTap : 3 * made.size_g;
    pen_.note(product.id, later(at, 5), kBy, book::CountFact{grams});
  }
}

void StoreRoom::buy(const std::string& id, int packs, const process::Moment& at) {
  constexpr double kMinutesPerDay = 1440;
  const process::Moment comes = later(at, kLeadDays * kMinutesPerDay);
  on_the_way_[id] = comes;
  pen_.note(id, comes, kBy, book::MovementFact{packs * products_[id].size_g, "bought", lot(id)});
}

void StoreRoom::count(std::span<const book::OnShelf> shelf, const process::Moment& at) {
  for (const book::OnShelf& on : shelf) {
    if (on.product.product.kind == process::PartKind::water) continue;
    constexpr double kLost = 0.01;  // drips, and a pour that nobody wrote down
    const double found = std::max(0.0, on.grams * (1 - kLost * std::abs(chance_.normal())));
    pen_.note(on.product.product.id, at, kBy, book::CountFact{std::round(found)});
  }
}

Result<void> StoreRoom::look_round(book::Store& store, std::span<const book::OnShelf> shelf,
                                   Date monday) {
  constexpr int kMorning = 8 * 60 + 30;
  const process::Moment at = town_time(monday, kMorning);
  ++turns_;
  const bool counting = turns_ % kTurnsBetweenCounts == 0 || turns_ == 2;
  if (counting) count(shelf, later(at, -20));
  for (const book::OnShelf& on : shelf) {
    const std::string& id = on.product.product.id;
    if (on.product.product.kind == process::PartKind::water) continue;
    const auto ordered = on_the_way_.find(id);
    if (ordered != on_the_way_.end() && ordered->second > at) continue;
    const auto ledger = store.ledger(id);
    if (!ledger) return tl::unexpected(ledger.error());
    const book::Advice advice = book::advise(on, *ledger, at.utc);
    if (advice.order) {
      buy(id, advice.packs, at);
    } else if (on.grams < on.product.size_g) {
      buy(id, 2, at);  // never below one whole, whatever the weeks say
    }
  }
  const auto out = [&](const char* id, double grams, const char* why) {
    if (products_.contains(id)) {
      pen_.note(id, later(at, 15), kBy, book::MovementFact{-std::round(grams), why, {}});
    }
  };
  out("wash-mild", chance_.uniform(60, 160), "used up");
  out("mask-moist", chance_.uniform(40, 120), "used up");
  if (turns_ % 2 == 1) out("mask-moist", 250, "sold");
  if (turns_ % kTurnsBetweenDrops == 2) {
    const book::OnShelf& dropped = shelf[chance_.below(shelf.size())];
    if (dropped.grams > dropped.product.size_g) {
      out(dropped.product.product.id.c_str(), chance_.uniform(10, dropped.product.size_g),
          "spoilt");
    }
  }
  return {};
}

void StoreRoom::open_tubes(std::span<const book::Fact> facts) {
  for (const book::Fact& fact : facts) {
    if (fact.kind != book::PourFact::kKind) continue;
    const auto pour = book::body_of<book::PourFact>(fact);
    if (pour.product == "water") continue;
    double& left = in_tube_[pour.product];
    if (left < pour.grams) {
      const double size = products_[pour.product].size_g;
      left += size * std::ceil((pour.grams - left) / size);
      const process::Moment at = *process::moment_from_iso(fact.at);
      pen_.note(pour.product, later(at, -0.05), kBy, book::OpenedFact{lot(pour.product)});
    }
    left -= pour.grams;
  }
}

std::vector<book::Fact> StoreRoom::take() {
  std::vector<book::Fact> taken;
  taken.swap(pen_.facts);
  return taken;
}

}  // namespace hw::demo
