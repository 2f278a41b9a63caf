// What a plan costs: three zones, a shelf of 60 colours; cold, with the head known, and anew after
// a check; its parts; the memory it takes.
#include "huewright/plan/plan.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "goals.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/json.h"
#include "plan_parts.h"
#include "precision.h"

namespace {

using namespace hw;

constexpr int kRepeats = 9;
constexpr unsigned kThreads = 2;  // the goals are stated for two cores
constexpr std::size_t kColours = 60;

[[noreturn]] void give_up(const std::string& words) {
  fmt::print(stderr, "bench_plan: {}\n", words);
  std::exit(1);
}

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  if (!file) give_up("cannot read " + path + "; run it in the repository's folder");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

template <class T>
T value_of(Result<T> result) {
  if (!result) give_up(one_line(result.error()));
  return *std::move(result);
}

/// A case of cases/ with the large shelf, filled up to kColours.
plan::Case case_of(const std::string& name) {
  auto file = value_of(wire::decode<wire::CaseFile>(text_of("cases/" + name)));
  file.head.shelf =
      value_of(wire::decode<wire::ShelfFile>(text_of("cases/shelves/large.json"))).shelf;
  std::size_t colours = 0;
  std::vector<process::Product> permanent;
  for (const process::Product& product : file.head.shelf) {
    if (product.kind != process::PartKind::colour) continue;
    ++colours;
    if (product.dye_class == process::DyeClass::permanent && product.tone != "clear") {
      permanent.push_back(product);
    }
  }
  for (std::size_t i = 0; colours < kColours && i < permanent.size(); ++i, ++colours) {
    process::Product between = permanent[i];
    between.id += " and a half";
    between.level += 0.5;
    file.head.shelf.push_back(between);
  }
  return value_of(wire::ready(file));
}

struct Measured {
  bench::Timing cold, known, again;
  std::size_t examined = 0;
  std::size_t courses = 0;
};

/// A look at the zone that the first bowl goes on first, twenty minutes later.
std::vector<plan::CheckReading> readings_of(const plan::Case& head, const plan::HeadPlan& before) {
  const auto& zones = before.courses.front().bowls.front().zones;
  const auto earliest = std::min_element(
      zones.begin(), zones.end(),
      [](const auto& a, const auto& b) { return a.times.apply_at < b.times.apply_at; });
  plan::CheckReading reading;
  reading.minute = earliest->times.apply_at + 20;
  reading.zone = head.zones[earliest->zone].name;
  reading.level = 4;
  return {reading};
}

Measured measured(const plan::Case& head, Executor& executor) {
  Measured found;
  plan::HeadPlan answer;
  found.cold =
      bench::median_timing(kRepeats, [&] { answer = value_of(plan_head(head, executor)); });
  found.examined = answer.examined;
  found.courses = answer.courses.size();
  plan::HeadPlan known;
  found.known = bench::median_timing(
      kRepeats, [&] { known = value_of(plan::plan_believed(head, answer.zones, executor)); });
  if (answer.courses.empty()) give_up(head.title + " has no course");
  const auto readings = readings_of(head, answer);
  found.again = bench::median_timing(kRepeats, [&] {
    const auto replanned = plan_again(head, answer, 0, readings, executor);
    if (!replanned) give_up(one_line(replanned.error()));
  });
  return found;
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;  // kB on Linux
}

void goal(const std::string& work, double most, const char* unit, double got) {
  bench::report_goal({work, fmt::format("≤ {:g} {}", most, unit),
                      fmt::format("{:.0f} {}", got, unit), got <= most, "", ""});
}

}  // namespace

int main() {
  const plan::Case head = case_of("32-two-hands.json");
  const auto pool = make_thread_pool(kThreads);
  // First of all: the peak so far is that of one plan and of what it was read from.
  const auto first = value_of(plan_head(head, *pool));
  const double memory_mb = peak_mb();
  InlineExecutor one;
  const Measured alone = measured(head, one);
  const Measured shared = measured(head, *pool);
  const auto name = [&](const char* what) {
    return fmt::format("{}, {} zones, {} colours, {} threads", what, head.zones.size(), kColours,
                       kThreads);
  };
  fmt::print("## Plan\n\n\"{}\" with {} colours on the shelf: {} courses examined, {} shown.\n\n",
             head.title, kColours, shared.examined, shared.courses);
  fmt::print(
      "| work | 1 thread, processor [ms] | {} threads, wall [ms] | cores |\n|---|--:|--:|--:|\n",
      kThreads);
  const auto row = [&](const char* what, const bench::Timing& a, const bench::Timing& b) {
    fmt::print("| {} | {:.0f} | {:.0f} | {:.1f} |\n", what, a.processor_ms, b.wall_ms,
               b.processor_ms / b.wall_ms);
  };
  row("plan, cold", alone.cold, shared.cold);
  row("plan, head known", alone.known, shared.known);
  row("plan again after a look at one zone", alone.again, shared.again);
  fmt::print("\n| zones | members | plan, cold, 1 thread [ms] |\n|--:|--:|--:|\n");
  for (const std::size_t zones : {1, 2, 3}) {
    for (const std::size_t members : {128, 512, 1024}) {
      plan::Case part = head;
      part.zones.resize(zones);
      part.members = members;
      const auto timing = bench::median_timing(3, [&] { (void)value_of(plan_head(part, one)); });
      fmt::print("| {} | {} | {:.0f} |\n", zones, members, timing.processor_ms);
    }
  }
  goal(name("plan, cold"), 400, "ms", shared.cold.wall_ms);
  goal(name("plan, head known"), 150, "ms", shared.known.wall_ms);
  goal(name("plan again after a check"), 50, "ms", shared.again.wall_ms);
  goal("memory of a plan, at its peak", 64, "MB", memory_mb);
  bench::report_goal({"courses examined by a plan", "≥ 200", std::to_string(shared.examined),
                      shared.examined >= 200, "", ""});
  return 0;
}
