#include "certificates.h"

#include <algorithm>
#include <filesystem>

#include "huewright/book/files.h"
#include "x509.h"

namespace hw::server {
namespace {

constexpr std::time_t kDay = 86'400;                 // s
constexpr std::time_t kAuthorityTime = 3650 * kDay;  // house rule, no source
constexpr std::time_t kServerTime = 397 * kDay;      // browsers take no longer ones; from memory
constexpr std::time_t kLeftAtLeast = 30 * kDay;      // house rule, no source
constexpr std::time_t kBackdated = kDay;             // for tablets whose clock is behind

tl::unexpected<Error> broken(const std::string& file) {
  return fail(ErrorCode::malformed, "is no key or certificate of this program", file,
              "move the folder tls away; every tablet then has to trust a new certificate");
}
tl::unexpected<Error> no_crypto() {
  return fail(ErrorCode::io, "the system's OpenSSL makes no keys", "tls",
              "see that OpenSSL 3 is installed whole");
}

struct Pair {
  Key key;
  Cert cert;
};

/// What an authority may vouch for: names inside the house.
std::string constraints(const Lan& lan) {
  std::string text = "critical,permitted;DNS:local,permitted;DNS:localhost";
  if (!lan.host.empty()) text += ",permitted;DNS:" + lan.host;
  for (const char* network :
       {"10.0.0.0/255.0.0.0", "172.16.0.0/255.240.0.0", "192.168.0.0/255.255.0.0",
        "169.254.0.0/255.255.0.0", "127.0.0.0/255.0.0.0"}) {
    text += std::string(",permitted;IP:") + network;
  }
  return text;
}

Result<Pair> read_pair(const std::string& stem) {
  const auto key = book::read_file(stem + ".key");
  if (!key) return tl::unexpected(key.error());
  const auto cert = book::read_file(stem + ".crt");
  if (!cert) return tl::unexpected(cert.error());
  Pair pair{key_of_pem(*key), cert_of_pem(*cert)};
  if (!pair.key) return broken(stem + ".key");
  if (!pair.cert || X509_check_private_key(pair.cert.get(), pair.key.get()) != 1) {
    return broken(stem + ".crt");
  }
  return pair;
}

Result<void> write_pair(const std::string& stem, const Pair& pair) {
  if (auto done = book::write_file(stem + ".key", pem_of(pair.key.get())); !done) return done;
  return book::write_file(stem + ".crt", pem_of(pair.cert.get()));
}

Result<Pair> authority_of(const std::string& folder, const Lan& lan, std::time_t now) {
  const std::string stem = folder + "/authority";
  std::error_code ignored;
  if (std::filesystem::exists(stem + ".crt", ignored)) return read_pair(stem);
  Pair pair;
  pair.key = new_key();
  const CertPlan plan{"Huewright" + (lan.host.empty() ? "" : " on " + lan.host),
                      now - kBackdated,
                      now + kAuthorityTime,
                      {{NID_basic_constraints, "critical,CA:TRUE,pathlen:0"},
                       {NID_key_usage, "critical,keyCertSign,cRLSign"},
                       {NID_subject_key_identifier, "hash"},
                       {NID_name_constraints, constraints(lan)}}};
  pair.cert = new_cert(plan, pair.key.get(), nullptr, pair.key.get());
  if (!pair.cert) return no_crypto();
  if (auto done = write_pair(stem, pair); !done) return tl::unexpected(done.error());
  return pair;
}

/// Good for a while, for exactly these names.
bool is_good(const Pair& pair, const Pair& authority, std::vector<std::string> names,
             std::time_t now) {
  std::ranges::sort(names);
  return names_of(pair.cert.get()) == names &&
         is_vouched_for(pair.cert.get(), authority.cert.get(), now + kLeftAtLeast);
}

Pair new_server(const Pair& authority, const std::vector<std::string>& names, std::time_t now) {
  std::string alternatives;
  for (const std::string& name : names) {
    alternatives +=
        (alternatives.empty() ? "" : ",") + std::string(is_address(name) ? "IP:" : "DNS:") + name;
  }
  Pair pair;
  pair.key = new_key();
  const CertPlan plan{names.front(),
                      now - kBackdated,
                      now + kServerTime,
                      {{NID_basic_constraints, "critical,CA:FALSE"},
                       {NID_key_usage, "critical,digitalSignature"},
                       {NID_ext_key_usage, "serverAuth"},
                       {NID_subject_key_identifier, "hash"},
                       {NID_authority_key_identifier, "keyid"},
                       {NID_subject_alt_name, alternatives}}};
  pair.cert = new_cert(plan, pair.key.get(), authority.cert.get(), authority.key.get());
  return pair;
}

/// The server's own pair, kept or made. A name that the authority may not vouch for, because the
/// machine was renamed since, is left out.
Result<Pair> server_of(const std::string& folder, const Pair& authority, const Lan& lan,
                       std::time_t now, bool& is_new) {
  const std::string stem = folder + "/server";
  std::vector<std::string> names = lan.names();
  std::vector<std::string> sure;
  std::ranges::copy_if(names, std::back_inserter(sure), [](const std::string& name) {
    return is_address(name) || name.ends_with(".local") || name == "localhost";
  });
  const auto known = read_pair(stem);
  if (known && (is_good(*known, authority, names, now) || is_good(*known, authority, sure, now))) {
    return read_pair(stem);
  }
  is_new = true;
  Pair pair = new_server(authority, names, now);
  if (!pair.cert || !is_good(pair, authority, names, now)) pair = new_server(authority, sure, now);
  if (!pair.cert) return no_crypto();
  if (!is_good(pair, authority, sure, now) && !is_good(pair, authority, names, now)) {
    return fail(ErrorCode::unreachable, "the salon's own certificate has run out", folder,
                "move the folder tls away; every tablet then has to trust a new certificate");
  }
  if (auto done = write_pair(stem, pair); !done) return tl::unexpected(done.error());
  return pair;
}

}  // namespace

Result<Certificates> certificates_of(const std::string& folder, const Lan& lan, std::time_t now) {
  const std::string place = folder + "/tls";
  if (auto made = book::make_folder(place); !made) return tl::unexpected(made.error());
  const auto authority = authority_of(place, lan, now);
  if (!authority) return tl::unexpected(authority.error());
  Certificates all;
  const auto server = server_of(place, *authority, lan, now, all.is_new);
  if (!server) return tl::unexpected(server.error());
  all.server = {pem_of(server->cert.get()) + pem_of(authority->cert.get()),
                pem_of(server->key.get())};
  all.authority_der = der_of(authority->cert.get());
  all.fingerprint = fingerprint_of(authority->cert.get());
  return all;
}

}  // namespace hw::server
