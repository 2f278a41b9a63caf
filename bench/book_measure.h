#pragma once
// What is measured of one book, and how.
#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "book_salon.h"
#include "huewright/base/result.h"

namespace hw::bench {

/// Caught by main, so that the folder goes.
[[noreturn]] inline void give_up(const std::string& words) {
  throw std::runtime_error(words);
}

template <class T>
T value_of(Result<T> result) {
  if (!result) give_up(one_line(result.error()));
  return *std::move(result);
}

/// Single runs [ms].
struct Samples {
  std::vector<double> wall_ms;
  std::vector<double> processor_ms;  ///< of this thread
  void add(const std::function<void()>& run);
};
/// The smallest that `part` of some times do not exceed. times: not empty.
[[nodiscard]] double at_part(std::vector<double> times, double part);

inline constexpr const char* kFind = "find a client, each letter typed";
inline constexpr const char* kOpen = "open a client with 60 visits";
inline constexpr const char* kOpenPlans = "the same, a plan kept in each visit";
inline constexpr const char* kAppend = "write one fact";
inline constexpr const char* kSync = "write 4 kB and fdatasync, same disk";
inline constexpr const char* kStart = "start the program, find a client";
inline constexpr const char* kColdOpen = "open a client, the file not in memory";
inline constexpr const char* kColdStart = "start the program, the file not in memory";

struct Measured {
  std::map<std::string, Samples> of;  ///< by the names above
  std::size_t looked_for = 0;         ///< people, by a text that few others have
  std::size_t found = 0;
  std::string slowest;  ///< the text whose search took longest
  double fill_s = 0;
  std::int64_t facts = 0;
  double file_mb = 0;
};

/// Finding, opening and writing alone, of a folder that holds this salon.
[[nodiscard]] Measured measured_open(const std::string& folder, const Salon& salon);

/// Fills a new data folder with a salon and measures it. program: huewright.
[[nodiscard]] Measured measured(const std::string& folder, const Salon& salon,
                                const std::string& program);

}  // namespace hw::bench
