#pragma once
// How often somebody may ask. Nobody is shut out for good: what is used up comes back with time.
#include <chrono>
#include <map>
#include <mutex>
#include <optional>
#include <string>

#include "pairing.h"

namespace hw::server {

/// At most `most` at once, and as many again in each `within`.
struct Rate {
  double most = 0;
  std::chrono::milliseconds within{1000};
};

/// Rates by key; of any thread.
class Rates {
 public:
  /// Counts one; where it is one too many, how long to wait.
  std::optional<std::chrono::milliseconds> take(const std::string& key, const Rate& rate,
                                                Clock::time_point now);

 private:
  struct Bucket {
    double left = 0;
    Clock::time_point at;
    Clock::time_point full_at;
  };
  std::mutex mutex_;
  std::map<std::string, Bucket> buckets_;
};

/// Waiting after failures by key: `first`, twice that, four times, … to `longest`; of any thread.
class Delays {
 public:
  /// How long a key has still to wait.
  std::optional<std::chrono::milliseconds> left(const std::string& key, Clock::time_point now);
  /// free: failures that cost nothing yet.
  void failed(const std::string& key, unsigned free, Clock::time_point now);
  void succeeded(const std::string& key);

  static constexpr std::chrono::milliseconds kFirst{1000};
  static constexpr std::chrono::milliseconds kLongest{30'000};  // house rule, no source

 private:
  struct Failures {
    unsigned count = 0;
    Clock::time_point until, last;
  };
  std::mutex mutex_;
  std::map<std::string, Failures> failures_;
};

}  // namespace hw::server
