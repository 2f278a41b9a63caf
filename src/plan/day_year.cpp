// A year of keeping a colour: the regrowth lifted and coloured and the lengths refreshed at each
// next visit, and what is washed with at home. Guesses: docs/adr/0015-day-sheet.md.
#include <algorithm>

#include "day_parts.h"
#include "figures.h"

namespace hw::plan {
namespace {

constexpr double kDaysPerWeek = 7;         // exact
constexpr double kMicrometresPerCm = 1e4;  // exact

/// A next visit: the head with its regrowth, and where each zone of the course lies in it.
struct NextVisit {
  Case head;
  Course course;
};

/// The zone of a section that is nearest the scalp.
std::size_t scalp_zone(const Case& head, const std::string& section) {
  std::size_t best = head.zones.size();
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    if (head.zones[i].section != section) continue;
    if (best == head.zones.size() || head.zones[i].from_cm < head.zones[best].from_cm) best = i;
  }
  return best;
}

/// The head when it comes again: new hair in front of each section's old zones, tips cut to where
/// they were. grown_of: for each zone of the new head, the zone it takes after.
Case grown_head(const Case& head, double grown_cm, std::vector<std::size_t>& like,
                std::vector<bool>& is_new) {
  Case next = head;
  next.zones.clear();
  std::vector<std::string> sections;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    const ZoneCase& zone = head.zones[i];
    if (std::find(sections.begin(), sections.end(), zone.section) == sections.end()) {
      sections.push_back(zone.section);
      const std::size_t first = scalp_zone(head, zone.section);
      ZoneCase regrowth = head.zones[first];
      regrowth.name = "regrowth " + zone.section;
      regrowth.from_cm = 0;
      regrowth.to_cm = grown_cm;
      next.zones.push_back(regrowth);
      like.push_back(first);
      is_new.push_back(true);
    }
    if (zone.to_cm <= grown_cm) continue;
    next.zones.push_back(zone);
    next.zones.back().from_cm = std::max(zone.from_cm, grown_cm);
    next.zones.back().facts.lightener_minutes_today = Minutes(0);
    like.push_back(i);
    is_new.push_back(false);
  }
  for (process::Product& product : next.shelf) product.stock.reset();
  return next;
}

/// The bowl on some zones of the next head.
CourseBowl again(const CourseBowl& bowl, const std::vector<std::size_t>& like,
                 const std::vector<bool>& wanted, bool any_stands_in) {
  CourseBowl next = bowl;
  next.visit = 1;
  next.zones.clear();
  next.applications.clear();
  for (std::size_t z = 0; z < like.size(); ++z) {
    if (!wanted[z]) continue;
    auto from = std::find_if(bowl.zones.begin(), bowl.zones.end(),
                             [&](const BowlZone& one) { return one.zone == like[z]; });
    if (from == bowl.zones.end()) {
      if (!any_stands_in) continue;
      from = bowl.zones.begin();
    }
    BowlZone zone = *from;
    zone.zone = z;
    next.zones.push_back(zone);
  }
  return next;
}

/// The last visit's colour on all its hair and, where there was a lift, the last lift on the
/// regrowth.
NextVisit next_visit(const Case& head, const Course& course) {
  const double grown_cm =
      head.habits.weeks_to_next * kDaysPerWeek * head.habits.growth_um_per_day / kMicrometresPerCm;
  NextVisit next;
  std::vector<std::size_t> like;
  std::vector<bool> is_new;
  next.head = grown_head(head, grown_cm, like, is_new);
  const CourseBowl* lift = nullptr;
  int last_colour = 0;
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.zones.empty()) continue;
    if (bowl.purpose == Purpose::lift) lift = &bowl;
    if (work_of(bowl.purpose) == Work::colour) last_colour = bowl.visit;
  }
  if (lift != nullptr) next.course.bowls.push_back(again(*lift, like, is_new, true));
  std::vector<bool> taken(like.size(), false);
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.visit != last_colour || work_of(bowl.purpose) != Work::colour) continue;
    std::vector<bool> wanted;
    for (const bool already : taken) wanted.push_back(!already);
    CourseBowl colour = again(bowl, like, wanted, false);
    for (const BowlZone& zone : colour.zones) taken[zone.zone] = true;
    if (!colour.zones.empty()) next.course.bowls.push_back(std::move(colour));
  }
  return next;
}

/// Shampoo and conditioner of the shelf, used at home for a year.
double home_products(const Case& head) {
  const double washes = head.habits.washes_per_week * times_a_year(1);
  double cost = 0;
  for (const auto kind : {process::PartKind::shampoo, process::PartKind::conditioner}) {
    const auto at = std::find_if(head.shelf.begin(), head.shelf.end(),
                                 [&](const auto& product) { return product.kind == kind; });
    if (at != head.shelf.end()) cost += washes * work_rate("home_wash").mid * at->price_per_g;
  }
  return cost;
}

}  // namespace

Result<Band> year_of(const Case& head, const Course& course, const std::vector<LaidVisit>& visits) {
  std::vector<Upkeep> items;
  NextVisit next = next_visit(head, course);
  if (!next.course.bowls.empty()) {
    const auto laid = lay_visits(next.head, next.course);
    // Where so little regrowth cannot be weighed or timed, the last visit stands for it.
    const Band price = laid ? laid->front().money.price : visits.back().money.price;
    items.push_back({"next visit", times_a_year(head.habits.weeks_to_next), price});
  }
  return yearly_upkeep(items, home_products(head));
}

}  // namespace hw::plan
