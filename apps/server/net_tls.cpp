// Talks over TLS.
#include <boost/asio/ssl/context.hpp>
#include <boost/beast/ssl.hpp>

#include "net_talk.h"

namespace hw::server {

namespace ssl = boost::asio::ssl;
using TlsStream = beast::ssl_stream<beast::tcp_stream>;

template <>
struct Manner<TlsStream> {
  template <class Done>
  static void greet(TlsStream& stream, Done done) {
    stream.async_handshake(ssl::stream_base::server, std::move(done));
  }
  template <class Done>
  static void part(TlsStream& stream, Done done) {
    stream.async_shutdown(std::move(done));
  }
};

namespace {

/// TLS 1.2 and 1.3 with this identity.
Result<std::shared_ptr<ssl::context>> context_of(const Identity& identity) {
  auto context = std::make_shared<ssl::context>(ssl::context::tls_server);
  beast::error_code failed;
  context->use_certificate_chain(asio::buffer(identity.chain_pem), failed);
  if (!failed) {
    context->use_private_key(asio::buffer(identity.key_pem), ssl::context::pem, failed);
  }
  const bool set =
      !failed && SSL_CTX_set_min_proto_version(context->native_handle(), TLS1_2_VERSION) == 1;
  SSL_CTX_set_options(context->native_handle(),
                      SSL_OP_NO_RENEGOTIATION | SSL_OP_CIPHER_SERVER_PREFERENCE);
  if (set) return context;
  return fail(ErrorCode::io,
              failed ? "the system says: " + failed.message() : "TLS 1.2 is not there", "tls",
              "move the folder tls away; every tablet then has to trust a new certificate");
}

void set_start(Net::Inside& net, Listener& listener, std::shared_ptr<ssl::context> context) {
  listener.start = [&net, &listener, context = std::move(context)](Tcp::socket socket,
                                                                   std::string peer) {
    std::make_shared<TalkOver<TlsStream>>(net, listener, std::move(peer), std::move(socket),
                                          *context)
        ->begin();
  };
}

}  // namespace

Result<std::uint16_t> Net::open_tls(const std::string& address, std::uint16_t port, Door door,
                                    const Identity& identity) {
  auto context = context_of(identity);
  if (!context) return tl::unexpected(context.error());
  auto made = inside_->listen(address, port, std::move(door));
  if (!made) return tl::unexpected(made.error());
  set_start(*inside_, **made, *std::move(context));
  inside_->accept(**made);
  return (*made)->door.port;
}

Result<void> Net::change_lan(const std::vector<std::string>& names, const Identity& identity) {
  const auto context = context_of(identity);
  if (!context) return tl::unexpected(context.error());
  post([net = inside_.get(), names, context = *context] {
    for (Listener& listener : net->listeners) {
      if (listener.door.kind == Door::Kind::here) continue;
      listener.door.names = names;
      if (listener.door.secure()) set_start(*net, listener, context);
    }
  });
  return {};
}

}  // namespace hw::server
