#pragma once
// Keys and certificates by OpenSSL, each freed by its owner; for certificates.cpp.
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <ctime>
#include <memory>
#include <string>
#include <vector>

namespace hw::server {

template <auto Free>
struct Freed {
  template <class T>
  void operator()(T* thing) const {
    Free(thing);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using Cert = std::unique_ptr<X509, Freed<X509_free>>;
using Bio = std::unique_ptr<BIO, Freed<BIO_free_all>>;

/// A new key on the curve P-256; null where OpenSSL cannot.
[[nodiscard]] Key new_key();

/// One extension in OpenSSL's own words: {NID_basic_constraints, "critical,CA:TRUE"}.
struct Extension {
  int nid;
  std::string value;
};
struct CertPlan {
  std::string name;  ///< common name
  std::time_t from = 0, until = 0;
  std::vector<Extension> extensions;
};
/// A certificate of `subject`, signed by the issuer's key; issuer null: by itself. Null where
/// OpenSSL cannot.
[[nodiscard]] Cert new_cert(const CertPlan& plan, EVP_PKEY* subject, X509* issuer,
                            EVP_PKEY* issuer_key);

[[nodiscard]] std::string pem_of(EVP_PKEY* key);
[[nodiscard]] std::string pem_of(X509* cert);
[[nodiscard]] std::string der_of(X509* cert);
/// Null where the text is none.
[[nodiscard]] Key key_of_pem(const std::string& pem);
[[nodiscard]] Cert cert_of_pem(const std::string& pem);
/// "AB:CD:…", SHA-256.
[[nodiscard]] std::string fingerprint_of(X509* cert);
/// Whether a server may show a certificate at that moment to somebody who trusts the authority.
[[nodiscard]] bool is_vouched_for(X509* cert, X509* authority, std::time_t at);
/// The names and addresses of a certificate, sorted.
[[nodiscard]] std::vector<std::string> names_of(X509* cert);

}  // namespace hw::server
