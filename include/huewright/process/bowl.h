#pragma once
// What stands in a bowl, in grams, and what the ready mix holds of it. Mass balance only:
//   peroxide % of the mix = Σ mᵢ·cᵢ / Σ mᵢ
// Sums are made first and divided once, and each percentage is rounded to 1e-9 (kMixSteps), so
// that 30 + 60·6 % + 30 + 30 prints 2.4 and a mix of exactly 12 % is not lifted over a limit by
// rounding noise. One billionth of a per cent is far below what a salon scale resolves.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/base/units.h"

namespace hw::process {

/// What a part of a bowl is.
enum class PartKind {
  lightener,
  developer,
  shampoo,
  conditioner,
  water,
  colour,
  treatment,
  remover,   ///< reduces old artificial dye; no peroxide
  chelator,  ///< takes minerals out
};

/// The word a bowl file uses for a kind, such as "lightener".
[[nodiscard]] std::string_view name_of(PartKind kind);

/// The kind a word means; empty when no kind has that word.
[[nodiscard]] std::optional<PartKind> part_kind_of(std::string_view word);

/// One thing poured into a bowl.
struct Part {
  PartKind kind = PartKind::water;
  Grams grams{};                         ///< > 0, at most kMaxPartGrams
  std::optional<Percent> peroxide = {};  ///< by mass, 0 to 100; developer must say, colour may
  bool for_scalp = false;                ///< lightener: its label allows the scalp
  std::optional<double> ph = {};         ///< 0 to 14, when the label or a strip says
};

/// A bowl as it was weighed. Order of the parts does not change the mix.
struct Bowl {
  std::vector<Part> parts = {};
  bool on_scalp = false;  ///< the mix touches the scalp
};

/// What the ready mix holds.
struct Mix {
  Grams grams{};       ///< whole mass
  Percent peroxide{};  ///< hydrogen peroxide, by mass
  double volume = 0;   ///< strength as labels count it: per cent × 10/3, nominal
  Percent powder{};    ///< lightener's share of the mass
  Grams lightener{};   ///< mass of all lighteners
  Grams developer{};   ///< mass of all parts that bring peroxide
  Grams shampoo{};     ///< mass of all shampoos
  /// Mass mean over the parts that bring peroxide; empty when there is none.
  std::optional<Percent> developer_peroxide_mean = {};
  /// Strongest single part; empty when nothing brings peroxide.
  std::optional<Percent> strongest_bottle = {};
  bool has_persulfate = false;           ///< holds a lightener; each is taken to hold persulfate
  bool has_off_scalp_lightener = false;  ///< holds a lightener whose label keeps it off the scalp
  bool has_oxidative_colour = false;     ///< holds colour and peroxide
};

/// Heaviest part that is believed [g]; more is a slip of the pen. Source: house rule, no source.
inline constexpr double kMaxPartGrams = 10000;

/// Steps in one per cent to which a mix is rounded [1]. Source: house rule, see above.
inline constexpr double kMixSteps = 1e9;

/// What the mix of a bowl holds. The peroxide of every part counts by its entered percentage and
/// everything else counts as 0 %; nothing is lost and nothing reacts.
/// where: what errors put before "parts[1].grams", such as "bowl"; may be empty.
/// Errors: no part; grams not a number, ≤ 0 or > kMaxPartGrams; a developer without its percentage;
/// a percentage outside 0 to 100; a percentage above 0 on a part that is neither developer nor
/// colour; for_scalp on anything but a lightener; pH outside 0 to 14.
/// Source: mass balance. Example: lightener 30 g, developer 60 g at 6 %, shampoo 30 g, water 30 g
/// give 150 g, 2.4 %, volume 8, powder 20 %.
[[nodiscard]] Result<Mix> mix_bowl(const Bowl& bowl, const std::string& where = {});

}  // namespace hw::process
