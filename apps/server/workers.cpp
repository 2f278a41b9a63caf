#include "workers.h"

namespace hw::server {

Workers::Workers(unsigned threads, std::size_t most_waiting) : most_waiting_(most_waiting) {
  for (unsigned i = 0; i < threads; ++i) threads_.emplace_back([this] { work(); });
}

Workers::~Workers() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
  }
  wake_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

bool Workers::take(std::function<void()> job) {
  {
    const std::lock_guard lock(mutex_);
    if (closing_ || jobs_.size() >= most_waiting_) return false;
    jobs_.push_back(std::move(job));
  }
  wake_.notify_one();
  return true;
}

void Workers::work() {
  for (;;) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [this] { return closing_ || !jobs_.empty(); });
    if (jobs_.empty()) return;
    const std::function<void()> job = std::move(jobs_.front());
    jobs_.pop_front();
    lock.unlock();
    job();
  }
}

}  // namespace hw::server
