#include "plan_coverage_visits.h"

#include <algorithm>
#include <cmath>

#include "support/demo_case.h"

namespace hw::test {
namespace {

enum Stream : std::uint64_t {
  kLevelStream = 1,
  kKindStream = 3,
  kBiasStream = 4,
  kWetStream = 5,
  kFirstStream = 6,
  kBowlStream = 10,
  kCheckStream = 20,
  kSeenStream = 60,
  kFinishStream = 80,
};

double level_of(const process::LiftMembers& hair, const process::LiftMoment& moment,
                const hair::Ladder& ladder, double& lstar) {
  std::vector<colour::HairLab> lab(1);
  process::lift_colours(hair, moment, lab, process::Whites::left_out);
  lstar = lab[0].l;
  return ladder.level_of(lstar);
}

process::Application draw_bowl(const Draws& draws, const plan::Case& head) {
  struct Bowl {
    double peroxide, powder;
  };
  // Soap cap with water, cap with 6 %, powder 1 : 2 with 3 %, 6 % and 9 %: job arithmetic.
  constexpr std::array kBowls = {Bowl{2.4, 20}, Bowl{3, 25}, Bowl{2, 100.0 / 3}, Bowl{4, 100.0 / 3},
                                 Bowl{6, 100.0 / 3}};
  const Bowl bowl = kBowls[draws.below(kBowls.size(), kBowlStream, 0)];
  process::Application made;
  made.peroxide_percent = bowl.peroxide;
  made.powder_percent = bowl.powder;
  made.mix_per_hair = pick_up_of(head, true);
  made.temperature_c = head.room_c;
  return made;
}

/// The truth of a bowl: as the model has it, or as short bowls whose strength follows another law.
std::vector<process::Application> true_bowls(const process::Application& bowl, double minutes,
                                             const process::LiftMembers& hair,
                                             const Departure& departure) {
  process::Application whole = bowl;
  whole.minutes = minutes;
  if (!departure.other_film) return {whole};
  constexpr double kPieceMin = 2.5;
  const double tau = hair.constants[0].activity_min * whole.mix_per_hair /
                     process::kStandardMixPerHair;  // what an uncovered film of this size keeps
  std::vector<process::Application> pieces;
  for (double at = 0; at < minutes - 1e-9; at += kPieceMin) {
    process::Application piece = whole;
    piece.minutes = std::min(kPieceMin, minutes - at);
    const double middle = at + piece.minutes / 2;
    piece.peroxide_percent *= 1 / std::pow(1 + middle / (2 * tau), 2);
    pieces.push_back(piece);
  }
  return pieces;
}

process::LiftMembers true_hair(const process::LiftMembers& hair, const Departure& departure) {
  process::LiftMembers made = hair;
  made.constants[0].order += departure.order_added;
  if (departure.other_film) made.constants[0].activity_min *= 1000;  // the pieces carry the fall
  return made;
}

}  // namespace

double said(double level) {
  return std::clamp(std::round(level * 2) / 2, 1.0, 10.0);
}

namespace {

/// One head of any depth, and what she says of it.
TrueHead draw_any_head(std::uint64_t seed, std::uint64_t hidden_seed, const VisitOptions& options) {
  const Draws draws(hidden_seed);
  TrueHead truth;
  truth.head = plain_head();
  truth.head.seed = seed;
  truth.head.members = options.members;
  truth.departure = options.departure;
  const double kind = options.untouched ? 0 : draws.uniform(kKindStream, 0);
  const bool lightened = kind > 0.8;
  if (lightened) {
    truth.head.zones[1].past.lightened = 1;
  } else if (kind > 0.6) {
    truth.head.zones[1].past.old_colour = plan::OldColour{"neutral"};
    truth.head.zones[1].past.permanent_colours = 1;
  }
  // Levels spread evenly beyond both ends of the scale and read by nobody: one member is then a
  // draw from the prior.
  plan::Case hidden = truth.head;
  hidden.seed = hidden_seed;
  hidden.members = 1;
  hidden.priors = options.hidden;
  const double natural = -1 + 12 * draws.uniform(kLevelStream, 0);
  hidden.zones[0].readings[0].level = natural;
  hidden.zones[1].readings[0].level = lightened ? natural + 3 : natural;
  InlineExecutor executor;
  const auto beliefs = plan::believe(hidden, executor);
  if (!beliefs) return {};
  truth.bias = options.hidden.reader_bias_sd * draws.normal(kBiasStream, 0);
  truth.wet_look = options.hidden.wet_look_sd * draws.normal(kWetStream, 0);
  for (std::size_t z = 0; z < beliefs->size(); ++z) {
    truth.zones.push_back((*beliefs)[z].members);
    const double level = (*beliefs)[z].level_now[0];
    truth.start_level.push_back(level);
    truth.read_level.push_back(said(level + truth.bias + kEyeSd * draws.normal(kFirstStream, z)));
    truth.head.zones[z].readings[0].level = truth.read_level.back();
  }
  return truth;
}

}  // namespace

TrueHead draw_head(std::uint64_t seed, const VisitOptions& options) {
  constexpr std::uint64_t kTruthSeeds = 0x9e3779b97f4a7c15;  // shares no draws with what is planned
  constexpr double kDarkEnough = 6.5;  // lighter roots are not lifted; known before the visit
  for (std::uint64_t attempt = 0;; ++attempt) {
    TrueHead truth = draw_any_head(seed, (seed + 1) * kTruthSeeds + attempt, options);
    if (!truth.zones.empty() && truth.read_level[0] <= kDarkEnough) return truth;
  }
}

Result<VisitResult> run_visit(const TrueHead& truth, std::uint64_t seed,
                              const VisitOptions& options) {
  const Draws draws(seed ^ 0x51ed270b);
  InlineExecutor executor;
  auto beliefs = plan::believe(truth.head, executor);
  if (!beliefs) return tl::unexpected(beliefs.error());
  const process::Application bowl = draw_bowl(draws, truth.head);
  VisitResult result;
  const hair::Ladder& ladder = truth.head.ladder;
  for (std::size_t z = 0; z < truth.zones.size(); ++z) {
    const process::LiftMembers hair = true_hair(truth.zones[z], truth.departure);
    const std::string& name = truth.head.zones[z].name;
    process::Application planned = bowl;
    planned.minutes = options.end_min;
    result.runs.push_back({name, false, {{planned, 0}}});
    double lstar = 0;
    for (std::size_t c = 0; c < options.checks_min.size(); ++c) {
      const double minute = options.checks_min[c];
      const auto bowls = true_bowls(bowl, minute, truth.zones[z], truth.departure);
      const auto moments = process::simulate_lift(hair, bowls, minute, executor);
      (void)level_of(hair, moments.back(), ladder, lstar);
      plan::CheckReading reading;
      reading.minute = minute;
      reading.zone = name;
      // Most colourists wipe; one in five looks at wet hair now and then.
      const bool hasty = draws.uniform(kSeenStream, 99) < 0.2;
      reading.seen = hasty && draws.uniform(kSeenStream + z, c) < 0.5 ? hair::Moisture::wet
                                                                      : hair::Moisture::wiped;
      const hair::MoistureShift wet = hair::moisture_shift(reading.seen);
      const double share = wet.sd / hair::moisture_shift(hair::Moisture::wet).sd;
      const double looks =
          lstar + wet.lstar + wet.sd * truth.wet_look + share * truth.departure.wet_look_lstar;
      reading.level =
          said(ladder.level_of(looks) + truth.bias + kEyeSd * draws.normal(kCheckStream + z, c));
      result.readings.push_back(reading);
    }
    const auto bowls = true_bowls(bowl, options.end_min, truth.zones[z], truth.departure);
    const auto moments = process::simulate_lift(hair, bowls, options.end_min, executor);
    ZoneResult zone;
    zone.read_level = truth.read_level[z];
    zone.end_level = level_of(hair, moments.back(), ladder, lstar);
    result.zones.push_back(zone);
  }
  const auto checked = plan::check(truth.head, *beliefs, result.runs, result.readings, executor);
  if (!checked) return tl::unexpected(checked.error());
  const auto end_band = [&](const plan::ZoneBelief& belief, std::size_t z) {
    const std::vector<process::Application> bowls = {result.runs[z].bowls[0].application};
    const auto moments = process::simulate_lift(belief.members, bowls, options.end_min, executor);
    std::vector<colour::HairLab> labs(belief.members.size());
    process::lift_colours(belief.members, moments.back(), labs, process::Whites::left_out);
    std::vector<double> levels;
    for (const auto& lab : labs) levels.push_back(ladder.level_of(lab.l));
    return band_of(levels);
  };
  for (std::size_t z = 0; z < result.zones.size(); ++z) {
    result.zones[z].before = end_band((*beliefs)[z], z);
    result.zones[z].after = end_band(checked->zones[z], z);
  }
  result.effective = checked->effective;
  result.rounds = checked->rounds;
  for (std::size_t z = 0; options.outcome && z < result.zones.size(); ++z) {
    plan::CheckReading finish;
    finish.minute = options.end_min;
    finish.zone = truth.head.zones[z].name;
    finish.seen = hair::Moisture::dry;
    finish.level =
        said(result.zones[z].end_level + truth.bias + kEyeSd * draws.normal(kFinishStream, z));
    result.readings.push_back(finish);
  }
  result.beliefs = *std::move(beliefs);
  return result;
}

void Tally::add(const Band& band, double truth) {
  constexpr double kSame = 1e-9;  // both ends of the ladder are held
  ++bands;
  hits += truth >= band.low - kSame && truth <= band.high + kSame;
  widths.push_back(band.high - band.low);
}

double Tally::share() const {
  return bands == 0 ? 0 : static_cast<double>(hits) / static_cast<double>(bands);
}

double Tally::median_width() const {
  return widths.empty() ? 0 : quantile(widths, 0.5);
}

}  // namespace hw::test
