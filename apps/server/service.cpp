#include "service.h"

#include <atomic>
#include <chrono>
#include <ctime>

namespace hw::server {
namespace {

process::Moment wall_clock() {
  const auto utc = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const std::time_t seconds = std::chrono::system_clock::to_time_t(utc);
  std::tm local{};
  localtime_r(&seconds, &local);
  return {utc, std::chrono::minutes(local.tm_gmtoff / 60)};
}

/// A pool does one thing at a time; who finds it busy works on their own thread.
class Shared final : public Executor {
 public:
  explicit Shared(std::unique_ptr<Executor> pool) : pool_(std::move(pool)) {}
  void run(std::size_t count, const std::function<void(std::size_t)>& work) override {
    if (busy_.exchange(true)) {
      InlineExecutor().run(count, work);
      return;
    }
    pool_->run(count, work);
    busy_ = false;
  }

 private:
  std::atomic<bool> busy_ = false;
  std::unique_ptr<Executor> pool_;
};

}  // namespace

Service::Service(std::unique_ptr<book::Folder> folder, std::unique_ptr<Executor> threads)
    : folder_(std::move(folder)),
      threads_(std::make_unique<Shared>(std::move(threads))),
      clock_(wall_clock) {}

std::set<std::string> Service::seen(const std::string& visit) {
  const std::scoped_lock lock(mutex_);
  const auto at = seen_.find(visit);
  return at == seen_.end() ? std::set<std::string>{} : at->second;
}

void Service::mark_seen(const std::string& visit, const std::string& zone) {
  const std::scoped_lock lock(mutex_);
  seen_[visit].insert(zone);
}

book::Hand Service::hand(const std::string& name) const {
  return {name.empty() ? "unnamed device" : name, process::iso_text(now())};
}

}  // namespace hw::server
