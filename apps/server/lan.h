#pragma once
// What this machine is called on the salon's network.
#include <string>
#include <string_view>
#include <vector>

namespace hw::server {

struct Lan {
  std::string host;                    ///< name of the machine, small letters; may be empty
  std::vector<std::string> addresses;  ///< IPv4 of private networks, in order of the interfaces

  bool operator==(const Lan&) const = default;
  /// What a Host may call it: huewright.local, the machine's name, its addresses.
  [[nodiscard]] std::vector<std::string> names() const;
};

/// Names that are no addresses.
[[nodiscard]] bool is_address(std::string_view name);
/// Networks that are never routed between houses: 10/8, 172.16/12, 192.168/16, 169.254/16, 127/8
/// (RFC 1918, RFC 3927, RFC 1122).
[[nodiscard]] bool is_private(std::string_view address);
/// As the system says it now.
[[nodiscard]] Lan lan_now();

}  // namespace hw::server
