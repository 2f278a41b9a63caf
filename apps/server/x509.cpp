#include "x509.h"

#include <arpa/inet.h>
#include <openssl/rand.h>

#include <algorithm>
#include <array>

namespace hw::server {
namespace {

using Extended = std::unique_ptr<X509_EXTENSION, Freed<X509_EXTENSION_free>>;

/// The bytes that something wrote into a memory BIO.
template <class Write>
std::string written(const Write& write) {
  const Bio bio(BIO_new(BIO_s_mem()));
  if (!bio || !write(bio.get())) return {};
  char* data = nullptr;
  const long size = BIO_get_mem_data(bio.get(), &data);
  return {data, static_cast<std::size_t>(size)};
}

bool set_serial(X509* cert) {
  constexpr std::size_t kBytes = 16;  // 127 random bits, never negative
  std::array<unsigned char, kBytes> random{};
  if (RAND_bytes(random.data(), static_cast<int>(random.size())) != 1) return false;
  random[0] &= 0x7F;
  random[0] |= 0x40;  // never 0
  const std::unique_ptr<BIGNUM, Freed<BN_free>> number(
      BN_bin2bn(random.data(), static_cast<int>(random.size()), nullptr));
  return number && BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(cert)) != nullptr;
}

bool add_extensions(X509* cert, X509* issuer, const std::vector<Extension>& extensions) {
  X509V3_CTX context{};
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, issuer, cert, nullptr, nullptr, 0);
  return std::ranges::all_of(extensions, [&](const Extension& extension) {
    const Extended made(
        X509V3_EXT_conf_nid(nullptr, &context, extension.nid, extension.value.c_str()));
    return made && X509_add_ext(cert, made.get(), -1) == 1;
  });
}

}  // namespace

Key new_key() {
  return Key(EVP_EC_gen("P-256"));
}

Cert new_cert(const CertPlan& plan, EVP_PKEY* subject, X509* issuer, EVP_PKEY* issuer_key) {
  Cert cert(X509_new());
  if (!cert || subject == nullptr || issuer_key == nullptr) return nullptr;
  X509* signer = issuer == nullptr ? cert.get() : issuer;
  X509_NAME* name = X509_get_subject_name(cert.get());
  const auto* text = reinterpret_cast<const unsigned char*>(plan.name.c_str());
  const bool made = X509_set_version(cert.get(), X509_VERSION_3) == 1 && set_serial(cert.get()) &&
                    ASN1_TIME_set(X509_getm_notBefore(cert.get()), plan.from) != nullptr &&
                    ASN1_TIME_set(X509_getm_notAfter(cert.get()), plan.until) != nullptr &&
                    X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_UTF8, text, -1, -1, 0) == 1 &&
                    X509_set_issuer_name(cert.get(), X509_get_subject_name(signer)) == 1 &&
                    X509_set_pubkey(cert.get(), subject) == 1 &&
                    add_extensions(cert.get(), signer, plan.extensions) &&
                    X509_sign(cert.get(), issuer_key, EVP_sha256()) > 0;
  return made ? std::move(cert) : nullptr;
}

std::string pem_of(EVP_PKEY* key) {
  return written([&](BIO* bio) {
    return PEM_write_bio_PrivateKey(bio, key, nullptr, nullptr, 0, nullptr, nullptr) == 1;
  });
}

std::string pem_of(X509* cert) {
  return written([&](BIO* bio) { return PEM_write_bio_X509(bio, cert) == 1; });
}

std::string der_of(X509* cert) {
  return written([&](BIO* bio) { return i2d_X509_bio(bio, cert) == 1; });
}

Key key_of_pem(const std::string& pem) {
  const Bio bio(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
  // A passphrase is never asked for: the empty one fails.
  char none[] = "";
  return Key(bio ? PEM_read_bio_PrivateKey(bio.get(), nullptr, nullptr, none) : nullptr);
}

Cert cert_of_pem(const std::string& pem) {
  const Bio bio(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
  char none[] = "";
  return Cert(bio ? PEM_read_bio_X509(bio.get(), nullptr, nullptr, none) : nullptr);
}

std::string fingerprint_of(X509* cert) {
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::array<unsigned char, EVP_MAX_MD_SIZE> hash{};
  unsigned size = 0;
  if (X509_digest(cert, EVP_sha256(), hash.data(), &size) != 1) return {};
  std::string text;
  for (unsigned i = 0; i < size; ++i) {
    if (i > 0) text += ':';
    text += kHex[hash.at(i) >> 4U];
    text += kHex[hash.at(i) & 15U];
  }
  return text;
}

bool is_vouched_for(X509* cert, X509* authority, std::time_t at) {
  const std::unique_ptr<X509_STORE, Freed<X509_STORE_free>> store(X509_STORE_new());
  const std::unique_ptr<X509_STORE_CTX, Freed<X509_STORE_CTX_free>> look(X509_STORE_CTX_new());
  if (!store || !look || X509_STORE_add_cert(store.get(), authority) != 1 ||
      X509_STORE_CTX_init(look.get(), store.get(), cert, nullptr) != 1) {
    return false;
  }
  X509_STORE_CTX_set_purpose(look.get(), X509_PURPOSE_SSL_SERVER);
  X509_STORE_CTX_set_time(look.get(), 0, at);
  return X509_verify_cert(look.get()) == 1;
}

std::vector<std::string> names_of(X509* cert) {
  std::vector<std::string> names;
  const std::unique_ptr<GENERAL_NAMES, Freed<GENERAL_NAMES_free>> all(
      static_cast<GENERAL_NAMES*>(X509_get_ext_d2i(cert, NID_subject_alt_name, nullptr, nullptr)));
  for (int i = 0; all && i < sk_GENERAL_NAME_num(all.get()); ++i) {
    const GENERAL_NAME* name = sk_GENERAL_NAME_value(all.get(), i);
    int type = 0;
    const auto* value = static_cast<const ASN1_STRING*>(GENERAL_NAME_get0_value(name, &type));
    const unsigned char* bytes = ASN1_STRING_get0_data(value);
    const int size = ASN1_STRING_length(value);
    if (type == GEN_DNS) {
      names.emplace_back(bytes, bytes + size);
    } else if (type == GEN_IPADD && size == 4) {
      std::array<char, INET_ADDRSTRLEN> text{};
      if (::inet_ntop(AF_INET, bytes, text.data(), text.size()) != nullptr) {
        names.emplace_back(text.data());
      }
    }
  }
  std::ranges::sort(names);
  return names;
}

}  // namespace hw::server
