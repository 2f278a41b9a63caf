#include "rates.h"

#include <algorithm>

namespace hw::server {
namespace {

constexpr std::size_t kMostKeys = 10'000;           // remembered at a time; guess
constexpr std::chrono::hours kFailureForgotten{1};  // guess
constexpr unsigned kMostDoublings = 10;             // beyond kLongest long before

}  // namespace

std::optional<std::chrono::milliseconds> Rates::take(const std::string& key, const Rate& rate,
                                                     Clock::time_point now) {
  using Millis = std::chrono::duration<double, std::milli>;
  const std::lock_guard lock(mutex_);
  if (buckets_.size() >= kMostKeys) {
    std::erase_if(buckets_, [&](const auto& entry) { return entry.second.full_at <= now; });
  }
  if (buckets_.size() >= kMostKeys && !buckets_.contains(key)) return rate.within;
  const auto [at, is_new] = buckets_.try_emplace(key, Bucket{rate.most, now, now});
  Bucket& bucket = at->second;
  const double per_ms = rate.most / static_cast<double>(rate.within.count());
  bucket.left = std::min(rate.most, bucket.left + Millis(now - bucket.at).count() * per_ms);
  bucket.at = now;
  if (bucket.left < 1) {
    return std::chrono::ceil<std::chrono::milliseconds>(Millis((1 - bucket.left) / per_ms));
  }
  bucket.left -= 1;
  bucket.full_at = now + std::chrono::ceil<std::chrono::milliseconds>(
                             Millis((rate.most - bucket.left) / per_ms));
  return std::nullopt;
}

std::optional<std::chrono::milliseconds> Delays::left(const std::string& key,
                                                      Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  const auto at = failures_.find(key);
  if (at == failures_.end() || at->second.until <= now) return std::nullopt;
  return std::chrono::ceil<std::chrono::milliseconds>(at->second.until - now);
}

void Delays::failed(const std::string& key, unsigned free, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  std::erase_if(failures_,
                [&](const auto& entry) { return entry.second.last + kFailureForgotten < now; });
  if (failures_.size() >= kMostKeys) failures_.erase(failures_.begin());
  Failures& failures = failures_[key];
  failures.last = now;
  if (++failures.count <= free) return;
  const unsigned doublings = std::min(failures.count - free - 1, kMostDoublings);
  failures.until = now + std::min<std::chrono::milliseconds>(kFirst * (1 << doublings), kLongest);
}

void Delays::succeeded(const std::string& key) {
  const std::lock_guard lock(mutex_);
  failures_.erase(key);
}

}  // namespace hw::server
