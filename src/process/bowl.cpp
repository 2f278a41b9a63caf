#include "huewright/process/bowl.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace hw::process {
namespace {

constexpr std::array<std::pair<PartKind, std::string_view>, 9> kKindWords{{
    {PartKind::lightener, "lightener"},
    {PartKind::developer, "developer"},
    {PartKind::shampoo, "shampoo"},
    {PartKind::conditioner, "conditioner"},
    {PartKind::water, "water"},
    {PartKind::colour, "colour"},
    {PartKind::treatment, "treatment"},
    {PartKind::remover, "remover"},
    {PartKind::chelator, "chelator"},
}};

/// The double nearest to a percentage with nine decimals.
double rounded(double percent) {
  return std::round(percent * kMixSteps) / kMixSteps;
}

bool brings_peroxide(const Part& part) {
  return part.kind == PartKind::developer || (part.peroxide && part.peroxide->value() > 0);
}

/// The first fault of a part, or nothing. where: path of the part.
Result<void> check_part(const Part& part, const std::string& where) {
  const double grams = part.grams.value();
  if (!(grams > 0) || grams > kMaxPartGrams) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{:.10g} g is outside 0 to {} g", grams, kMaxPartGrams),
                where + ".grams", "give what was weighed, more than 0");
  }
  if (part.kind == PartKind::developer && !part.peroxide) {
    return fail(ErrorCode::missing, "the developer's strength is missing",
                where + ".peroxide_percent", "copy the percentage from the bottle, such as 6");
  }
  if (part.peroxide) {
    const double percent = part.peroxide->value();
    if (!(percent >= 0 && percent <= 100)) {
      return fail(ErrorCode::out_of_range, fmt::format("{:.10g} % is outside 0 to 100", percent),
                  where + ".peroxide_percent", "give per cent by mass; 20 volume is 6");
    }
    const bool may_hold = part.kind == PartKind::developer || part.kind == PartKind::colour;
    if (percent > 0 && !may_hold) {
      return fail(ErrorCode::conflict, fmt::format("a {} brings no peroxide", name_of(part.kind)),
                  where + ".peroxide_percent", "enter it as a developer");
    }
  }
  if (part.for_scalp && part.kind != PartKind::lightener) {
    return fail(ErrorCode::conflict, fmt::format("is set on a {}", name_of(part.kind)),
                where + ".for_scalp", "only a lightener has it");
  }
  if (part.ph && !(*part.ph >= 0 && *part.ph <= 14)) {
    return fail(ErrorCode::out_of_range, fmt::format("pH {:.10g} is outside 0 to 14", *part.ph),
                where + ".ph", "give the pH of the label or strip");
  }
  return {};
}

}  // namespace

std::string_view name_of(PartKind kind) {
  for (const auto& [known, word] : kKindWords) {
    if (known == kind) return word;
  }
  return "";
}

std::optional<PartKind> part_kind_of(std::string_view word) {
  for (const auto& [kind, known] : kKindWords) {
    if (known == word) return kind;
  }
  return std::nullopt;
}

Result<Mix> mix_bowl(const Bowl& bowl, const std::string& where) {
  const std::string path = where.empty() ? "parts" : where + ".parts";
  if (bowl.parts.empty()) {
    return fail(ErrorCode::missing, "the bowl holds nothing", path, "add what was weighed into it");
  }
  Mix mix;
  double peroxide_sum = 0;  // Σ grams × per cent
  bool holds_colour = false;
  for (std::size_t i = 0; i < bowl.parts.size(); ++i) {
    const Part& part = bowl.parts[i];
    const auto sound = check_part(part, fmt::format("{}[{}]", path, i));
    if (!sound) return tl::unexpected(sound.error());
    mix.grams += part.grams;
    if (part.kind == PartKind::lightener) {
      mix.lightener += part.grams;
      mix.has_persulfate = true;
      mix.has_off_scalp_lightener = mix.has_off_scalp_lightener || !part.for_scalp;
    }
    if (part.kind == PartKind::shampoo) mix.shampoo += part.grams;
    holds_colour = holds_colour || part.kind == PartKind::colour;
    if (!brings_peroxide(part)) continue;
    mix.developer += part.grams;
    peroxide_sum += part.grams.value() * part.peroxide->value();
    mix.strongest_bottle = std::max(mix.strongest_bottle.value_or(Percent(0)), *part.peroxide);
  }
  const double grams = mix.grams.value();
  mix.peroxide = Percent(rounded(peroxide_sum / grams));
  mix.volume = rounded(peroxide_sum * 10 / (3 * grams));  // nominal: per cent × 10/3
  mix.powder = Percent(rounded(mix.lightener.value() * 100 / grams));
  if (mix.developer.value() > 0) {
    mix.developer_peroxide_mean = Percent(rounded(peroxide_sum / mix.developer.value()));
  }
  mix.has_oxidative_colour = holds_colour && mix.peroxide.value() > 0;
  return mix;
}

}  // namespace hw::process
