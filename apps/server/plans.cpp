#include "plans.h"

#include <algorithm>

namespace hw::server {

std::shared_ptr<const Planned> Plans::find(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  const auto at = std::ranges::find(entries_, key, &Entry::key);
  if (at == entries_.end()) return nullptr;
  entries_.splice(entries_.begin(), entries_, at);
  return entries_.front().planned;
}

void Plans::keep(const std::string& key, std::shared_ptr<const Planned> planned) {
  constexpr std::size_t kMost = 24;  // about 2 MB each
  const std::scoped_lock lock(mutex_);
  entries_.push_front({key, std::move(planned)});
  if (entries_.size() > kMost) entries_.pop_back();
}

}  // namespace hw::server
