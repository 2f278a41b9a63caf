#include "server/tls_client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <openssl/err.h>
#include <openssl/x509v3.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <array>

namespace hw::test {

TlsWire::TlsWire(std::uint16_t port, const std::string& authority, const std::string& name,
                 int most)
    : context_(SSL_CTX_new(TLS_client_method())) {
  const auto* der = reinterpret_cast<const unsigned char*>(authority.data());
  X509* trusted = d2i_X509(nullptr, &der, static_cast<long>(authority.size()));
  if (trusted != nullptr) X509_STORE_add_cert(SSL_CTX_get_cert_store(context_), trusted);
  X509_free(trusted);
  SSL_CTX_set_verify(context_, SSL_VERIFY_PEER, nullptr);
  SSL_CTX_set_security_level(context_, 0);  // old versions may be tried
  if (most != 0) {
    SSL_CTX_set_min_proto_version(context_, 0);
    SSL_CTX_set_max_proto_version(context_, most);
  }
  socket_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const timeval patience{5, 0};
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_port = htons(port);
  place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (::connect(socket_, reinterpret_cast<sockaddr*>(&place), sizeof place) != 0) return;
  ssl_ = SSL_new(context_);
  X509_VERIFY_PARAM* rules = SSL_get0_param(ssl_);
  in_addr address{};
  if (::inet_pton(AF_INET, name.c_str(), &address) == 1) {
    X509_VERIFY_PARAM_set1_ip_asc(rules, name.c_str());
  } else {
    X509_VERIFY_PARAM_set1_host(rules, name.c_str(), name.size());
  }
  SSL_set_fd(ssl_, socket_);
  open_ = SSL_connect(ssl_) == 1;
  if (!open_) {
    why_not_ = X509_verify_cert_error_string(SSL_get_verify_result(ssl_));
    ERR_clear_error();
  }
}

TlsWire::~TlsWire() {
  SSL_free(ssl_);
  SSL_CTX_free(context_);
  if (socket_ >= 0) ::close(socket_);
}

void TlsWire::send(const std::string& bytes) const {
  SSL_write(ssl_, bytes.data(), static_cast<int>(bytes.size()));
}

std::string TlsWire::receive() const {
  std::array<char, 16384> piece{};
  const int got = SSL_read(ssl_, piece.data(), piece.size());
  return got <= 0 ? std::string() : std::string(piece.data(), static_cast<std::size_t>(got));
}

}  // namespace hw::test
