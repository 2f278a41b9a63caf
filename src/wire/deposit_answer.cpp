// From a request to an answer: strand, shades, bowl, simulation, statistics, rules.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/statistics.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/words.h"
#include "huewright/process/canvas.h"
#include "huewright/process/rules.h"
#include "huewright/process/swatch.h"
#include "huewright/wire/deposit.h"
#include "lift_limits.h"

namespace hw::wire {
namespace {

constexpr double kPheomelaninShare = 0.05;  // of all melanin; the interface's own convention

colour::HairLab lab_of(const Triple& lab) {
  return {lab[0], lab[1], lab[2]};
}

Error at(const std::string& where, Error error) {
  error.where = where;
  return error;
}

Result<void> set_natural(const DepositHair& hair, process::LiftMembers& members) {
  process::ExactHair start;
  if (hair.melanin_percent) {
    start.melanin_percent = *hair.melanin_percent;
  } else {
    const double lstar = hair.lstar ? *hair.lstar : hair::default_ladder().lstar_of(*hair.level);
    const auto exact = process::exact_hair(lstar, kPheomelaninShare, hair.strand);
    if (!exact) {
      return tl::unexpected(at(hair.lstar ? "hair.lstar" : "hair.level", exact.error()));
    }
    start = *exact;
  }
  std::ranges::fill(members.eumelanin_percent, start.melanin_percent * (1 - kPheomelaninShare));
  std::ranges::fill(members.pheomelanin_percent, start.melanin_percent * kPheomelaninShare);
  std::ranges::fill(members.surface_term, start.surface_term);
  return {};
}

Result<process::LiftMembers> hair_of(const DepositRequest& request) {
  const auto count = static_cast<std::size_t>(request.members);
  process::LiftMembers members;
  if (count > 1) members.constants = process::draw_constants(Draws(request.seed), count);
  members.resize(count);
  if (request.hair.lab) {
    const auto guess = process::canvas_guess(lab_of(*request.hair.lab), request.hair.strand);
    if (!guess) return tl::unexpected(at("hair.lab", guess.error()));
    process::set_canvas(members, *guess);
  } else if (const auto done = set_natural(request.hair, members); !done) {
    return tl::unexpected(done.error());
  }
  std::ranges::fill(members.strand_um, request.hair.strand.value());
  std::ranges::fill(members.opened, request.hair.opened);
  std::ranges::fill(members.wear, request.hair.wear);
  members.white_share = request.hair.white_percent / 100;
  return members;
}

Result<process::Shade> swatch_shade(const SwatchGiven& given, const std::string& id,
                                    const DepositRequest& request, const std::string& where) {
  process::SwatchReading swatch;
  swatch.base = process::white_base();
  swatch.lab = lab_of(given.lab);
  if (given.base_lab) {
    constexpr double kSwatchUm = 70;  // of the reference strand
    const auto guess = process::canvas_guess(lab_of(*given.base_lab), Micrometres(kSwatchUm));
    if (!guess) return tl::unexpected(at(where + ".swatch.base_lab", guess.error()));
    process::LiftMembers hair;
    hair.resize(1);
    hair.strand_um[0] = kSwatchUm;
    process::set_canvas(hair, *guess);
    swatch.base = process::base_of(hair, 0);
  }
  const auto label = process::dyes_on_label(given.ingredients);
  auto shade =
      process::shade_from_swatch(id, request.dye_class, label, swatch, Draws(request.seed));
  if (!shade) return tl::unexpected(at(where + ".swatch", shade.error()));
  return shade;
}

Result<process::Shade> shade_of(const DepositRequest& request, std::size_t index) {
  const ColourGiven& colour = request.colours[index];
  const std::string where = fmt::format("colours[{}]", index);
  const std::string id = where;
  if (colour.swatch && colour.level) {
    return fail(ErrorCode::conflict, "level and swatch exclude each other", where,
                "give the swatch alone: it tells more");
  }
  if (colour.swatch) return swatch_shade(*colour.swatch, id, request, where);
  if (colour.tone == "clear") return process::clear_shade(id, request.dye_class);
  if (!colour.level) {
    return fail(ErrorCode::missing, "a shade needs its level or a swatch", where,
                "give level 1 to 10 as on the tube, a swatch, or tone \"clear\"");
  }
  return process::shade_from_words(id, request.dye_class, *colour.level, colour.tone);
}

/// The shades by their share of the colour; most likely ones without doubt for a single member.
Result<std::vector<process::Poured>> pours_of(const DepositRequest& request) {
  double whole = 0;
  for (const ColourGiven& colour : request.colours) whole += colour.grams;
  std::vector<process::Poured> pours;
  for (std::size_t i = 0; i < request.colours.size(); ++i) {
    auto shade = shade_of(request, i);
    if (!shade) return tl::unexpected(shade.error());
    if (request.members == 1) {
      shade->strength_sd_ln = 0;
      shade->equal_fits.clear();
      for (process::Colourant& colourant : shade->colourants) colourant.sd_ln = 0;
    }
    pours.push_back({*std::move(shade), request.colours[i].grams / whole});
  }
  return pours;
}

Result<process::DepositBowl> bowl_of(const DepositRequest& request) {
  const process::ClassFacts& facts = process::class_facts(request.dye_class);
  const bool oxidative = facts.developer_parts > 0;
  if (oxidative && !request.developer) {
    return fail(ErrorCode::missing, fmt::format("{} colour forms with a developer", facts.word),
                "developer", "give its grams and peroxide_percent");
  }
  if (!oxidative && request.developer) {
    return fail(ErrorCode::conflict, fmt::format("{} colour takes no developer", facts.word),
                "developer", "leave it out, or give the class that the label says");
  }
  double colour_g = 0;
  for (const ColourGiven& colour : request.colours) colour_g += colour.grams;
  process::DepositBowl bowl;
  bowl.dye_class = request.dye_class;
  bowl.developer_percent = request.developer ? request.developer->peroxide_percent : 0;
  constexpr double kAllDeveloper = 1e6;  // parts; keeps a speck of colour from dividing by nothing
  bowl.developer_parts =
      request.developer ? std::min(kAllDeveloper, request.developer->grams / colour_g) : 0;
  bowl.label_parts = request.label_parts.value_or(facts.developer_parts);
  bowl.label_min = request.label_min.value_or(0);
  bowl.minutes = request.minutes.value();
  bowl.temperature_c = request.temperature.value();
  bowl.mix_per_hair = request.grams_per_gram_hair;
  bowl.water_per_hair = request.water_held_g_per_g;
  bowl.clean_canvas = request.clean;
  return bowl;
}

process::Bowl poured(const DepositRequest& request) {
  process::Bowl bowl;
  bowl.on_scalp = request.on_scalp;
  for (const ColourGiven& colour : request.colours) {
    bowl.parts.push_back({process::PartKind::colour, Grams(colour.grams)});
  }
  if (request.developer) {
    process::Part developer{process::PartKind::developer, Grams(request.developer->grams)};
    developer.peroxide = Percent(request.developer->peroxide_percent);
    bowl.parts.push_back(developer);
  }
  return bowl;
}

Result<void> check_size(const DepositRequest& request) {
  const double rows = 1 + std::ceil(request.minutes / request.every);
  constexpr std::uint64_t kMostMemberMoments = 400'000;  // each keeps its hair: about 200 MB
  const double most = static_cast<double>(kMostMemberMoments / request.members);
  if (rows <= most) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{} rows for {} members are more than the {} that are computed", rows,
                          request.members, most),
              "every_min", "give a longer every_min, fewer minutes or fewer members");
}

/// Mean colour of the members nearest a quantile of L*: a twentieth of them. labs: by L*.
Triple near_quantile(const std::vector<colour::HairLab>& labs, double p) {
  const std::size_t count = std::max<std::size_t>(1, labs.size() / 20);
  const auto middle = static_cast<std::size_t>(p * static_cast<double>(labs.size() - 1));
  const std::size_t first =
      std::min(middle > count / 2 ? middle - count / 2 : 0, labs.size() - count);
  Triple mean{};
  for (std::size_t i = first; i < first + count; ++i) {
    mean[0] += labs[i].l / static_cast<double>(count);
    mean[1] += labs[i].a / static_cast<double>(count);
    mean[2] += labs[i].b / static_cast<double>(count);
  }
  return mean;
}

DepositRow row_of(const process::DepositMoment& moment) {
  const auto& ladder = hair::default_ladder();
  std::vector<colour::HairLab> labs(moment.hair.size());
  process::lift_colours(moment.hair, process::starting_moment(moment.hair), labs);
  std::stable_sort(labs.begin(), labs.end(),
                   [](const auto& a, const auto& b) { return a.l < b.l; });
  DepositRow row;
  row.minute = moment.minute;
  std::vector<double> level;
  const double share = 1 / static_cast<double>(labs.size());
  for (const auto& lab : labs) {
    level.push_back(ladder.level_of(lab.l));
    row.lab[0] += share * lab.l;
    row.lab[1] += share * lab.a;
    row.lab[2] += share * lab.b;
  }
  const Band band = band_of(level);
  row.lab_low = near_quantile(labs, 0.1);
  row.lab_high = near_quantile(labs, 0.9);
  row.level = ladder.level_of(row.lab[0]);
  row.level_low = band.low;
  row.level_high = band.high;
  row.taken = mean(moment.taken);
  row.wear = mean(moment.hair.wear);
  hair::ColourWords words = hair::describe(lab_of(row.lab));
  if (moment.minute > 0) words.warmth.clear();  // what shows there is colour, no stage of a lift
  row.words = hair::sentence(words);
  return row;
}

std::vector<process::Refusal> check_wear(const process::LiftMembers& end) {
  process::HairFacts hair;
  hair.wear_high_90 = band_of(end.wear).high;
  auto raised = process::check_application({}, hair, {});
  // Of a person nothing is known here, so what the rules ask about her is left to `plan`.
  std::erase_if(raised, [](const auto& one) { return !one.id.starts_with("wear_"); });
  return raised;
}

/// What the mix holds, and what speaks against it by itself.
Result<DepositAnswer> judged(const DepositRequest& request) {
  process::ApplicationFacts facts;
  facts.bowl = poured(request);
  auto mix = process::mix_bowl(facts.bowl);
  if (!mix) {
    // The parts of the mix are this request's colours, and the developer last.
    return tl::unexpected(at("colours", mix.error()));
  }
  facts.mix = *mix;
  facts.minutes = request.minutes;
  auto said = answer(BowlRequest{facts.bowl});
  if (!said) return tl::unexpected(said.error());
  DepositAnswer out;
  out.bowl = *std::move(said);
  out.found = parted(process::check_series({&facts, 1}));
  return out;
}

}  // namespace

Result<DepositAnswer> answer(const DepositRequest& request, Executor& executor) {
  if (const auto size = check_size(request); !size) return tl::unexpected(size.error());
  const auto bowl = bowl_of(request);
  if (!bowl) return tl::unexpected(bowl.error());
  const auto hair = hair_of(request);
  if (!hair) return tl::unexpected(hair.error());
  const auto pours = pours_of(request);
  if (!pours) return tl::unexpected(pours.error());
  auto out = judged(request);
  if (!out) return out;

  const auto series = process::deposit_series(*hair, *bowl, *pours, Draws(request.seed),
                                              request.every.value(), executor);
  const std::array raised{out->found.refusals, out->found.cautions, check_wear(series.back().hair)};
  out->found = parted(process::merged(raised));
  out->series.resize(series.size());
  executor.run(series.size(), [&](std::size_t i) { out->series[i] = row_of(series[i]); });
  return out;
}

}  // namespace hw::wire
