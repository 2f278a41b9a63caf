#include "huewright/base/executor.h"

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <vector>

namespace hw {

void InlineExecutor::run(std::size_t count, const std::function<void(std::size_t)>& work) {
  for (std::size_t i = 0; i < count; ++i) work(i);
}

namespace {

class ThreadPool final : public Executor {
 public:
  explicit ThreadPool(unsigned threads) {
    for (unsigned i = 1; i < threads; ++i) {
      workers_.emplace_back([this](const std::stop_token& stop) { serve(stop); });
    }
  }

  ThreadPool(const ThreadPool&) = delete;
  ThreadPool& operator=(const ThreadPool&) = delete;

  ~ThreadPool() override {
    for (auto& worker : workers_) worker.request_stop();
    wake_.notify_all();
  }

  void run(std::size_t count, const std::function<void(std::size_t)>& work) override {
    if (count <= 1 || workers_.empty() || busy_.exchange(true)) {
      for (std::size_t i = 0; i < count; ++i) work(i);
      return;
    }
    {
      const std::lock_guard lock(mutex_);
      work_ = &work;
      count_ = count;
      next_ = 0;
      active_ = workers_.size();
      ++round_;
    }
    wake_.notify_all();
    drain();
    std::unique_lock lock(mutex_);
    done_.wait(lock, [this] { return active_ == 0; });
    work_ = nullptr;
    lock.unlock();
    busy_ = false;
  }

 private:
  void drain() {
    for (std::size_t i = next_++; i < count_; i = next_++) (*work_)(i);
  }

  void serve(const std::stop_token& stop) {
    std::size_t seen = 0;
    while (true) {
      std::unique_lock lock(mutex_);
      if (!wake_.wait(lock, stop, [&] { return round_ != seen; })) return;
      seen = round_;
      lock.unlock();
      drain();
      lock.lock();
      if (--active_ == 0) done_.notify_one();
    }
  }

  std::mutex mutex_;
  std::condition_variable_any wake_;
  std::condition_variable done_;
  const std::function<void(std::size_t)>* work_ = nullptr;
  std::size_t count_ = 0;
  std::atomic<std::size_t> next_ = 0;
  std::size_t active_ = 0;
  std::size_t round_ = 0;
  std::atomic<bool> busy_ = false;
  std::vector<std::jthread> workers_;
};

}  // namespace

std::unique_ptr<Executor> make_thread_pool(unsigned threads) {
  if (threads <= 1) return std::make_unique<InlineExecutor>();
  return std::make_unique<ThreadPool>(threads);
}

}  // namespace hw
