#pragma once
// The one page that is served without TLS on the salon's network: the certificate to trust, and
// how.
#include <string>

#include "certificates.h"
#include "route.h"
#include "target.h"

namespace hw::server {

/// The page at "/", the certificate at "/huewright-authority.crt", 404 else. https: where to go
/// then.
[[nodiscard]] Reply trust_page(const Target& target, const Certificates& certificates,
                               const std::string& https);

}  // namespace hw::server
