#include "book_measure.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ctime>
#include <filesystem>

#include "book_fill.h"
#include "huewright/book/client.h"
#include "huewright/book/folder.h"
#include "huewright/book/planning.h"

extern char** environ;

namespace hw::bench {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostShown = 50;   // of one search, as the command line has it
constexpr std::size_t kTyped = 150;      // people who are looked for
constexpr std::size_t kAppended = 1000;  // facts, one by one
constexpr std::size_t kStarts = 41;

double processor_now_ms() {
  constexpr double kMsPerS = 1e3;
  constexpr double kNsPerMs = 1e6;
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * kMsPerS + static_cast<double>(now.tv_nsec) / kNsPerMs;
}

double ms_since(std::chrono::steady_clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
      .count();
}

/// Every start of a text, by whole letters.
std::vector<std::string> starts_of(const std::string& text) {
  std::vector<std::string> starts;
  for (std::size_t end = 1; end <= text.size(); ++end) {
    const bool inside =
        end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U;
    if (!inside) starts.push_back(text.substr(0, end));
  }
  return starts;
}

/// What somebody may type for a person: the whole name, the phone, the family name first, its
/// inside, the last digits of the phone with a name.
std::vector<std::string> texts_for(const book::PersonFact& person) {
  const std::size_t space = person.name.find(' ');
  const std::string given = person.name.substr(0, space);
  const std::string family = person.name.substr(space + 1);
  const std::string digits = person.phone.substr(person.phone.size() - 4);
  std::string inside = family.substr(family.size() / 2);
  while (!inside.empty() && (static_cast<unsigned char>(inside[0]) & 0xC0U) == 0x80U) {
    inside.erase(0, 1);
  }
  return {person.name, person.phone, family + ' ' + given, inside, digits, given + ' ' + digits};
}

void measure_find(book::Store& store, const Salon& salon, Measured& measured) {
  const Draws draws(7);
  double longest = 0;
  Samples& samples = measured.of[kFind];
  for (std::size_t k = 0; k < kTyped; ++k) {
    const std::size_t i = draws.below(salon.clients(), 0, k);
    const std::string id = salon.client_id(i);
    const book::PersonFact person = salon.person(i);
    const auto texts = texts_for(person);
    for (const std::string& text : texts) {
      std::vector<book::ClientLine> found;
      for (const std::string& typed : starts_of(text)) {
        samples.add([&] { found = value_of(store.find_clients(typed, kMostShown)); });
        if (samples.wall_ms.back() > longest) {
          longest = samples.wall_ms.back();
          measured.slowest = typed;
        }
      }
      // More than fit on a screen may have that name; a name and four digits are enough.
      if (&text != &texts.back() && found.size() == kMostShown) continue;
      ++measured.looked_for;
      measured.found += std::ranges::any_of(found, [&](const auto& c) { return c.id == id; });
    }
  }
}

/// Who the client is, and every visit they had.
void open_client(book::Store& store, const std::string& id) {
  const auto client = book::client_of(value_of(store.facts_of(book::About::client, id)));
  const auto visits = value_of(book::visits_but_plans(store, id));
  (void)value_of(store.strips_of(id));
  if (client.person.name.empty() || visits.size() != kVisitsOfRegular) {
    give_up("a regular has another name or count of visits than was written");
  }
}

void measure_open(book::Store& store, const Salon& salon, Measured& measured) {
  constexpr std::size_t kLeast = 200;  // openings of each sort
  const std::size_t half = salon.regulars() / 2;
  for (std::size_t k = 0; k < std::max(kLeast, half); ++k) {
    const std::size_t with_plans = k % half;
    measured.of[kOpenPlans].add([&] { open_client(store, salon.client_id(with_plans)); });
    measured.of[kOpen].add([&] { open_client(store, salon.client_id(half + with_plans)); });
  }
}

/// Takes a file out of the memory of the system.
void forget(const std::string& file) {
  const int handle = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (handle < 0 || ::fdatasync(handle) != 0 ||
      ::posix_fadvise(handle, 0, 0, POSIX_FADV_DONTNEED) != 0) {
    give_up("cannot put " + file + " out of memory");
  }
  ::close(handle);
}

void measure_cold_open(const std::string& path, const Salon& salon, Measured& measured) {
  constexpr std::size_t kRuns = 20;
  const std::size_t half = salon.regulars() / 2;
  for (std::size_t k = 0; k < kRuns; ++k) {
    forget(path + "/book.db");
    const auto folder = value_of(book::Folder::open(path));
    measured.of[kColdOpen].add(
        [&] { open_client(folder->store(), salon.client_id(half + k % half)); });
  }
}

/// A fact of each of the day's visits in turn, and the bare disk in between.
void measure_append(const std::string& path, book::Store& store, const Salon& salon,
                    Measured& measured) {
  constexpr std::size_t kAtOnce = 20;  // visits under way
  const std::string file = path + "/bare";
  const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
  if (handle < 0) give_up("cannot write " + file);
  const std::string page(4096, 'h');  // as much as one page of a log
  for (std::size_t i = 0; i < kAppended; ++i) {
    const book::Fact fact = salon.fact_under_way(salon.visits() - 1 - i % kAtOnce, i);
    measured.of[kAppend].add([&] { (void)value_of(store.append({&fact, 1})); });
    measured.of[kSync].add([&] {
      if (::write(handle, page.data(), page.size()) < 0 || ::fdatasync(handle) != 0) {
        give_up("cannot write " + file);
      }
    });
  }
  ::close(handle);
}

void start_program(const std::string& program, const std::string& path) {
  std::vector<std::string> words{program, "client", "find", "x", "--book", path};
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  int state = 0;
  if (posix_spawn(&child, program.c_str(), &actions, nullptr, arguments.data(), environ) != 0 ||
      waitpid(child, &state, 0) != child || state != 0) {
    give_up("cannot run " + program);
  }
  posix_spawn_file_actions_destroy(&actions);
}

void measure_start(const std::string& program, const std::string& path, Measured& measured) {
  for (std::size_t i = 0; i < kStarts; ++i) {
    measured.of[kStart].add([&] { start_program(program, path); });
  }
  for (std::size_t i = 0; i < kStarts / 2; ++i) {
    forget(path + "/book.db");
    measured.of[kColdStart].add([&] { start_program(program, path); });
  }
}

}  // namespace

void Samples::add(const std::function<void()>& run) {
  const auto begin = std::chrono::steady_clock::now();
  const double processor = processor_now_ms();
  run();
  processor_ms.push_back(processor_now_ms() - processor);
  wall_ms.push_back(ms_since(begin));
}

double at_part(std::vector<double> times, double part) {
  std::ranges::sort(times);
  const double rank = std::ceil(part * static_cast<double>(times.size()));
  return times[static_cast<std::size_t>(std::max(rank, 1.0)) - 1];
}

Measured measured_open(const std::string& folder, const Salon& salon) {
  Measured measured;
  const auto open = value_of(book::Folder::open(folder));
  measure_find(open->store(), salon, measured);
  measure_open(open->store(), salon, measured);
  measure_append(folder, open->store(), salon, measured);
  return measured;
}

Measured measured(const std::string& folder, const Salon& salon, const std::string& program) {
  const auto begin = std::chrono::steady_clock::now();
  const std::int64_t facts = value_of(fill(folder, salon));
  const double fill_s = ms_since(begin) / 1000;
  const double file_mb = static_cast<double>(fs::file_size(folder + "/book.db")) / 1e6;
  Measured measured = measured_open(folder, salon);
  measured.facts = facts;
  measured.fill_s = fill_s;
  measured.file_mb = file_mb;
  measure_start(program, folder, measured);
  measure_cold_open(folder, salon, measured);
  return measured;
}

}  // namespace hw::bench
