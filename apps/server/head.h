#pragma once
// A request's first lines as they came in, and the door they came in by. No socket is known here.
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hw::server {

/// A way in: one listener.
struct Door {
  enum class Kind {
    here,   ///< plain, this machine alone
    lan,    ///< HTTPS, the salon's network
    trust,  ///< plain, the salon's network: only the page that explains the certificate
  };
  Kind kind = Kind::here;
  std::vector<std::string> names = {};  ///< what a Host may call it, small letters, without a port
  std::uint16_t port = 0;

  [[nodiscard]] bool secure() const { return kind == Kind::lan; }
  [[nodiscard]] std::string_view scheme() const { return secure() ? "https" : "http"; }
  /// Whether a Host field, name and port, names this door and its port.
  [[nodiscard]] bool knows(std::string_view host) const;
};

/// The request line and the header.
struct Head {
  std::string method;
  std::string target;                                       ///< as sent: "/api/v1/clients?find=be"
  std::vector<std::pair<std::string, std::string>> fields;  ///< names in small letters
  std::string peer;                                         ///< address, without the port

  /// The value of the first field of a name (small letters); empty where there is none.
  [[nodiscard]] std::string_view field(std::string_view name) const;
  [[nodiscard]] std::size_t count(std::string_view name) const;
};

}  // namespace hw::server
