#include "huewright/plan/result_tiles.h"

#include <fmt/format.h>

#include <cmath>

#include "course_make.h"
#include "huewright/base/check.h"
#include "huewright/base/random.h"
#include "huewright/colour/adaptation.h"
#include "huewright/colour/difference.h"
#include "visit_hair.h"

namespace hw::plan {
namespace {

using process::LiftMembers;

/// The bowls of one visit on the hair of all zones.
void do_visit(const Case& head, const Course& course, int visit, Draft& draft, Executor& executor) {
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.visit != visit) continue;
    for (std::size_t k = 0; k < bowl.zones.size(); ++k) {
      LiftMembers& hair = draft.now[bowl.zones[k].zone];
      if (bowl.deposit) {
        hair = process::deposit(hair, *bowl.deposit, bowl.pours, Draws(head.seed), executor);
      } else if (bowl.purpose == Purpose::remove) {
        const ZonePast& past = head.zones[bowl.zones[k].zone].past;
        const auto kind = past.old_colour ? past.old_colour->kind : process::OldDye::unknown;
        for (int mix = 0; mix < bowl.mixes; ++mix) {
          hair = process::after_remover(hair, kind, bowl.zones[k].stop_min.mid / bowl.mixes,
                                        Draws(head.seed));
        }
      } else if (!bowl.applications.empty()) {
        constexpr double kEndAlone = 1e6;  // min: no row before the end is wanted
        const auto moments =
            process::simulate_lift(hair, bowl.applications[k], kEndAlone, executor);
        hair = process::canvas_after(hair, moments.back());
      }
    }
    draft.course.bowls.push_back(bowl);
  }
}

colour::Spectrum mean_reflectance(const hair::TressMembers& members,
                                  std::span<const std::size_t> picked) {
  colour::Spectrum mean{};
  const double share = 1.0 / static_cast<double>(picked.size());
  for (const std::size_t m : picked) {
    const colour::Spectrum one = hair::tress_spectrum(members, m);
    for (std::size_t i = 0; i < colour::kBands; ++i) mean[i] += share * one[i];
  }
  return mean;
}

}  // namespace

const std::array<TileLight, kTileLights>& tile_lights() {
  static const std::array<TileLight, kTileLights> lights = {
      {{"daylight", colour::Illuminant::d65},
       {"warm lamp", colour::Illuminant::led_b1},
       {"cool lamp", colour::Illuminant::fl2}}};
  return lights;
}

ResultTile result_tile(const colour::Spectrum& reflectance) {
  ResultTile tile{reflectance, {}};
  for (std::size_t i = 0; i < kTileLights; ++i) {
    const auto& light = colour::viewing(tile_lights()[i].light, colour::Observer::deg10);
    const auto seen = colour::looks_in_daylight(colour::lab_under(reflectance, light));
    HW_CHECK(seen.has_value());
    tile.seen[i] = *seen;
  }
  return tile;
}

std::vector<ZoneTiles> result_tiles(const Case& head, std::span<const ZoneBelief> beliefs,
                                    const Course& course, Executor& executor) {
  HW_CHECK(beliefs.size() == head.zones.size() && course.zones.size() == head.zones.size());
  Draft draft = begun(hair_of(beliefs));
  for (int visit = 1; visit <= course.visits; ++visit) {
    if (visit > 1) wait_between(head, head.habits.weeks_to_next, draft);
    do_visit(head, course, visit, draft, executor);
  }
  std::vector<ZoneTiles> tiles;
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const LiftMembers& hair = draft.now[z];
    const auto seen = process::tress_members(hair, process::starting_moment(hair));
    const auto labs = colours_of(hair, process::Whites::mixed_in);
    tiles.push_back({head.zones[z].name, head.zones[z].section,
                     result_tile(hair::tress_spectrum(seen, course.zones[z].nearest_member)),
                     result_tile(mean_reflectance(seen, near_quantile(labs, 0.9))),
                     result_tile(mean_reflectance(seen, near_quantile(labs, 0.1)))});
  }
  return tiles;
}

std::string turn_words(const colour::HairLab& daylight, const colour::HairLab& seen) {
  constexpr double kHardlySeen = 1;  // CIEDE2000: about what an eye tells side by side
  constexpr double kNamed = 0.7;     // L*, a*, b*: choice of words
  const double de = colour::delta_e_2000(daylight, seen);
  if (de < kHardlySeen) return "as in daylight";
  struct Part {
    double size;
    const char* up;
    const char* down;
  };
  const std::array<Part, 3> parts = {{{seen.l - daylight.l, "lighter", "darker"},
                                      {seen.a - daylight.a, "redder", "less red"},
                                      {seen.b - daylight.b, "yellower", "less yellow"}}};
  double largest = 0;
  for (const Part& part : parts) largest = std::max(largest, std::abs(part.size));
  std::string words;
  for (const Part& part : parts) {
    if (std::abs(part.size) < std::min(kNamed, largest)) continue;
    words += (words.empty() ? "" : ", ") + std::string(part.size > 0 ? part.up : part.down);
  }
  return fmt::format("{:.1f} off: {}", de, words);
}

}  // namespace hw::plan
