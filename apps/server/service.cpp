#include "service.h"

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

}  // namespace

Service::Service(std::unique_ptr<book::Folder> folder, std::unique_ptr<Executor> threads)
    : folder_(std::move(folder)), threads_(std::move(threads)), clock_(wall_clock) {}

book::Hand Service::hand(const std::string& name) const {
  return {name.empty() ? "unnamed device" : name, process::iso_text(now())};
}

}  // namespace hw::server
