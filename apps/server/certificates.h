#pragma once
// The salon's own certificate authority, made once per data folder, and the server's certificate
// under it. The authority may vouch for names and addresses inside the house only, so that its key,
// should somebody get hold of it, is of no use against any other site.
//   tls/authority.key, tls/authority.crt    10 years; the tablets trust this one
//   tls/server.key, tls/server.crt          397 days, made anew when names change or 30 days are
//   left
#include <ctime>
#include <string>

#include "huewright/base/result.h"
#include "lan.h"

namespace hw::server {

/// What the server shows to a browser.
struct Identity {
  std::string chain_pem, key_pem;
};

struct Certificates {
  Identity server;
  std::string authority_der;
  std::string fingerprint;  ///< SHA-256 of authority_der: "AB:CD:…"
  bool is_new = false;      ///< the server's certificate was made just now
};

/// Those of a data folder; makes what is missing or no longer good. now: seconds since 1970.
/// Errors: io; a file that is no certificate (malformed).
[[nodiscard]] Result<Certificates> certificates_of(const std::string& folder, const Lan& lan,
                                                   std::time_t now);

}  // namespace hw::server
