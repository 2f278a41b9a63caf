#include "pairing.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>

namespace hw::server {
namespace {

constexpr std::uint32_t kCodes = 1'000'000;  // of six digits
constexpr std::size_t kMostCodes = 20;       // waiting at a time; guess

}  // namespace

void Pairing::drop_old(Clock::time_point now) {
  std::erase_if(codes_, [&](const Code& code) { return code.until <= now; });
}

std::string Pairing::issue(Role role, bool here_only, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  drop_old(now);
  if (here_only) std::erase_if(codes_, [](const Code& code) { return code.here_only; });
  if (codes_.size() >= kMostCodes) codes_.erase(codes_.begin());
  std::string digits;
  do {
    digits = fmt::format("{:06}", randombytes_uniform(kCodes));
  } while (std::ranges::find(codes_, digits, &Code::digits) != codes_.end());
  codes_.push_back({digits, role, here_only, now + kCodeTime});
  return digits;
}

std::optional<Role> Pairing::redeem(std::string_view digits, bool is_here, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  drop_old(now);
  const auto at = std::ranges::find_if(codes_, [&](const Code& code) {
    return code.digits == digits && (is_here || !code.here_only);
  });
  if (at == codes_.end()) return std::nullopt;
  const Role role = at->role;
  codes_.erase(at);
  return role;
}

bool Pairing::waits_here(Clock::time_point now) const {
  const std::lock_guard lock(mutex_);
  return std::ranges::any_of(codes_,
                             [&](const Code& code) { return code.here_only && code.until > now; });
}

}  // namespace hw::server
