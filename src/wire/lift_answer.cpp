// From a request to an answer: strand, members, simulation, statistics, rules.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/statistics.h"
#include "huewright/hair/ladder.h"
#include "huewright/process/rules.h"
#include "huewright/wire/lift.h"
#include "lift_limits.h"

namespace hw::wire {
namespace {

constexpr double kPheomelaninShare = 0.05;  // of all melanin; the interface's own convention
// A film warmer than the body cannot owe that to the scalp: somebody heats it. Body core
// temperature, from memory [°C].
constexpr double kBodyCelsius = 37;

Result<process::ExactHair> exact(const LiftHair& hair) {
  if (hair.melanin_percent) {
    process::ExactHair start;
    start.melanin_percent = *hair.melanin_percent;
    return start;
  }
  const double lstar = hair.lstar ? *hair.lstar : hair::default_ladder().lstar_of(*hair.level);
  auto start = process::exact_hair(lstar, kPheomelaninShare, hair.strand);
  if (!start) {
    Error error = start.error();
    error.where = hair.lstar ? "hair.lstar" : "hair.level";
    return tl::unexpected(error);
  }
  return start;
}

process::LiftMembers members_of(const LiftRequest& request, const process::ExactHair& start) {
  const auto count = static_cast<std::size_t>(request.members);
  process::LiftMembers members;
  if (count > 1) members.constants = process::draw_constants(Draws(request.seed), count);
  members.resize(count);
  std::ranges::fill(members.eumelanin_percent, start.melanin_percent * (1 - kPheomelaninShare));
  std::ranges::fill(members.pheomelanin_percent, start.melanin_percent * kPheomelaninShare);
  std::ranges::fill(members.strand_um, request.hair.strand.value());
  std::ranges::fill(members.opened, request.hair.opened);
  std::ranges::fill(members.surface_term, start.surface_term);
  return members;
}

process::Application application_of(const LiftApplication& asked, const process::Mix& mix) {
  process::Application bowl;
  bowl.peroxide_percent = mix.peroxide.value();
  bowl.powder_percent = mix.powder.value();
  bowl.alkaline = std::ranges::any_of(asked.bowl.parts, [](const process::Part& part) {
    return part.kind == process::PartKind::lightener || part.kind == process::PartKind::colour;
  });
  bowl.mix_per_hair = asked.grams_per_gram_hair;
  bowl.temperature_c = asked.temperature.value();
  bowl.minutes = asked.minutes.value();
  bowl.covered = asked.covered;
  bowl.water_per_hair = asked.water_held_g_per_g;
  return bowl;
}

/// Everything the applications say, in the shapes the process floor takes.
struct Steps {
  std::vector<process::Application> bowls;
  std::vector<process::ApplicationFacts> facts;
  std::vector<BowlAnswer> answers;
};

Result<Steps> steps_of(const LiftRequest& request) {
  Steps steps;
  for (std::size_t i = 0; i < request.applications.size(); ++i) {
    const LiftApplication& asked = request.applications[i];
    const std::string where = fmt::format("applications[{}]", i);
    auto mix = process::mix_bowl(asked.bowl, where);
    if (!mix) return tl::unexpected(mix.error());
    auto said = answer(BowlRequest{asked.bowl}, where);
    if (!said) return tl::unexpected(said.error());
    process::ApplicationFacts facts;
    facts.bowl = asked.bowl;
    facts.mix = *mix;
    facts.minutes = asked.minutes;
    facts.added_heat = asked.temperature.value() > kBodyCelsius;
    steps.bowls.push_back(application_of(asked, *mix));
    steps.facts.push_back(std::move(facts));
    steps.answers.push_back(*std::move(said));
  }
  return steps;
}

Result<void> check_size(const LiftRequest& request) {
  double rows = 1;
  for (const auto& asked : request.applications) {
    rows += std::ceil(asked.minutes / request.every);
  }
  const double most = std::min(
      static_cast<double>(kMostRows),
      std::floor(static_cast<double>(kMostMemberRows) / static_cast<double>(request.members)));
  if (rows <= most) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{} rows for {} members are more than the {} that are computed", rows,
                          request.members, most),
              "every_min", "give a longer every_min, fewer minutes or fewer members");
}

/// Mean colour and the bands of one moment. labs: room for one colour per member.
LiftRow row_of(const process::LiftMembers& members, const process::LiftMoment& moment,
               std::vector<colour::HairLab>& labs) {
  const auto& ladder = hair::default_ladder();
  process::lift_colours(members, moment, labs);
  LiftRow row;
  row.application = moment.application;
  row.minute = moment.minute;
  row.minute_total = moment.minute_total;
  std::vector<double> lstar;
  std::vector<double> level;
  for (const auto& lab : labs) {
    lstar.push_back(lab.l);
    level.push_back(ladder.level_of(lab.l));
    row.lab[0] += lab.l;
    row.lab[1] += lab.a;
    row.lab[2] += lab.b;
  }
  for (double& part : row.lab) part /= static_cast<double>(labs.size());
  row.level = ladder.level_of(row.lab[0]);
  const Band lstar_band = band_of(lstar);
  const Band level_band = band_of(level);
  row.lstar_low = lstar_band.low;
  row.lstar_high = lstar_band.high;
  row.level_low = level_band.low;
  row.level_high = level_band.high;
  row.wear = mean(moment.wear);
  row.melanin_left = (1 - kPheomelaninShare) * mean(moment.eumelanin_left) +
                     kPheomelaninShare * mean(moment.pheomelanin_left);
  row.warm = (1 - kPheomelaninShare) * mean(moment.warm);
  return row;
}

/// The rules about wear, for the 90 % edge over the members at the end.
std::vector<process::Refusal> check_wear(const process::LiftMoment& end) {
  process::HairFacts hair;
  hair.wear_high_90 = band_of(end.wear).high;
  auto raised = process::check_application({}, hair, {});
  // Of a person nothing is known here, so what the rules ask about her is left to `plan`.
  std::erase_if(raised, [](const auto& one) { return !one.id.starts_with("wear_"); });
  return raised;
}

}  // namespace

Result<LiftSetup> lift_setup(const LiftRequest& request) {
  const auto start = exact(request.hair);
  if (!start) return tl::unexpected(start.error());
  auto steps = steps_of(request);
  if (!steps) return tl::unexpected(steps.error());
  return LiftSetup{members_of(request, *start), std::move(steps->bowls)};
}

Result<LiftAnswer> answer(const LiftRequest& request, Executor& executor) {
  const auto size = check_size(request);
  if (!size) return tl::unexpected(size.error());
  const auto start = exact(request.hair);
  if (!start) return tl::unexpected(start.error());
  auto steps = steps_of(request);
  if (!steps) return tl::unexpected(steps.error());

  const process::LiftMembers members = members_of(request, *start);
  const auto moments =
      process::simulate_lift(members, steps->bowls, request.every.value(), executor);
  LiftAnswer out;
  out.bowls = std::move(steps->answers);
  const std::array raised{process::check_series(steps->facts), check_wear(moments.back())};
  out.found = parted(process::merged(raised));
  out.series.resize(moments.size());
  executor.run(moments.size(), [&](std::size_t i) {
    std::vector<colour::HairLab> labs(members.size());
    out.series[i] = row_of(members, moments[i], labs);
  });
  return out;
}

}  // namespace hw::wire
