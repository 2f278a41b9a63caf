#include "lan.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <memory>

#include "text.h"

namespace hw::server {
namespace {

struct Network {
  std::uint32_t start, mask;
};
constexpr std::array kPrivate{
    Network{0x0A000000, 0xFF000000}, Network{0xAC100000, 0xFFF00000},
    Network{0xC0A80000, 0xFFFF0000}, Network{0xA9FE0000, 0xFFFF0000},
    Network{0x7F000000, 0xFF000000},
};

/// Letters, digits, hyphens and dots only; anything else is no name for a certificate.
std::string host_name() {
  constexpr std::size_t kMost = 256;  // bytes, POSIX HOST_NAME_MAX and its end
  std::array<char, kMost> text{};
  if (::gethostname(text.data(), text.size() - 1) != 0) return {};
  std::string name = lower(text.data());
  const bool plain =
      name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-.") == std::string::npos;
  constexpr std::size_t kMostName = 63;  // RFC 1035, one label; longer ones are not used
  return plain && name.size() <= kMostName && !name.starts_with('.') && !name.ends_with('.') ? name
                                                                                             : "";
}

}  // namespace

std::vector<std::string> Lan::names() const {
  std::vector<std::string> all = {"huewright.local"};
  if (!host.empty()) {
    all.push_back(host);
    if (host.find('.') == std::string::npos) all.push_back(host + ".local");
  }
  all.emplace_back("localhost");
  all.insert(all.end(), addresses.begin(), addresses.end());
  all.emplace_back("127.0.0.1");
  std::vector<std::string> once;
  for (std::string& name : all) {
    if (std::ranges::find(once, name) == once.end()) once.push_back(std::move(name));
  }
  return once;
}

bool is_address(std::string_view name) {
  in_addr address{};
  return ::inet_pton(AF_INET, std::string(name).c_str(), &address) == 1;
}

bool is_private(std::string_view address) {
  in_addr parsed{};
  if (::inet_pton(AF_INET, std::string(address).c_str(), &parsed) != 1) return false;
  const std::uint32_t number = ntohl(parsed.s_addr);
  return std::ranges::any_of(
      kPrivate, [&](const Network& network) { return (number & network.mask) == network.start; });
}

Lan lan_now() {
  Lan lan;
  lan.host = host_name();
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return lan;
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> guard(all, ::freeifaddrs);
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    const bool is_up = (one->ifa_flags & IFF_UP) != 0;
    if (!is_up || one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    const void* address = &reinterpret_cast<const sockaddr_in*>(one->ifa_addr)->sin_addr;
    if (::inet_ntop(AF_INET, address, text.data(), text.size()) == nullptr) continue;
    const std::string_view found = text.data();
    if (is_private(found) && !found.starts_with("127.")) lan.addresses.emplace_back(text.data());
  }
  return lan;
}

}  // namespace hw::server
