#include "huewright/process/deposit.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"

namespace hw::process {
namespace {

using hair::DyeLayer;

std::uint64_t stream_of(const std::string& id) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;  // FNV-1a
  for (const char c : id) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return hash;
}

bool oxidises(const DepositBowl& bowl) {
  return bowl.developer_percent > 0 && bowl.developer_parts > 0 && bowl.minutes > 0;
}

/// What the bowl is to the pigment beneath: its peroxide, no powder.
Application mix_of(const DepositBowl& bowl) {
  Application mix;
  mix.peroxide_percent = bowl.developer_percent * bowl.developer_parts / (1 + bowl.developer_parts);
  mix.powder_percent = 0;
  mix.alkaline = bowl.dye_class == DyeClass::permanent;
  mix.mix_per_hair = bowl.mix_per_hair;
  mix.temperature_c = bowl.temperature_c;
  mix.minutes = bowl.minutes;
  mix.water_per_hair = bowl.water_per_hair;
  return mix;
}

LiftMembers lifted_by(const LiftMembers& canvas, const LiftMoment& moment) {
  LiftMembers lifted = canvas_after(canvas, moment);
  lifted.dyes = canvas.dyes;  // colour does not lift colour
  return lifted;
}

double dot(const colour::Spectrum& a, const colour::Spectrum& b) {
  double sum = 0;
  for (std::size_t i = 0; i < colour::kBands; ++i) sum += a[i] * b[i];
  return sum;
}

/// Cosine between two spectra: 1 when one is a multiple of the other.
double likeness(const colour::Spectrum& a, const colour::Spectrum& b) {
  const double lengths = std::sqrt(dot(a, a) * dot(b, b));
  return lengths > 0 ? dot(a, b) / lengths : 1;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// Two layers as one: exact for spectra of one shape, else at the mean mix of the two.
DyeLayer joined(const DyeLayer& a, const DyeLayer& b) {
  const double mean_a = mean_of(a.amount);
  const double mean_b = mean_of(b.amount);
  DyeLayer both;
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    both.absorption[i] = mean_a * a.absorption[i] + mean_b * b.absorption[i];
  }
  // One unit of `both` is the mean mix; a member has as much of it as absorbs alike in all.
  const double size_a = std::sqrt(dot(a.absorption, a.absorption));
  const double size_b = std::sqrt(dot(b.absorption, b.absorption));
  const double whole = mean_a * size_a + mean_b * size_b;
  both.amount.resize(a.amount.size());
  for (std::size_t m = 0; m < both.amount.size(); ++m) {
    both.amount[m] = whole > 0 ? (a.amount[m] * size_a + b.amount[m] * size_b) / whole : 0;
  }
  return both;
}

/// Joins the two layers most alike from `first` on.
void join_two(std::vector<DyeLayer>& layers, std::size_t first) {
  std::size_t one = first;
  std::size_t other = first + 1;
  double best = -1;
  for (std::size_t i = first; i < layers.size(); ++i) {
    for (std::size_t j = i + 1; j < layers.size(); ++j) {
      const double alike = likeness(layers[i].absorption, layers[j].absorption);
      if (alike > best) best = alike, one = i, other = j;
    }
  }
  layers[one] = joined(layers[one], layers[other]);
  layers.erase(layers.begin() + static_cast<std::ptrdiff_t>(other));
}

bool absorbs(const colour::Spectrum& full) {
  return std::any_of(full.begin(), full.end(), [](double mu) { return mu > 0; });
}

/// Puts layers on a strand; see deposit().
void add_layers(LiftMembers& hair, std::vector<DyeLayer> fresh) {
  std::size_t old = hair.dyes.size();
  for (DyeLayer& layer : fresh) hair.dyes.push_back(std::move(layer));
  while (hair.dyes.size() > hair::kMostDyes) {
    const std::size_t from = hair.dyes.size() - old > 1 ? old : 0;
    join_two(hair.dyes, from);
    old = std::min(old, hair.dyes.size() - 1);
  }
}

}  // namespace

LiftMembers after_own_lift(const LiftMembers& canvas, const DepositBowl& bowl, Executor& executor) {
  if (!oxidises(bowl)) return canvas;
  const Application mix = mix_of(bowl);
  return lifted_by(canvas, simulate_lift(canvas, {&mix, 1}, bowl.minutes, executor).back());
}

std::vector<double> shade_strength(const Shade& shade, const Draws& draws, std::size_t members) {
  std::vector<double> strength(members);
  const std::uint64_t stream = stream_of(shade.id);
  for (std::size_t m = 0; m < members; ++m) {
    strength[m] = exp_portable(shade.strength_sd_ln * draws.normal(stream, m));
  }
  return strength;
}

std::vector<std::vector<double>> colourant_strengths(const Shade& shade, const Draws& draws,
                                                     std::size_t members) {
  HW_CHECK(shade.colourants.size() <= kMostColourants);
  const std::vector<double> whole = shade_strength(shade, draws, members);
  std::vector<std::vector<double>> all(std::max<std::size_t>(1, shade.colourants.size()), whole);
  const std::uint64_t stream = stream_of(shade.id + "/colourants");
  for (std::size_t j = 0; j < shade.colourants.size(); ++j) {
    for (std::size_t m = 0; m < members; ++m) {
      const double own = shade.colourants[j].sd_ln;
      all[j][m] *= exp_portable(own * draws.normal(stream + 1 + j, m));
      if (shade.equal_fits.empty()) continue;
      all[j][m] *= shade.equal_fits[draws.below(shade.equal_fits.size(), stream, m)][j];
    }
  }
  return all;
}

std::vector<DyeLayer> dye_layers(std::span<const Poured> pours, std::span<const double> taken,
                                 const Draws& draws, std::size_t most) {
  HW_CHECK(most > 0);
  constexpr double kOneShape = 1 - 1e-12;  // cosine of spectra that are multiples of each other
  std::vector<DyeLayer> layers;
  for (const Poured& pour : pours) {
    if (!absorbs(pour.shade.full) || pour.share <= 0) continue;
    auto strengths = colourant_strengths(pour.shade, draws, taken.size());
    for (std::size_t j = 0; j < strengths.size(); ++j) {
      DyeLayer layer{
          pour.shade.colourants.empty() ? pour.shade.full : pour.shade.colourants[j].full,
          std::move(strengths[j])};
      if (!absorbs(layer.absorption)) continue;
      for (std::size_t m = 0; m < taken.size(); ++m) layer.amount[m] *= pour.share * taken[m];
      const auto same = std::find_if(layers.begin(), layers.end(), [&](const DyeLayer& other) {
        return likeness(layer.absorption, other.absorption) > kOneShape;
      });
      if (same == layers.end()) {
        layers.push_back(std::move(layer));
        continue;
      }
      const double ratio = std::sqrt(dot(layer.absorption, layer.absorption) /
                                     dot(same->absorption, same->absorption));
      for (std::size_t m = 0; m < taken.size(); ++m) same->amount[m] += ratio * layer.amount[m];
    }
  }
  while (layers.size() > most) join_two(layers, 0);
  return layers;
}

LiftMembers deposit(const LiftMembers& canvas, const DepositBowl& bowl,
                    std::span<const Poured> pours, const Draws& draws, Executor& executor) {
  LiftMembers coloured = after_own_lift(canvas, bowl, executor);
  add_layers(coloured, dye_layers(pours, uptake(canvas, bowl, draws), draws));
  return coloured;
}

std::vector<DepositMoment> deposit_series(const LiftMembers& canvas, const DepositBowl& bowl,
                                          std::span<const Poured> pours, const Draws& draws,
                                          double every_min, Executor& executor) {
  return deposit_series(canvas, bowl, pours, draw_uptake(draws, canvas.size()), draws, every_min,
                        executor);
}

std::vector<DepositMoment> deposit_series(const LiftMembers& canvas, const DepositBowl& bowl,
                                          std::span<const Poured> pours,
                                          std::span<const UptakeConstants> constants,
                                          const Draws& draws, double every_min,
                                          Executor& executor) {
  HW_CHECK(every_min > 0);
  std::vector<DepositMoment> series;
  // The lift is run once, with a moment at each reported minute, also where nothing oxidises.
  Application mix = mix_of(bowl);
  if (!oxidises(bowl)) mix.peroxide_percent = 0;
  for (const LiftMoment& lift : simulate_lift(canvas, {&mix, 1}, every_min, executor)) {
    DepositBowl until = bowl;
    until.minutes = lift.minute;
    DepositMoment moment{lift.minute, oxidises(bowl) ? lifted_by(canvas, lift) : canvas,
                         uptake(canvas, until, constants)};
    if (lift.minute > 0) add_layers(moment.hair, dye_layers(pours, moment.taken, draws));
    series.push_back(std::move(moment));
  }
  return series;
}

Shade settled(const Shade& shade, const Draws& draws, std::size_t member) {
  const auto strengths = colourant_strengths(shade, draws, member + 1);
  Shade sure = shade;
  sure.strength_sd_ln = 0;
  sure.equal_fits.clear();
  if (shade.colourants.empty()) {
    for (double& mu : sure.full) mu *= strengths[0][member];
    return sure;
  }
  sure.full = {};
  for (std::size_t j = 0; j < sure.colourants.size(); ++j) {
    sure.colourants[j].sd_ln = 0;
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      sure.colourants[j].full[i] *= strengths[j][member];
      sure.full[i] += sure.colourants[j].full[i];
    }
  }
  return sure;
}

}  // namespace hw::process
