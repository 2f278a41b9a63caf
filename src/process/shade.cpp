#include "huewright/process/shade.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "figures.h"
#include "huewright/base/check.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/tress.h"
#include "huewright/process/absorption_fit.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kReferenceUm = 70;   // strand of the reference application
constexpr double kLeastNatural = 18;  // L* of natural hair: black to
constexpr double kMostNatural = 80;   // lightest blond, with room
constexpr std::array kClassWords = {"direct", "cationic", "demi", "permanent"};
constexpr std::array kFamilyWords = {"red", "copper", "brown", "violet", "blue", "yellow"};

struct Tone {
  std::string word;
  double a_offset, b_offset;
  DyeFamily family;
};

const std::vector<Tone>& tones() {
  static const std::vector<Tone> all = [] {
    const Table table = embedded_table(tables::shade_tones, "process/shade_tones.csv");
    std::vector<Tone> list;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      list.push_back({*table.text(row, "tone"), *table.number(row, "a_offset"),
                      *table.number(row, "b_offset"),
                      *dye_family_named(*table.text(row, "family"))});
    }
    return list;
  }();
  return all;
}

colour::HairLab on_white(const colour::Spectrum& full) {
  static const colour::Spectrum bare = hair::base_absorption(hair::kWhiteBase);
  colour::Spectrum mu = full;
  for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += bare[i];
  return colour::lab_of(hair::tress_reflectance(mu, Micrometres(kReferenceUm), hair::kSurfaceTerm));
}

/// A shade of a class with nothing in it yet.
Shade empty_shade(const std::string& id, DyeClass dye_class) {
  Shade shade;
  shade.id = id;
  shade.dye_class = dye_class;
  shade.developer_parts = class_facts(dye_class).developer_parts;
  shade.label_min = class_facts(dye_class).label_min;
  return shade;
}

void add_colourant(Shade& shade, const Colourant& colourant) {
  for (std::size_t i = 0; i < colour::kBands; ++i) shade.full[i] += colourant.full[i];
  shade.colourants.push_back(colourant);
}

/// Natural hair of a depth, as a tone is judged against.
colour::HairLab natural_of(double lstar) {
  constexpr double kPheoShare = 0.05;  // brown hair: bib borges_2001
  const Micrometres strand(kReferenceUm);
  const auto melanin = hair::melanin_for_lstar(lstar, kPheoShare, strand, hair::kSurfaceTerm);
  HW_CHECK(melanin.has_value());
  return hair::tress_lab({*melanin * (1 - kPheoShare), *melanin * kPheoShare, 0, strand,
                          hair::kSurfaceTerm, hair::kNaturalBase});
}

/// A dark colour has less chroma to give: the offset scales with the depth of colour possible.
double chroma_room(double lstar) {
  constexpr double kFullLstar = 36;   // level 6, where the offsets are stated
  constexpr double kFloorLstar = 18;  // the surface term alone
  return std::clamp((lstar - kFloorLstar) / (kFullLstar - kFloorLstar), 0.05, 1.2);
}

}  // namespace

const std::vector<colour::Spectrum>& effective_colourants() {
  static const std::vector<colour::Spectrum> all = {hair::dye_absorption({{440, 5000, 1}}),
                                                    hair::dye_absorption({{510, 5000, 1}}),
                                                    hair::dye_absorption({{600, 5000, 1}})};
  return all;
}

ColourantFit fit_on_white(const colour::HairLab& wanted) {
  const FitStrand white{hair::base_absorption(hair::kWhiteBase), Micrometres(kReferenceUm),
                        hair::kSurfaceTerm};
  AbsorptionFit fit = fit_absorptions(wanted, white, effective_colourants());
  return {std::move(fit.amounts), fit.miss};
}

const ClassFacts& class_facts(DyeClass dye_class) {
  static const std::vector<ClassFacts> all = [] {
    const Table table = embedded_table(tables::dye_classes, "process/dye_classes.csv");
    HW_CHECK(table.rows() == kClassWords.size());
    std::vector<ClassFacts> list;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      HW_CHECK(*table.text(row, "class") == kClassWords[row]);
      list.push_back({static_cast<DyeClass>(row), kClassWords[row],
                      *table.number(row, "radius_angstrom"), *table.number(row, "biot"),
                      *table.number(row, "developer_parts"), *table.number(row, "label_min"),
                      *table.number(row, "unclean"), *table.number(row, "lightened_gain"),
                      *table.number(row, "swatch_opened"), *table.number(row, "swatch_wear")});
    }
    return list;
  }();
  return all[static_cast<std::size_t>(dye_class)];
}

Result<DyeClass> dye_class_named(const std::string& word) {
  const auto at = std::find(kClassWords.begin(), kClassWords.end(), word);
  if (at == kClassWords.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is no class of colour", word), "class",
                "give direct, cationic, demi or permanent");
  }
  return static_cast<DyeClass>(at - kClassWords.begin());
}

Result<DyeFamily> dye_family_named(const std::string& word) {
  const auto at = std::find(kFamilyWords.begin(), kFamilyWords.end(), word);
  if (at == kFamilyWords.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is no family of dyes", word), "family",
                fmt::format("give one of {}", fmt::join(kFamilyWords, ", ")));
  }
  return static_cast<DyeFamily>(at - kFamilyWords.begin());
}

const std::vector<std::string>& shade_tones() {
  static const std::vector<std::string> words = [] {
    std::vector<std::string> list;
    for (const Tone& tone : tones()) list.push_back(tone.word);
    return list;
  }();
  return words;
}

Result<Shade> shade_from_words(const std::string& id, DyeClass dye_class, double level,
                               const std::string& tone) {
  if (!(level >= 1 && level <= 10)) {
    return fail(ErrorCode::out_of_range, fmt::format("level {} is outside 1 to 10", level), "level",
                "give the depth on the tube");
  }
  const auto at = std::find_if(tones().begin(), tones().end(),
                               [&](const Tone& known) { return known.word == tone; });
  if (at == tones().end()) {
    return fail(ErrorCode::unknown_name, fmt::format("\"{}\" is no tone word", tone), "tone",
                fmt::format("give one of {}", fmt::join(shade_tones(), ", ")));
  }
  const colour::HairLab natural = natural_of(hair::default_ladder().lstar_of(level));
  const double room = chroma_room(natural.l);
  const ColourantFit fit =
      fit_on_white({natural.l, natural.a + room * at->a_offset, natural.b + room * at->b_offset});
  constexpr double kWordsSd = 0.35;  // ln: about a level either way; guess
  constexpr double kToneSd = 0.2;    // ln, of each colourant: some 2 to 3 in a* and b*; guess
  Shade shade = empty_shade(id, dye_class);
  shade.family = at->family;
  shade.strength_sd_ln = kWordsSd;
  for (std::size_t k = 0; k < fit.amounts.size(); ++k) {
    Colourant colourant{effective_colourants()[k], kToneSd};
    for (double& mu : colourant.full) mu *= fit.amounts[k];
    add_colourant(shade, colourant);
  }
  return shade;
}

Result<Shade> shade_from_spectra(const std::string& id, DyeClass dye_class, DyeFamily family,
                                 std::span<const Colourant> colourants, double strength_sd_ln) {
  if (colourants.empty() || colourants.size() > kMostColourants) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} colourants are not 1 to {}", colourants.size(), kMostColourants),
                "colourants", "join those that are alike, or give a clear shade");
  }
  Shade shade = empty_shade(id, dye_class);
  shade.family = family;
  shade.strength_sd_ln = strength_sd_ln;
  for (std::size_t k = 0; k < colourants.size(); ++k) {
    const auto& full = colourants[k].full;
    const bool sound = std::all_of(full.begin(), full.end(),
                                   [](double mu) { return std::isfinite(mu) && mu >= 0; });
    if (!sound || *std::max_element(full.begin(), full.end()) == 0) {
      return fail(ErrorCode::out_of_range, "a colourant needs absorption of 0 or more, some above",
                  fmt::format("colourants[{}]", k), "give its spectrum in 1/cm");
    }
    add_colourant(shade, colourants[k]);
  }
  return shade;
}

DyeFamily family_of_colour(const colour::Spectrum& full) {
  const colour::HairLab lab = on_white(full);
  const colour::HairLab natural = natural_of(std::clamp(lab.l, kLeastNatural, kMostNatural));
  const double a = lab.a - natural.a;
  const double b = lab.b - natural.b;
  // The tone whose offset points the same way; a colour near natural hair counts as brown.
  constexpr double kBrownRadius = 4;  // a*b* units; guess
  if (std::hypot(a, b) < kBrownRadius * chroma_room(lab.l)) return DyeFamily::brown;
  DyeFamily nearest = DyeFamily::brown;
  double best = -2;
  for (const Tone& tone : tones()) {
    const double length = std::hypot(tone.a_offset, tone.b_offset);
    if (length == 0) continue;
    const double cosine = (a * tone.a_offset + b * tone.b_offset) / (length * std::hypot(a, b));
    if (cosine > best) best = cosine, nearest = tone.family;
  }
  return nearest;
}

Shade clear_shade(const std::string& id, DyeClass dye_class) {
  Shade shade = empty_shade(id, dye_class);
  shade.strength_sd_ln = 0;
  return shade;
}

}  // namespace hw::process
