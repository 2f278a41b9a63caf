// demo_salon: a data folder with two years of an invented salon in it, to try the program on.
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <thread>

#include "huewright/base/executor.h"
#include "salon.h"

namespace hw::demo {
namespace {

constexpr int kDone = 0, kBroken = 1, kMendable = 2;

int complain(const Error& error) {
  std::fprintf(stderr, "demo_salon: %s\n", one_line(error).c_str());
  return kMendable;
}

int run(int argc, char** argv) {
  SalonWish wish;
  wish.program = HW_VERSION;
  wish.cases = HW_CASES;
  std::string folder;
  std::string until = process::iso_text(
      Date(std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())));
  unsigned threads = std::thread::hardware_concurrency();
  CLI::App program{"Makes a data folder with two years of an invented salon in it."};
  program.add_option("FOLDER", folder, "a folder that is not there yet")->required();
  program.add_option("--clients", wish.clients, "how many; 60 where nothing is said");
  program.add_option("--visits", wish.visits, "how many in all; 400 where nothing is said");
  program.add_option("--seed", wish.seed, "another one makes another salon; 1");
  program.add_option("--until", until, "its last day, as 2025-06-30; today");
  program.add_option("--members", wish.members, "hypotheses of each plan, 64 to 512; 64")
      ->check(CLI::Range(64, 512));
  program.add_option("--threads", threads, "to work on; as many as the machine has")
      ->check(CLI::Range(1, 64));
  program.add_option("--cases", wish.cases, "the folder of heads and shelves to start from");
  try {
    program.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return program.exit(error);
    return complain(
        {ErrorCode::malformed, error.what(), "command line", "demo_salon --help explains"});
  }
  const auto date = process::date_from_iso(until, "--until");
  if (!date) return complain(date.error());
  wish.until = *date;
  const auto book = book::Folder::open(folder);
  if (!book) return complain(book.error());
  const auto executor = make_thread_pool(threads);
  const auto made = make_salon(**book, wish, *executor);
  if (!made) return complain(made.error());
  for (const std::string& fault : made->faults) {
    std::fprintf(stderr, "demo_salon: not planned: %s\n", fault.c_str());
  }
  std::printf("%zu clients, %zu visits, %lld facts in %s, until %s\n", wish.clients, wish.visits,
              static_cast<long long>(made->facts), folder.c_str(), until.c_str());
  return kDone;
}

}  // namespace
}  // namespace hw::demo

int main(int argc, char** argv) {
  try {
    return hw::demo::run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "demo_salon: %s\n", error.what());
    return hw::demo::kBroken;
  }
}
