#include "huewright/plan/target.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "huewright/colour/difference.h"
#include "huewright/hair/words.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

constexpr double kLevelLow = 1, kLevelHigh = 10;

/// Lower case, without blanks at its ends.
std::string plain(std::string_view word) {
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!word.empty() && blank(word.front())) word.remove_prefix(1);
  while (!word.empty() && blank(word.back())) word.remove_suffix(1);
  std::string lower(word);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

/// Slips of the pen between two words (insert, drop, swap one for another).
std::size_t slips(std::string_view one, std::string_view two) {
  std::vector<std::size_t> row(two.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= one.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= two.size(); ++j) {
      const std::size_t swapped = corner + (one[i - 1] == two[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({swapped, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row.back();
}

std::string nearest_words(std::string_view word, std::span<const Look> looks) {
  constexpr std::size_t kNamed = 3;  // words that a hint names
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const Look& known : looks) near.emplace_back(slips(word, known.word), known.word);
  std::sort(near.begin(), near.end());
  std::string list;
  for (std::size_t i = 0; i < std::min(kNamed, near.size()); ++i) {
    list += (i == 0 ? "" : ", ") + near[i].second;
  }
  return list;
}

Result<double> number_within(const Table& table, std::size_t row, const char* column, double low,
                             double high, const std::string& name) {
  auto value = table.number(row, column);
  if (!value) return value;
  if (!(*value >= low && *value <= high)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} {} lies outside {} to {}", column, *value, low, high),
                fmt::format("{}, row {}", name, row + 1), "correct the row");
  }
  return value;
}

Result<Look> read_look(const Table& table, std::size_t row, const std::string& name) {
  constexpr double kLeastSd = 0.01, kMostSd = 50, kMostChroma = 130;
  Look made;
  for (const auto& [column, field] : {std::pair{"word", &Look::word},
                                      {"note", &Look::note},
                                      {"grade", &Look::grade},
                                      {"source", &Look::source}}) {
    auto text = table.text(row, column);
    if (!text) return tl::unexpected(text.error());
    made.*field = *std::move(text);
  }
  made.word = plain(made.word);
  struct Number {
    const char* column;
    double Look::*field;
    double low, high;
  };
  for (const Number& n : {Number{"level", &Look::level, kLevelLow, kLevelHigh},
                          {"sd_level", &Look::sd_level, kLeastSd, kLevelHigh},
                          {"a", &Look::a, -kMostChroma, kMostChroma},
                          {"sd_a", &Look::sd_a, kLeastSd, kMostSd},
                          {"b", &Look::b, -kMostChroma, kMostChroma},
                          {"sd_b", &Look::sd_b, kLeastSd, kMostSd}}) {
    const auto value = number_within(table, row, n.column, n.low, n.high, name);
    if (!value) return tl::unexpected(value.error());
    made.*n.field = *value;
  }
  return made;
}

/// Half the L* between one sd above and one below a level: the ladder is held at its ends.
double sd_lstar(const hair::Ladder& ladder, double level, double sd) {
  constexpr double kLeast = 0.5;  // L*: no depth is told apart more finely
  return std::max(kLeast, (ladder.lstar_of(level + sd) - ladder.lstar_of(level - sd)) / 2);
}

Result<Target> from_lab(const colour::HairLab& lab, TargetSource source) {
  constexpr double kMostL = 100, kMostChroma = 130;
  if (!(lab.l >= 0 && lab.l <= kMostL && std::abs(lab.a) <= kMostChroma &&
        std::abs(lab.b) <= kMostChroma)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("({}, {}, {}) is no colour of a surface", lab.l, lab.a, lab.b),
                "target", "L* lies within 0 to 100, a* and b* within -130 to 130");
  }
  Target made;
  made.centre = lab;
  made.source = source;
  made.words = hair::sentence(hair::describe(lab));
  // A dark-brown tress moved between readings: scanavez_2000 Table III.
  made.sd_l = 1.19;
  made.sd_a = 0.33;
  made.sd_b = 0.42;
  return made;
}

}  // namespace

const std::vector<Look>& default_looks() {
  static const std::vector<Look> looks = [] {
    auto parsed = parse_looks(tables::looks, "plan/looks.csv");
    HW_CHECK(parsed.has_value());
    return *std::move(parsed);
  }();
  return looks;
}

Result<std::vector<Look>> parse_looks(std::string_view csv, std::string name) {
  const auto table = parse_table(csv, name);
  if (!table) return tl::unexpected(table.error());
  std::vector<Look> looks;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    auto made = read_look(*table, row, name);
    if (!made) return tl::unexpected(made.error());
    const bool twice = std::any_of(looks.begin(), looks.end(),
                                   [&](const Look& known) { return known.word == made->word; });
    if (twice || made->word.empty()) {
      return fail(
          ErrorCode::conflict,
          twice ? fmt::format("\"{}\" stands here twice", made->word) : "a row lacks its word",
          fmt::format("{}, row {}", name, row + 1), "give each look one row with its word");
    }
    looks.push_back(*std::move(made));
  }
  return looks;
}

Result<Target> look(std::string_view word, const hair::Ladder& ladder,
                    std::span<const Look> looks) {
  const std::string asked = plain(word);
  const auto at = std::find_if(looks.begin(), looks.end(),
                               [&](const Look& known) { return known.word == asked; });
  if (at == looks.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("no look is called \"{}\"", asked), "target",
                fmt::format("near it: {}; or add the word to the list of looks",
                            nearest_words(asked, looks)));
  }
  Target made;
  made.centre = {ladder.lstar_of(at->level), at->a, at->b};
  made.sd_l = sd_lstar(ladder, at->level, at->sd_level);
  made.sd_a = at->sd_a;
  made.sd_b = at->sd_b;
  made.words = at->word;
  made.source = TargetSource::look;
  made.note = at->note;
  return made;
}

Result<Target> target_colour(const colour::HairLab& lab) {
  auto made = from_lab(lab, TargetSource::colour);
  if (made) made->sd_l = made->sd_a = made->sd_b = 1;  // guess: a just visible step each way
  return made;
}

Result<Target> target_swatch(const colour::HairLab& lab) {
  return from_lab(lab, TargetSource::swatch);
}

Result<Target> target_last_time(const colour::HairLab& lab) {
  return from_lab(lab, TargetSource::last_time);
}

Result<Target> target_photo(const colour::HairLab& photo) {
  // What photos read above a contact instrument: vaughn_2009, abstract.
  constexpr colour::HairLab kBias{33.42, 3.38, 8.00};
  // Depths that hair has: measured black, and a bare lifted strand (guess).
  constexpr double kDarkest = 18, kLightest = 80;
  auto made = from_lab(photo, TargetSource::photo);
  if (!made) return made;
  made->centre = {std::clamp(photo.l - kBias.l, kDarkest, kLightest), photo.a - kBias.a,
                  photo.b - kBias.b};
  // Guesses: with r of 0.5 to 0.6 most of a photo's spread between heads tells nothing.
  made->sd_l = 12;
  made->sd_a = 5;
  made->sd_b = 8;
  made->words = "a photo in unknown light";
  made->note = "a photo is no measurement: choose a swatch together before anything is mixed";
  return made;
}

Target lighter(const Target& target, double levels, const hair::Ladder& ladder) {
  Target moved = target;
  const double level = ladder.level_of(target.centre.l);
  moved.centre.l += ladder.lstar_of(level + levels) - ladder.lstar_of(level);
  return moved;
}

std::array<TargetPoint, kTargetPoints> target_points(const Target& target) {
  // Three points with the moments of the standard normal up to the fifth: 0 and ±√3.
  static const double out = std::sqrt(3.0);
  const std::array<double, 3> at = {-out, 0, out};
  constexpr std::array<double, 3> kWeight = {1.0 / 6, 2.0 / 3, 1.0 / 6};
  std::array<TargetPoint, kTargetPoints> points;
  std::size_t next = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) {
        points[next++] = {
            {target.centre.l + target.sd_l * at[i], target.centre.a + target.sd_a * at[j],
             target.centre.b + target.sd_b * at[k]},
            kWeight[i] * kWeight[j] * kWeight[k]};
      }
    }
  }
  return points;
}

double expected_de00(const colour::HairLab& got, const Target& target) {
  double sum = 0;
  for (const TargetPoint& point : target_points(target)) {
    sum += point.weight * colour::delta_e_2000(got, point.lab);
  }
  return sum;
}

double sds_off(const colour::HairLab& got, const Target& target) {
  return std::hypot((got.l - target.centre.l) / target.sd_l,
                    (got.a - target.centre.a) / target.sd_a,
                    (got.b - target.centre.b) / target.sd_b);
}

}  // namespace hw::plan
