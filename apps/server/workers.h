#pragma once
// The threads that handlers run on, so that the one thread of the network never waits.
#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace hw::server {

class Workers {
 public:
  /// threads: at least 1. most_waiting: jobs in the queue.
  Workers(unsigned threads, std::size_t most_waiting);
  /// Finishes every job that was taken.
  ~Workers();
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;

  /// Takes a job, which must not throw; false where the queue is full.
  [[nodiscard]] bool take(std::function<void()> job);

 private:
  void work();
  std::mutex mutex_;
  std::condition_variable wake_;
  std::deque<std::function<void()>> jobs_;
  std::size_t most_waiting_;
  bool closing_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace hw::server
