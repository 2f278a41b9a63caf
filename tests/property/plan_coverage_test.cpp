// How often the bands hold. Visits are simulated with a hidden truth; the 80 % band of each zone's
// level at the end should hold it 8 times in 10, before and after the checks.
// HW_COVERAGE_VISITS: how many visits (300).
#include <fmt/format.h>

#include <cstdlib>
#include <map>

#include "plan_coverage_visits.h"

namespace hw::test {
namespace {

std::size_t visits() {
  const char* asked = std::getenv("HW_COVERAGE_VISITS");
  return asked != nullptr ? static_cast<std::size_t>(std::atoi(asked)) : 300;
}

struct Study {
  Tally before, after;
  std::map<std::string, Tally> before_by, after_by;
  double effective = 0, rounds = 0;
};

Study study(const VisitOptions& options) {
  Study found;
  for (std::size_t v = 0; v < visits(); ++v) {
    const TrueHead truth = draw_head(1000 + v, options);
    const auto visit = run_visit(truth, 1000 + v, options);
    if (!visit) {
      ADD_FAILURE() << one_line(visit.error());
      continue;
    }
    found.effective += visit->effective / static_cast<double>(visits());
    found.rounds += static_cast<double>(visit->rounds) / static_cast<double>(visits());
    for (std::size_t z = 0; z < visit->zones.size(); ++z) {
      const ZoneResult& zone = visit->zones[z];
      found.before.add(zone.before, zone.end_level);
      found.after.add(zone.after, zone.end_level);
      const auto key = fmt::format("{} from level {:.0f}", truth.head.zones[z].name,
                                   std::floor(zone.read_level / 2) * 2);
      found.before_by[key].add(zone.before, zone.end_level);
      found.after_by[key].add(zone.after, zone.end_level);
    }
  }
  return found;
}

void print(const char* title, const Study& found) {
  fmt::print(
      "{}: {} visits; held before checks {:.3f}, after {:.3f}; width {:.2f} to {:.2f} "
      "levels (x{:.2f}); members that counted {:.0f}, rounds {:.2f}\n",
      title, visits(), found.before.share(), found.after.share(), found.before.median_width(),
      found.after.median_width(), found.after.median_width() / found.before.median_width(),
      found.effective, found.rounds);
  for (const auto& [key, tally] : found.before_by) {
    const Tally& after = found.after_by.at(key);
    fmt::print("  {:22} {:5} bands  before {:.2f}  after {:.2f}  width {:.2f} to {:.2f}\n", key,
               tally.bands, tally.share(), after.share(), tally.median_width(),
               after.median_width());
  }
}

TEST(PlanCoverage, bands_hold_eight_times_in_ten_and_narrow_after_checks) {
  const Study found = study({});
  print("as the model has it", found);
  const bool many = visits() >= 5000;
  const double low = many ? 0.76 : 0.74, high = many ? 0.84 : 0.86;
  EXPECT_GE(found.before.share(), low);
  EXPECT_LE(found.before.share(), high);
  EXPECT_GE(found.after.share(), low);
  EXPECT_LE(found.after.share(), high);
  EXPECT_LE(found.after.median_width(), 0.7 * found.before.median_width());
}

}  // namespace
}  // namespace hw::test
