#include "huewright/process/swatch.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "huewright/base/elementary.h"
#include "huewright/process/nnls.h"

namespace hw::process {
namespace {

constexpr std::size_t kMostLabelDyes = 12;  // 220 mixes of three
constexpr std::size_t kDraws = 64;          // equally likely fits that a shade carries

std::string lower(const std::string& text) {
  std::string out = text;
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

/// The names in "A + B", or the name alone.
std::vector<std::string> parts_of(const std::string& name) {
  constexpr std::string_view kAnd = " + ";
  const std::size_t at = name.find(kAnd);
  if (at == std::string::npos) return {lower(name)};
  return {lower(name.substr(0, at)), lower(name.substr(at + kAnd.size()))};
}

/// One way to mix what the label names.
struct Mixture {
  std::vector<std::size_t> dyes;
  std::vector<double> amounts;
  double miss = 0;  ///< in sds of the reading
};

struct Work {
  const SwatchReading& swatch;
  std::vector<colour::Spectrum> shapes;
};

Mixture fit(const Work& work, const std::vector<std::size_t>& dyes, const colour::HairLab& lab) {
  std::vector<colour::Spectrum> absorbers;
  for (const std::size_t dye : dyes) absorbers.push_back(work.shapes[dye]);
  auto found = fit_absorptions(lab, work.swatch.base, absorbers, work.swatch.sd);
  return {dyes, std::move(found.amounts), found.miss};
}

/// Every choice of three dyes, or all when there are fewer.
std::vector<std::vector<std::size_t>> choices(std::size_t count) {
  if (count <= kMostColourants) {
    std::vector<std::size_t> all(count);
    for (std::size_t i = 0; i < count; ++i) all[i] = i;
    return {all};
  }
  std::vector<std::vector<std::size_t>> list;
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 1; j < count; ++j) {
      for (std::size_t k = j + 1; k < count; ++k) list.push_back({i, j, k});
    }
  }
  return list;
}

colour::Spectrum spectrum_of(const Work& work, const Mixture& mixture) {
  colour::Spectrum sum{};
  for (std::size_t k = 0; k < mixture.dyes.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      sum[i] += mixture.amounts[k] * work.shapes[mixture.dyes[k]][i];
    }
  }
  return sum;
}

/// Index of a mixture, drawn by how well each fits.
std::size_t draw_of(const std::vector<Mixture>& mixtures, double uniform) {
  double sum = 0;
  for (const Mixture& mixture : mixtures) {
    sum += exp_portable(-mixture.miss * mixture.miss / 2);
  }
  double left = uniform * sum;
  for (std::size_t i = 0; i < mixtures.size(); ++i) {
    left -= exp_portable(-mixtures[i].miss * mixtures[i].miss / 2);
    if (left <= 0) return i;
  }
  return mixtures.size() - 1;
}

/// Factors on the chosen colourants that come nearest to another mixture's absorption.
std::array<double, kMostColourants> as_factors(const std::vector<Colourant>& colourants,
                                               const colour::Spectrum& wanted) {
  Columns columns(colour::kBands, colourants.size());
  for (std::size_t j = 0; j < colourants.size(); ++j) {
    for (std::size_t i = 0; i < colour::kBands; ++i) columns.at(i, j) = colourants[j].full[i];
  }
  const auto x =
      nonnegative_least_squares(columns, std::vector<double>(wanted.begin(), wanted.end())).x;
  std::array<double, kMostColourants> factors{};
  std::copy(x.begin(), x.end(), factors.begin());
  return factors;
}

colour::HairLab moved(const SwatchReading& swatch, const Draws& draws, std::uint64_t index) {
  constexpr std::uint64_t kStream = 0x5a7c;
  return {std::max(0.0, swatch.lab.l + swatch.sd.sd_l * draws.normal(kStream, index)),
          swatch.lab.a + swatch.sd.sd_a * draws.normal(kStream + 1, index),
          swatch.lab.b + swatch.sd.sd_b * draws.normal(kStream + 2, index)};
}

Result<Work> work_of(std::span<const Dye> label, const SwatchReading& swatch) {
  if (!(swatch.taken > 0)) {
    return fail(ErrorCode::out_of_range, "a swatch that took nothing tells nothing", "taken",
                "give the uptake of the swatch's hair, 1 for the reference");
  }
  Work work{swatch, {}};
  for (const Dye& dye : label.subspan(0, std::min(label.size(), kMostLabelDyes))) {
    if (const auto shape = dye_shape(dye)) work.shapes.push_back(*shape);
  }
  if (work.shapes.empty()) work.shapes = effective_colourants();
  return work;
}

/// The mixtures that the reading allows, best first.
Result<std::vector<Mixture>> allowed(const Work& work) {
  std::vector<Mixture> all;
  for (const auto& dyes : choices(work.shapes.size())) {
    all.push_back(fit(work, dyes, work.swatch.lab));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Mixture& a, const Mixture& b) { return a.miss < b.miss; });
  constexpr double kMostSds = 4;  // beyond it the reading contradicts the label
  if (all.front().miss > kMostSds) {
    return fail(ErrorCode::unreachable,
                fmt::format("no mix of the label's dyes on this base comes nearer than {:.1f} sds "
                            "to the reading",
                            all.front().miss),
                "swatch", "check the base, or give the shade by class, level and tone");
  }
  constexpr double kEquallyGood = 1.5;  // sds: what one more reading could turn round; guess
  std::erase_if(
      all, [&](const Mixture& mixture) { return mixture.miss > all.front().miss + kEquallyGood; });
  return all;
}

}  // namespace

std::vector<Dye> dyes_on_label(std::span<const std::string> ingredients) {
  const auto named = [&](const std::string& part) {
    return std::any_of(ingredients.begin(), ingredients.end(), [&](const std::string& printed) {
      const std::string text = lower(printed);
      // "HC Red No. 1" is not "HC Red No. 10": after the name comes nothing, or a salt's name.
      return text == part || text.starts_with(part + " ");
    });
  };
  std::vector<Dye> found;
  for (const Dye& dye : dyes()) {
    const auto parts = parts_of(dye.name);
    if (std::all_of(parts.begin(), parts.end(), named)) found.push_back(dye);
  }
  return found;
}

FitStrand white_base() {
  constexpr double kReferenceUm = 70;
  return {hair::base_absorption(hair::kWhiteBase), Micrometres(kReferenceUm), hair::kSurfaceTerm};
}

FitStrand base_of(const LiftMembers& hair, std::size_t m) {
  const hair::TressMembers tress = tress_members(hair, starting_moment(hair), Whites::left_out);
  FitStrand base{{}, Micrometres(hair.strand_um[m]), tress.surface_term[m]};
  const colour::Spectrum lifted = hair::base_absorption(hair::kLiftedBase);
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    base.absorption[i] = tress.eumelanin_percent[m] * hair::eumelanin_per_percent()[i] +
                         tress.pheo_like_percent[m] * hair::pheomelanin_per_percent()[i] +
                         tress.base_share[m] * lifted[i];
    for (const hair::DyeLayer& dye : tress.dyes) {
      base.absorption[i] += dye.amount[m] * dye.absorption[i];
    }
  }
  return base;
}

Result<Shade> shade_from_swatch(const std::string& id, DyeClass dye_class,
                                std::span<const Dye> label, const SwatchReading& swatch,
                                const Draws& draws) {
  const auto work = work_of(label, swatch);
  if (!work) return tl::unexpected(work.error());
  const auto mixtures = allowed(*work);
  if (!mixtures) return tl::unexpected(mixtures.error());
  const Mixture& best = mixtures->front();

  std::vector<Colourant> colourants;
  for (std::size_t k = 0; k < best.dyes.size(); ++k) {
    if (!(best.amounts[k] > 0)) continue;
    Colourant colourant{work->shapes[best.dyes[k]], 0};
    for (double& mu : colourant.full) mu *= best.amounts[k] / swatch.taken;
    colourants.push_back(colourant);
  }
  if (colourants.empty()) return clear_shade(id, dye_class);
  constexpr double kBowlSd = 0.12;  // ln, from one bowl to the next; guess
  auto shade = shade_from_spectra(id, dye_class, DyeFamily::brown, colourants, kBowlSd);
  if (!shade) return shade;
  shade->family = family_of_colour(shade->full);

  constexpr std::uint64_t kChoice = 0x5a80;
  for (std::size_t draw = 0; draw < kDraws; ++draw) {
    const Mixture& one = (*mixtures)[draw_of(*mixtures, draws.uniform(kChoice, draw))];
    colour::Spectrum wanted = spectrum_of(*work, fit(*work, one.dyes, moved(swatch, draws, draw)));
    for (double& mu : wanted) mu /= swatch.taken;
    shade->equal_fits.push_back(as_factors(shade->colourants, wanted));
  }
  return shade;
}

}  // namespace hw::process
