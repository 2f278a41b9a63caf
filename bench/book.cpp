// What the book costs when it is large: finding a client while typing, opening one, writing a fact,
// starting the program; how each grows from a book of a hundredth; and the same on PostgreSQL.
#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "book_measure.h"
#include "book_server.h"
#include "goals.h"
#include "huewright/book/planning.h"
#include "huewright/book/transfer.h"
#include "huewright/plan/plan.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/json.h"

namespace {

using namespace hw;
using bench::at_part;
using bench::give_up;
using bench::Measured;
using bench::Salon;
using bench::value_of;
namespace fs = std::filesystem;

constexpr std::size_t kFullClients = 200000;
constexpr std::size_t kGrowth = 100;  // the full book has as many times more than the small one
constexpr std::size_t kFewestSmall = 400;  // clients; has room for 20 regulars
// What it takes on disk, rounded up from what was measured [bytes].
constexpr double kPerClient = 40e3;
constexpr double kBeside = 1e9;  // the small book, its export and its import

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  if (!file) give_up("cannot read " + path + "; run it in the repository's folder");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A folder that goes when the program ends.
class Home {
 public:
  explicit Home(const std::string& under) {
    std::string name = under + "/huewright-bench-XXXXXX";
    if (mkdtemp(name.data()) == nullptr) give_up("cannot make a folder in " + under);
    path_ = name;
  }
  ~Home() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Home(const Home&) = delete;
  Home& operator=(const Home&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

struct Goal {
  const char* work;
  double most_ms;  ///< 0: no goal
  bool waits;      ///< for the disk or another process: the clock on the wall counts
};
constexpr std::array kGoals{Goal{bench::kFind, 30, false},      Goal{bench::kOpen, 20, false},
                            Goal{bench::kOpenPlans, 20, false}, Goal{bench::kAppend, 20, true},
                            Goal{bench::kSync, 0, true},        Goal{bench::kStart, 300, true},
                            Goal{bench::kColdOpen, 0, true},    Goal{bench::kColdStart, 0, true}};

constexpr double kP99 = 0.99;

/// What is held against the goal [ms].
double counted_ms(const Goal& goal, const bench::Samples& samples) {
  return at_part(goal.waits ? samples.wall_ms : samples.processor_ms, kP99);
}

void print_row(const Goal& goal, const Measured& small, const Measured& full) {
  const bench::Samples& now = full.of.at(goal.work);
  const double median = at_part(now.wall_ms, 0.5);
  const double before = at_part(small.of.at(goal.work).wall_ms, 0.5);
  const bool has = goal.most_ms > 0;
  const bool met = counted_ms(goal, now) <= goal.most_ms;
  fmt::print("| {} | {} | {:.2f} | {:.2f} | {} | {} | {} | {:.2f} | {:.1f} |\n", goal.work,
             now.wall_ms.size(), median, at_part(now.wall_ms, kP99),
             goal.waits ? "–" : fmt::format("{:.2f}", at_part(now.processor_ms, kP99)),
             has ? fmt::format("≤ {:g}", goal.most_ms) : "–", has ? (met ? "yes" : "no") : "–",
             before, median / before);
}

void print_table(const Measured& small, const Measured& full) {
  fmt::print(
      "| work | runs | median [ms] | 99 % [ms] | 99 %, processor [ms] | goal, 99 % [ms] | met "
      "| small book, median [ms] | growth |\n|---|--:|--:|--:|--:|--:|---|--:|--:|\n");
  for (const Goal& goal : kGoals) print_row(goal, small, full);
}

void report(const Measured& full) {
  const double bare = at_part(full.of.at(bench::kSync).wall_ms, kP99);
  for (const Goal& goal : kGoals) {
    if (goal.most_ms <= 0) continue;
    const double counts = counted_ms(goal, full.of.at(goal.work));
    const bool writes = goal.work == std::string_view(bench::kAppend);
    bench::report_goal({fmt::format("{}, 99 of 100, {:.0f} MB of book", goal.work, full.file_mb),
                        fmt::format("≤ {:g} ms", goal.most_ms), fmt::format("{:.1f} ms", counts),
                        counts <= goal.most_ms,
                        writes ? fmt::format("{:.1f} ms, {}", bare, bench::kSync) : "",
                        writes ? fmt::format("{:.1f}", counts / bare) : ""});
  }
}

/// The small book out, in again, and looked through.
void print_transfer(const std::string& home, const std::string& path, std::size_t clients) {
  const auto folder = value_of(book::Folder::open(path));
  const auto timed = [](const std::function<void()>& run) {
    bench::Samples once;
    once.add(run);
    return once.wall_ms.front() / 1000;
  };
  std::int64_t facts = 0;
  const double out_s = timed([&] { facts = value_of(book::export_book(*folder, home + "/out")); });
  const auto other = value_of(book::Folder::open(home + "/in"));
  const double in_s = timed([&] { (void)value_of(book::import_book(*other, home + "/out")); });
  book::Findings findings;
  const double doctor_s = timed([&] { findings = value_of(folder->store().examine()); });
  if (!findings.empty()) give_up("the small book is not well: " + findings.front());
  if (value_of(other->store().count_facts()) != facts) give_up("import lost facts");
  fmt::print("\n{} clients, {} facts: export {:.1f} s, import {:.1f} s, doctor {:.1f} s.\n",
             clients, facts, out_s, in_s, doctor_s);
}

std::vector<process::Product> shelf_of_file() {
  return value_of(wire::decode<wire::ShelfFile>(text_of("cases/shelves/large.json"))).shelf;
}

/// A salon of 2,000 on both databases, where HW_BENCH_POSTGRESQL names a cluster for it.
void print_pair(const std::string& home, const book::PlanFact& plan) {
  constexpr std::size_t kClients = 2000;
  const char* connection = std::getenv("HW_BENCH_POSTGRESQL");
  if (connection == nullptr) {
    fmt::print("\nPostgreSQL was not measured: HW_BENCH_POSTGRESQL names no cluster.\n");
    return;
  }
  bench::print_servers(home + "/both", connection, Salon(kClients, shelf_of_file(), plan));
}

std::size_t wanted_clients() {
  const char* said = std::getenv("HW_BOOK_CLIENTS");
  if (said == nullptr) return kFullClients;
  const long long count = std::atoll(said);
  constexpr long long kFewest = 2000;
  constexpr long long kMost = 1000000;
  if (count < kFewest || count > kMost) {
    give_up(fmt::format("HW_BOOK_CLIENTS is {}; give {} to {}", said, kFewest, kMost));
  }
  return static_cast<std::size_t>(count);
}

/// A plan as a visit keeps it.
book::PlanFact plan_of_file() {
  auto file = value_of(wire::decode<wire::CaseFile>(text_of("cases/01-coils-to-mahogany.json")));
  file.head.shelf = shelf_of_file();
  const auto head = value_of(wire::ready(file));
  InlineExecutor one;
  return book::plan_fact("bench", file, {head, value_of(plan::plan_head(head, one))}, 1);
}

void run() {
  const std::size_t clients = wanted_clients();
  const Home home(fs::temp_directory_path().string());
  const double need = kPerClient * static_cast<double>(clients) + kBeside;
  if (static_cast<double>(fs::space(home.path()).available) < need) {
    give_up(
        fmt::format("{:.1f} GB are needed in {}; set TMPDIR to a folder with room, or "
                    "HW_BOOK_CLIENTS to fewer clients",
                    need / 1e9, fs::temp_directory_path().string()));
  }
  const book::PlanFact plan = plan_of_file();
  const std::size_t few = std::max(kFewestSmall, clients / kGrowth);
  const Salon small_salon(few, shelf_of_file(), plan);
  const Salon full_salon(clients, shelf_of_file(), plan);
  const Measured small = bench::measured(home.path() + "/small", small_salon, HW_PROGRAM);
  const Measured full = bench::measured(home.path() + "/full", full_salon, HW_PROGRAM);
  const double plan_kb = static_cast<double>(plan.case_json.size() + plan.answer_json.size()) / 1e3;
  fmt::print(
      "## Book\n\n{} clients, {} visits, {} facts, {:.0f} MB, filled in {:.0f} s; the small book "
      "beside it: {} clients, {} visits. A plan kept is {:.0f} kB.\nTimes are the wall clock's. "
      "The "
      "goals of what waits for no disk and no other process count processor time,\nwhich leaves "
      "out "
      "what the machine did for others.\n\n",
      clients, full_salon.visits(), full.facts, full.file_mb, full.fill_s, few,
      small_salon.visits(), plan_kb);
  print_table(small, full);
  fmt::print(
      "\n{} of {} people looked for were found by the whole of what was typed. Slowest text: "
      "\"{}\".\n",
      full.found, full.looked_for, full.slowest);
  print_transfer(home.path(), home.path() + "/small", few);
  print_pair(home.path(), plan);
  report(full);
}

}  // namespace

int main() {
  try {
    run();
  } catch (const std::exception& problem) {
    fmt::print(stderr, "bench_book: {}\n", problem.what());
    return 1;
  }
  return 0;
}
