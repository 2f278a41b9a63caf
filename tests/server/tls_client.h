#pragma once
// A client over TLS that trusts one authority, and checks name and address as a browser does.
#include <openssl/ssl.h>

#include <cstdint>
#include <memory>
#include <string>

#include "server/client.h"

namespace hw::test {

class TlsWire {
 public:
  /// authority: DER. name: what the certificate must say. most: of TLS versions, 0: any.
  TlsWire(std::uint16_t port, const std::string& authority, const std::string& name, int most = 0);
  ~TlsWire();
  TlsWire(const TlsWire&) = delete;
  TlsWire& operator=(const TlsWire&) = delete;

  /// Whether both sides shook hands and the certificate is right.
  [[nodiscard]] bool is_open() const { return open_; }
  [[nodiscard]] const std::string& why_not() const { return why_not_; }
  void send(const std::string& bytes) const;
  [[nodiscard]] std::string receive() const;

 private:
  SSL_CTX* context_ = nullptr;
  SSL* ssl_ = nullptr;
  int socket_ = -1;
  bool open_ = false;
  std::string why_not_;
};

}  // namespace hw::test
