#include "replay_report.h"

#include <fmt/format.h>

#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kIndent = 10;

std::string when(const book::ReplayStep& step) {
  return step.minute ? fmt::format("{:.0f} min", *step.minute) : std::string();
}

std::string heading(const book::ReplayStep& step) {
  using book::StepKind;
  switch (step.kind) {
    case StepKind::asked:
      return "What was known and asked";
    case StepKind::planned:
      return "What was planned";
    case StepKind::bowl:
      return fmt::format("Bowl {} mixed", step.bowl);
    case StepKind::on:
      return fmt::format("Bowl {} on the {}", step.bowl, step.zone);
    case StepKind::check:
      return "A look";
    case StepKind::tested:
      return "A strand tested";
    case StepKind::stretch:
      return "Wet strands stretched";
    case StepKind::rinsed:
      return step.zone.empty() ? "The head rinsed" : fmt::format("The {} rinsed", step.zone);
    case StepKind::pain:
      return "Pain or burning";
    case StepKind::change:
      return "The plan changed";
    case StepKind::result:
      return "How it came out";
    case StepKind::learned:
      return "What was learned";
    case StepKind::finished:
      break;
  }
  return "The client leaves";
}

std::string zone_text(const book::ReplayZone& zone, book::StepKind kind) {
  const std::string band =
      fmt::format("{:.1f} ({:.1f} to {:.1f})", zone.level.mid, zone.level.low, zone.level.high);
  if (!zone.found) return fmt::format("{}: level {}", zone.zone, band);
  if (kind == book::StepKind::asked) {
    return fmt::format("{}: read {:.1f}, believed {}", zone.zone, *zone.found, band);
  }
  if (!zone.held) return fmt::format("{}: read {:.1f}", zone.zone, *zone.found);
  return fmt::format("{}: read {:.1f}, expected {}{}", zone.zone, *zone.found, band,
                     *zone.held ? "" : ", outside the band");
}

std::string ways_text(const book::ReplayStep& step) {
  std::string text;
  for (std::size_t i = 0; i < step.courses.size(); ++i) {
    text += wrapped(step.courses[i].name, kIndent, i == 0 ? "chosen" : "or");
    text += wrapped(step.courses[i].sentence, kIndent);
  }
  for (const book::ReplayWay& way : step.left_out) {
    text += wrapped(way.name, kIndent, "left out");
    for (const process::Refusal& finding : way.findings)
      text += wrapped(finding.text, kIndent, "  -");
  }
  return text;
}

std::string step_text(const book::ReplayStep& step) {
  std::string text = wrapped(heading(step), kIndent, when(step));
  if (step.planned_min) {
    text += wrapped(fmt::format("planned at minute {:.0f}", *step.planned_min), kIndent);
  }
  for (const book::ReplayZone& zone : step.zones) {
    text += wrapped(zone_text(zone, step.kind), kIndent);
  }
  for (const book::ReplayPart& part : step.parts) {
    text += as_it_is(
        fmt::format("{} g ({} g planned) {}", plain(part.poured_g, 1), plain(part.planned_g, 1),
                    part.words.empty() ? part.product : part.words),
        kIndent);
  }
  for (const book::ReplayStop& stop : step.stops) {
    text += wrapped(fmt::format("{}: off at minute {:.0f} in place of {:.0f}", stop.zone,
                                stop.is_min, stop.was_min),
                    kIndent);
  }
  text += ways_text(step);
  for (const std::string& told : step.told) text += wrapped(told, kIndent, "  -");
  for (const process::Refusal& finding : step.findings)
    text += wrapped(finding.text, kIndent, "  !");
  if (!step.wrote.empty()) text += as_it_is(step.wrote, kIndent);
  return text;
}

}  // namespace

std::string replay_report(const book::Replay& replay) {
  std::string text = fmt::format("Visit {}, {}\n", replay.visit, replay.starts_at);
  for (const book::ReplayStep& step : replay.steps) text += '\n' + step_text(step);
  return text + '\n' + closing_text();
}

}  // namespace hw::apps
