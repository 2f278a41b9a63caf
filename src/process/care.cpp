#include "huewright/process/care.h"

#include <fmt/format.h>

#include <algorithm>

#include "figures.h"
#include "findings.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "process_tables.h"

namespace hw::process {
namespace {

std::optional<double> number_or_none(const Table& table, std::size_t row, const char* column) {
  if (table.text(row, column)->empty()) return std::nullopt;
  return *table.number(row, column);
}

/// A step without a figure of its own.
CareStep plain(const char* id, std::string words) {
  return {id, std::move(words), 1, 0, 0};
}

CareStep timed(const char* id, const char* figure) {
  const CareFigure& row = care_figure(figure);
  return {id, row.text + ".", 1, row.low, row.high};
}

std::vector<CareStep> after_lightener(WetStretch stretch) {
  const CareFigure& shampoos = care_figure("shampoos_after_lightener");
  const CareFigure& water = care_figure("wash_water");
  std::vector<CareStep> steps;
  steps.push_back(
      plain("rinse", fmt::format("Rinse until the water runs clear, with {}.", water.text)));
  steps.push_back({"shampoo", shampoos.text + ".", static_cast<int>(shampoos.high), 0, 0});
  CareStep treatment = timed("mask", "mask");
  if (meaning_of(stretch) == StretchMeaning::lacks_protein) treatment.id = "protein";
  treatment.words = treatment_words(stretch);
  steps.push_back(treatment);
  steps.push_back(
      plain("detangle", "Detangle from the ends up in sections, with slip in and few strokes."));
  steps.push_back(plain("towel", "Press the water out with a towel; do not rub."));
  steps.push_back(plain("read_dry", "Dry a strand of each zone and read it before mixing colour."));
  return steps;
}

std::vector<CareStep> after_remover() {
  const CareFigure& shampoos = care_figure("shampoos_after_lightener");
  return {plain("rinse", "Rinse as long as the remover's label asks; what stays in darkens again."),
          {"shampoo", shampoos.text + ".", static_cast<int>(shampoos.high), 0, 0},
          plain("towel", "Press the water out with a towel; do not rub."),
          plain("read_dry", "Dry a strand of each zone and read how much came off.")};
}

std::vector<CareStep> after_chelator() {
  return {plain("rinse", "Rinse the chelating treatment out well."),
          plain("dry", "Dry the hair again before lightener goes on.")};
}

std::vector<CareStep> after_deposit(std::optional<DyeClass> deposit) {
  std::vector<CareStep> steps;
  steps.push_back(plain("rinse", care_figure("shampoos_after_deposit").text + "."));
  if (deposit == DyeClass::permanent || deposit == DyeClass::demi) {
    steps.push_back(timed("acid_rinse", "acid_rinse"));
  }
  steps.push_back(
      plain("cool_rinse", fmt::format("End with {}.", care_figure("last_rinse_water").text)));
  return steps;
}

}  // namespace

std::span<const CareFigure> care_figures() {
  static const std::vector<CareFigure> all = [] {
    const Table table = embedded_table(tables::care, "process/care.csv");
    std::vector<CareFigure> rows;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      rows.push_back({*table.text(row, "id"), *table.number(row, "low"), *table.number(row, "high"),
                      *table.text(row, "unit"), *table.text(row, "text"), *table.text(row, "grade"),
                      *table.text(row, "source")});
    }
    return rows;
  }();
  return all;
}

const CareFigure& care_figure(std::string_view id) {
  const auto all = care_figures();
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const auto& row) { return row.id == id; });
  HW_CHECK(at != all.end());
  return *at;
}

Result<WetStretch> judged(const StretchLook& look) {
  constexpr double kFarthest = 200;      // %; nobody stretches a strand to three times its length
  constexpr double kWidestPrinted = 60;  // % wet; one page on hair analysis
  if (!(look.percent >= 0 && look.percent <= kFarthest)) {
    return fail(ErrorCode::out_of_range, "a stretch outside 0 to 200 %", "stretch.percent",
                "say how far it went in per cent of its length");
  }
  const double eye = care_figure("stretch_reading").high;
  const double least = care_figure(look.wet ? "wet_stretch" : "dry_stretch").low - eye;
  if (look.gummy) return WetStretch::gummy;
  if (look.broke && look.percent < least) return WetStretch::snaps;
  const bool too_far = look.wet && look.percent > kWidestPrinted + eye;
  if (too_far || (!look.springs_back && !look.broke)) return WetStretch::stays_stretched;
  return look.broke ? WetStretch::snaps : WetStretch::springs_back;
}

StretchMeaning meaning_of(WetStretch stretch) {
  switch (stretch) {
    case WetStretch::snaps:
      return StretchMeaning::lacks_moisture;
    case WetStretch::stays_stretched:
    case WetStretch::gummy:
      return StretchMeaning::lacks_protein;
    case WetStretch::springs_back:
    case WetStretch::not_tested:
      break;
  }
  return StretchMeaning::balanced;
}

std::string treatment_words(WetStretch stretch) {
  switch (meaning_of(stretch)) {
    case StretchMeaning::lacks_protein:
      return "It stretches and stays: a protein treatment by itself, never blended, then moisture.";
    case StretchMeaning::lacks_moisture:
      return "It snaps with little stretch: a moisture mask, and no protein today.";
    case StretchMeaning::balanced:
      break;
  }
  return "It stretches and returns: a moisture mask is enough.";
}

std::vector<CareStep> care_after(After what, WetStretch stretch, std::optional<DyeClass> deposit) {
  switch (what) {
    case After::remover:
      return after_remover();
    case After::chelator:
      return after_chelator();
    case After::lightener:
      return after_lightener(stretch);
    case After::deposit:
      return after_deposit(deposit);
    case After::nothing_yet:
      break;
  }
  return {};
}

WashOrder wash_order() {
  return {static_cast<int>(care_figure("shampoos_after_lightener").high),
          static_cast<int>(care_figure("shampoos_after_deposit").high)};
}

std::vector<Refusal> check_blend(std::span<const Ingredient> parts, const RuleSettings& settings) {
  const auto has = [&](PartKind kind) {
    return std::any_of(parts.begin(), parts.end(), [&](const auto& p) { return p.kind == kind; });
  };
  const bool oxidative = has(PartKind::developer) || has(PartKind::lightener);
  bool blended = false;
  bool unlabelled = false;
  for (const Ingredient& part : parts) {
    blended = blended || (part.protein && parts.size() > 1);
    const bool of_colour = part.kind == PartKind::colour || part.kind == PartKind::developer ||
                           part.kind == PartKind::lightener;
    const bool of_soap_cap =
        !has(PartKind::colour) && (part.kind == PartKind::shampoo || part.kind == PartKind::water);
    unlabelled = unlabelled || (oxidative && !of_colour && !of_soap_cap && !part.label_allows);
  }
  Findings found(settings);
  found.raise_if("protein_treatment_blended", blended);
  found.raise_if("added_without_label", unlabelled);
  return found.list();
}

std::vector<Refusal> check_colour_bowl(std::span<const Canvas> zones, DyeClass deposit,
                                       const RuleSettings& settings) {
  Findings found(settings);
  for (const Canvas& zone : zones) {
    found.raise_if("zone_not_read_dry", !zone.read_dry);
    found.raise_if("canvas_not_clean", !zone.cleansed && deposit != DyeClass::permanent);
  }
  return found.list();
}

std::vector<Refusal> check_colour_reach(const ColourReach& reach, const RuleSettings& settings) {
  Findings found(settings);
  if (reach.old_colour) found.raise_beyond("old_colour_not_lifted", reach.levels_lighter);
  if (reach.formula_level) found.raise_beyond("colour_alone_cannot", *reach.formula_level);
  return found.list();
}

std::span<const Dispute> disputes() {
  static const std::vector<Dispute> all = [] {
    const Table table = embedded_table(tables::disputed, "process/disputed.csv");
    std::vector<Dispute> rows;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      rows.push_back({*table.text(row, "id"), *table.text(row, "question"),
                      number_or_none(table, row, "low"), number_or_none(table, row, "high"),
                      *table.text(row, "unit"), *table.text(row, "one_side"),
                      *table.text(row, "other_side"), *table.text(row, "house"),
                      *table.text(row, "source")});
    }
    return rows;
  }();
  return all;
}

double weeks_of_washing(double washes, double per_week) {
  HW_CHECK(washes >= 0 && per_week > 0);
  return washes / per_week;
}

}  // namespace hw::process
