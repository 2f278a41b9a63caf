#pragma once
// What is asked of a request before anybody looks at who sends it: that it names this server, and
// that it comes from a page of this server and no other.
#include <optional>

#include "head.h"
#include "route.h"

namespace hw::server {

/// The refusal of a request whose header is not in order: one Host that is ours (else 421), and no
/// field twice that decides something.
[[nodiscard]] std::optional<Reply> refused_host(const Door& door, const Head& head);

/// The refusal of a request to /api that another site may have caused. Sec-Fetch-Site decides where
/// it is sent; else a write must name our own Origin, and one that names none is refused too.
[[nodiscard]] std::optional<Reply> refused_crossing(const Door& door, const Head& head);

/// The refusal of a body of another type than the route takes (415).
[[nodiscard]] std::optional<Reply> refused_type(const Route& route, const Head& head);

/// The secrets that the cookies of a request offer, at most four.
[[nodiscard]] std::vector<std::string> secrets_of(const Door& door, const Head& head);
/// The cookie that carries a secret by a door. A secure one is bound to the host by its name.
[[nodiscard]] std::string cookie_of(const Door& door, std::string_view secret);

}  // namespace hw::server
