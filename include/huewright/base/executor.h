#pragma once
// Threads are handed in from outside; every floor above runs its chunks through this interface.
#include <cstddef>
#include <functional>
#include <memory>

namespace hw {

class Executor {
 public:
  Executor() = default;
  Executor(const Executor&) = delete;
  Executor& operator=(const Executor&) = delete;
  virtual ~Executor() = default;
  /// Calls work(i) once for each i in [0, count), in any order, on any thread, and returns when all
  /// are done. work must not throw. Callers cut their work into chunks of a fixed size, so results
  /// do not depend on the number of threads.
  virtual void run(std::size_t count, const std::function<void(std::size_t)>& work) = 0;
};

/// Runs everything on the calling thread.
class InlineExecutor final : public Executor {
 public:
  void run(std::size_t count, const std::function<void(std::size_t)>& work) override;
};

/// A fixed pool. The calling thread helps, so `threads` = 2 starts one extra thread. One run() at a
/// time per pool; a run() inside a run() is done on the calling thread.
[[nodiscard]] std::unique_ptr<Executor> make_thread_pool(unsigned threads);

}  // namespace hw
