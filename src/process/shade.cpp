#include "huewright/process/shade.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/tress.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kReferenceUm = 70;  // strand of the reference application
constexpr std::array kClassWords = {"direct", "cationic", "demi", "permanent"};

Table sealed(std::string_view text, const char* name) {
  auto table = parse_table(text, name);
  HW_CHECK(table.has_value());
  return *std::move(table);
}

struct Tone {
  std::string word;
  double a_offset, b_offset;
  DyeFamily family;
};

DyeFamily family_named(const std::string& word) {
  constexpr std::array kWords = {"red", "copper", "brown", "violet", "blue", "yellow"};
  const auto at = std::find(kWords.begin(), kWords.end(), word);
  HW_CHECK(at != kWords.end());
  return static_cast<DyeFamily>(at - kWords.begin());
}

const std::vector<Tone>& tones() {
  static const std::vector<Tone> all = [] {
    const Table table = sealed(tables::shade_tones, "process/shade_tones.csv");
    std::vector<Tone> list;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      list.push_back({*table.text(row, "tone"), *table.number(row, "a_offset"),
                      *table.number(row, "b_offset"), family_named(*table.text(row, "family"))});
    }
    return list;
  }();
  return all;
}

/// Absorption [1/cm] of given amounts of the three colourants.
colour::Spectrum mixed(const std::array<double, 3>& amounts) {
  colour::Spectrum sum{};
  for (std::size_t k = 0; k < amounts.size(); ++k) {
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      sum[i] += amounts[k] * effective_colourants()[k][i];
    }
  }
  return sum;
}

colour::HairLab on_white(const std::array<double, 3>& amounts) {
  static const colour::Spectrum bare = hair::base_absorption(hair::kWhiteBase);
  colour::Spectrum mu = mixed(amounts);
  for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += bare[i];
  return colour::lab_of(hair::tress_reflectance(mu, Micrometres(kReferenceUm), hair::kSurfaceTerm));
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
  // Pattern search in the roots of the amounts: smooth, and never negative.
  std::array<double, 3> root = {6, 6, 6};
  const auto miss = [&](const std::array<double, 3>& r) {
    return colour::delta_e_76(wanted, on_white({r[0] * r[0], r[1] * r[1], r[2] * r[2]}));
  };
  double best = miss(root);
  double step = 4;
  constexpr int kHalvings = 14;  // to 0.0002 of a root
  for (int halving = 0; halving < kHalvings; ++halving, step /= 2) {
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t k = 0; k < 6; ++k) {
        std::array<double, 3> tried = root;
        tried[k / 2] = std::max(0.0, tried[k / 2] + (k % 2 == 0 ? step : -step));
        const double value = miss(tried);
        if (value < best - 1e-12) {
          best = value;
          root = tried;
          moved = true;
        }
      }
    }
  }
  return {{root[0] * root[0], root[1] * root[1], root[2] * root[2]}, best};
}

const ClassFacts& class_facts(DyeClass dye_class) {
  static const std::vector<ClassFacts> all = [] {
    const Table table = sealed(tables::dye_classes, "process/dye_classes.csv");
    HW_CHECK(table.rows() == kClassWords.size());
    std::vector<ClassFacts> list;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      HW_CHECK(*table.text(row, "class") == kClassWords[row]);
      list.push_back({static_cast<DyeClass>(row), kClassWords[row],
                      *table.number(row, "radius_angstrom"), *table.number(row, "biot"),
                      *table.number(row, "developer_parts"), *table.number(row, "label_min"),
                      *table.number(row, "unclean"), *table.number(row, "lightened_gain")});
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
  Shade shade;
  shade.id = id;
  shade.dye_class = dye_class;
  shade.family = at->family;
  shade.full = mixed({fit.amounts[0], fit.amounts[1], fit.amounts[2]});
  shade.strength_sd_ln = kWordsSd;
  shade.developer_parts = class_facts(dye_class).developer_parts;
  shade.label_min = class_facts(dye_class).label_min;
  return shade;
}

Shade clear_shade(const std::string& id, DyeClass dye_class) {
  Shade shade;
  shade.id = id;
  shade.dye_class = dye_class;
  shade.strength_sd_ln = 0;
  shade.developer_parts = class_facts(dye_class).developer_parts;
  shade.label_min = class_facts(dye_class).label_min;
  return shade;
}

}  // namespace hw::process
