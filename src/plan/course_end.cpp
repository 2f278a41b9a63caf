// What stands at the end of a course: colours, chances, borders, fade.
#include <algorithm>
#include <cmath>

#include "course_make.h"
#include "huewright/base/random.h"
#include "huewright/colour/difference.h"
#include "huewright/plan/amounts.h"
#include "huewright/process/fade.h"

namespace hw::plan {
namespace {

using process::LiftMembers;

constexpr double kWashes[] = {10, 20, 30};
constexpr double kClose = 3;  // CIEDE2000: a close match

/// How a strand fades: lightened hair as bleached, mostly white hair as white.
process::HairState state_of(const ZoneCase& zone, const LiftMembers& hair) {
  constexpr double kLightenedWear = 0.1;  // share of cystine: beyond what untouched hair shows
  constexpr double kMostlyWhite = 50;     // %
  if (quantile(hair.wear, 0.5) > kLightenedWear) return process::HairState::bleached;
  return zone.white_percent > kMostlyWhite ? process::HairState::white : process::HairState::virgin;
}

/// The last colour bowl on a zone; null where there is none.
const CourseBowl* last_colour(const Course& course, std::size_t zone) {
  const CourseBowl* last = nullptr;
  for (const CourseBowl& bowl : course.bowls) {
    if (!bowl.deposit || bowl.pours.empty()) continue;
    for (const BowlZone& on : bowl.zones) {
      if (on.zone == zone) last = &bowl;
    }
  }
  return last;
}

/// The hair after so many washes and hours of light. The bowl's most poured shade decides how its
/// layers fade; older layers stay as they are.
LiftMembers faded(const Case& head, const ZoneCase& zone, const LiftMembers& coloured,
                  const CourseBowl& bowl, std::size_t older, double washes, double light_h) {
  const process::Poured& main =
      *std::max_element(bowl.pours.begin(), bowl.pours.end(),
                        [](const auto& a, const auto& b) { return a.share < b.share; });
  const auto constants =
      process::fade_constants(main.shade.dye_class, main.shade.family, state_of(zone, coloured));
  const auto left = process::dye_left_members(constants, washes, head.habits.wash, light_h,
                                              Draws(head.seed), coloured.size());
  LiftMembers hair = coloured;
  for (std::size_t d = older; d < hair.dyes.size(); ++d) {
    for (std::size_t m = 0; m < left.size(); ++m) hair.dyes[d].amount[m] *= left[m];
  }
  return hair;
}

void add_fade(const Case& head, std::size_t z, const Draft& draft, Course& course) {
  const CourseBowl* bowl = last_colour(course, z);
  if (bowl == nullptr) return;
  const LiftMembers& coloured = draft.now[z];
  const std::size_t older = std::min(draft.start[z].dyes.size(), coloured.dyes.size());
  const auto fresh = colours_of(coloured, process::Whites::mixed_in);
  const auto picked = near_quantile(fresh, 0.5);
  const colour::HairLab from = mean_of(fresh, picked);
  for (const double washes : kWashes) {
    const double light_h = head.habits.light_h_per_week * washes / head.habits.washes_per_week;
    const auto hair = faded(head, head.zones[z], coloured, *bowl, older, washes, light_h);
    const auto lab = mean_of(colours_of(hair, process::Whites::mixed_in), picked);
    course.fade.push_back({static_cast<std::size_t>(washes), head.zones[z].name, lab,
                           colour::delta_e_2000(from, lab), colour::delta_e_76(from, lab)});
  }
}

void add_result(const Case& head, std::size_t z, const Draft& draft, CourseZone& zone) {
  const LiftMembers& hair = draft.now[z];
  zone.zone = head.zones[z].name;
  zone.now = colour_band(head, colours_of(draft.start[z], process::Whites::left_out));
  const auto labs = colours_of(hair, process::Whites::mixed_in);
  zone.result = colour_band(head, labs);
  zone.nearest_member = near_quantile(labs, 0.5)[near_quantile(labs, 0.5).size() / 2];
  zone.wear = band_of(hair.wear);
  zone.wear_added = mean(hair.wear) - mean(draft.start[z].wear);
  zone.strength_left_low = strength_left_low(head, head.zones[z], draft.start[z].wear, hair.wear);
  const auto target = target_of(head, head.zones[z]);
  if (!target) return;
  const double share = 1.0 / static_cast<double>(labs.size());
  for (const auto& lab : labs) {
    const double de = colour::delta_e_2000(target->centre, lab);
    zone.expected_de00 += share * de;
    zone.within_3 += de <= kClose ? share : 0;
  }
}

/// Borders between zones of one section that touch: both ends of a member belong to one head.
void add_borders(const Case& head, const Draft& draft, Course& course) {
  for (std::size_t a = 0; a < head.zones.size(); ++a) {
    for (std::size_t b = 0; b < head.zones.size(); ++b) {
      const ZoneCase& from = head.zones[a];
      const ZoneCase& to = head.zones[b];
      if (from.section != to.section || from.to_cm != to.from_cm) continue;
      BorderRisk border{from.name, to.name, 0, 0, 0};
      const auto wish_a = target_of(head, from);
      const auto wish_b = target_of(head, to);
      if (wish_a && wish_b)
        border.wanted_de00 = colour::delta_e_2000(wish_a->centre, wish_b->centre);
      const auto near = colours_of(draft.now[a], process::Whites::mixed_in);
      const auto far = colours_of(draft.now[b], process::Whites::mixed_in);
      const double share = 1.0 / static_cast<double>(near.size());
      for (std::size_t m = 0; m < near.size(); ++m) {
        const double de = colour::delta_e_2000(near[m], far[m]);
        border.expected_de00 += share * de;
        border.risk += de > border.wanted_de00 + kClose ? share : 0;
      }
      course.borders.push_back(border);
    }
  }
}

}  // namespace

void wait_between(const Case& head, double weeks, Draft& draft) {
  for (std::size_t z = 0; z < draft.now.size(); ++z) {
    const CourseBowl* bowl = last_colour(draft.course, z);
    if (bowl == nullptr) continue;
    const std::size_t older = std::min(draft.start[z].dyes.size(), draft.now[z].dyes.size());
    draft.now[z] = faded(head, head.zones[z], draft.now[z], *bowl, older,
                         weeks * head.habits.washes_per_week, weeks * head.habits.light_h_per_week);
  }
}

void conclude(const Case& head, Draft& draft) {
  Course& course = draft.course;
  course.zones.resize(head.zones.size());
  const std::vector<double> mass = zone_mass_g(head);
  double whole = 0;
  course.expected_de00 = 0;
  course.within_3 = head.target ? 1 : 0;
  course.wear_high = 0;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    CourseZone& zone = course.zones[z];
    add_result(head, z, draft, zone);
    course.expected_de00 += zone.expected_de00 * mass[z];
    whole += mass[z];
    if (head.target) course.within_3 = std::min(course.within_3, zone.within_3);
    course.wear_high = std::max(course.wear_high, zone.wear.high);
    add_fade(head, z, draft, course);
  }
  course.expected_de00 /= whole;
  add_borders(head, draft, course);
}

}  // namespace hw::plan
