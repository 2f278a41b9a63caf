#include "option_search.h"

#include <algorithm>

#include "zone_lift.h"

namespace hw::plan {
namespace {

using process::Refusal;

/// Starts, whole time, and what the rules say of an option whose zones are known.
void finish(const Case& head, LiftOption& option) {
  std::vector<std::vector<Refusal>> findings;
  option.minutes = 0;
  for (std::size_t i = 0; i < head.zones.size(); ++i) {
    option.minutes = std::max(option.minutes, option.zones[i].stop_min.mid);
    findings.push_back(
        judge_lift(head, head.zones[i], option.recipe, option.applications, option.zones[i]));
  }
  for (ZoneOutcome& zone : option.zones) zone.start_min = option.minutes - zone.stop_min.mid;
  for (const Refusal& finding : process::merged(findings)) {
    (finding.kind == process::RefusalKind::caution ? option.cautions : option.refusals)
        .push_back(finding);
  }
}

}  // namespace

std::vector<process::Application> applications_of(const LiftOption& option, const Case& head,
                                                  const ZoneCase& zone, double minutes) {
  return applications_of(head, zone, option.recipe, option.applications, minutes);
}

std::vector<LiftOption> search_options(const Case& head, const std::vector<ZoneBelief>& beliefs,
                                       std::span<const Recipe> recipes, int applications,
                                       Executor& executor) {
  // Two recipes of the same chemistry and time do the same to the hair: searched once.
  std::vector<LiftOption> options;
  std::vector<std::size_t> same_as;
  std::vector<std::size_t> distinct;
  for (const Recipe& recipe : recipes) {
    LiftOption option;
    option.recipe = recipe;
    option.applications = applications;
    option.zones.resize(head.zones.size());
    const auto known = std::find_if(distinct.begin(), distinct.end(), [&](std::size_t i) {
      const Recipe& other = options[i].recipe;
      return other.mix.peroxide == recipe.mix.peroxide && other.mix.powder == recipe.mix.powder &&
             other.longest_min == recipe.longest_min;
    });
    same_as.push_back(known == distinct.end() ? options.size() : *known);
    if (known == distinct.end()) distinct.push_back(options.size());
    options.push_back(std::move(option));
  }
  executor.run(distinct.size() * head.zones.size(), [&](std::size_t task) {
    LiftOption& option = options[distinct[task / head.zones.size()]];
    const std::size_t zone = task % head.zones.size();
    const ZoneStart start{head.zones[zone], beliefs[zone].members, beliefs[zone].level_now};
    const double wish = wished_level_of(head, head.zones[zone]);
    option.zones[zone] =
        lift_zone(head, start, option.recipe, applications, {&wish, 1}).front().outcome;
  });
  for (std::size_t i = 0; i < options.size(); ++i) {
    options[i].zones = options[same_as[i]].zones;
    finish(head, options[i]);
  }
  return options;
}

}  // namespace hw::plan
