// The network's own thread, and talks without TLS.
#include <boost/asio/post.hpp>

#include "net_talk.h"

namespace hw::server {

template <>
struct Manner<beast::tcp_stream> {
  template <class Done>
  static void greet(beast::tcp_stream& stream, Done done) {
    asio::post(stream.get_executor(), [done = std::move(done)] { done({}); });
  }
  template <class Done>
  static void part(beast::tcp_stream&, Done done) {
    done({});
  }
};

namespace {

tl::unexpected<Error> trouble(const beast::error_code& failed, const std::string& address,
                              std::uint16_t port) {
  return fail(ErrorCode::io, "the system says: " + failed.message(),
              address + ":" + std::to_string(port),
              "stop what else listens there, or give another --port");
}

}  // namespace

Result<Listener*> Net::Inside::listen(const std::string& address, std::uint16_t port, Door door) {
  beast::error_code failed;
  const auto place = asio::ip::make_address(address, failed);
  if (failed) return trouble(failed, address, port);
  Listener& listener = listeners.emplace_back(io, std::move(door));
  const auto give_up = [&] {
    listeners.pop_back();
    return trouble(failed, address, port);
  };
  const Tcp::endpoint end(place, port);
  Tcp::acceptor& acceptor = listener.acceptor;
  acceptor.open(end.protocol(), failed);
  if (!failed) acceptor.set_option(Tcp::acceptor::reuse_address(true), failed);
  if (!failed) acceptor.bind(end, failed);
  if (!failed) acceptor.listen(asio::socket_base::max_listen_connections, failed);
  if (failed) return give_up();
  listener.door.port = acceptor.local_endpoint(failed).port();
  return &listener;
}

void Net::Inside::accept(Listener& listener) {
  listener.acceptor.async_accept([this, &listener](beast::error_code failed, Tcp::socket socket) {
    if (stopping || failed == asio::error::operation_aborted) return;
    if (failed) {  // out of file handles, most likely: later
      constexpr std::chrono::milliseconds kLater{100};
      listener.retry.expires_after(kLater);
      listener.retry.async_wait([this, &listener](beast::error_code cancelled) {
        if (!cancelled && !stopping) accept(listener);
      });
      return;
    }
    beast::error_code ignored;
    const auto peer = socket.remote_endpoint(ignored).address().to_string();
    const auto known = listener.talks_of_peer.find(peer);
    const std::size_t of_peer = known == listener.talks_of_peer.end() ? 0 : known->second;
    const bool crowded =
        listener.talks >= front.limits().connections ||
        (listener.door.kind != Door::Kind::here && of_peer >= front.limits().connections_of_peer);
    if (!crowded) {
      socket.set_option(Tcp::no_delay(true), ignored);
      listener.start(std::move(socket), peer);
    }
    accept(listener);
  });
}

void Net::Inside::begin_stop() {
  if (stopping) return;
  stopping = true;
  signals.cancel();
  repeating.clear();
  for (Listener& listener : listeners) {
    beast::error_code ignored;
    listener.acceptor.close(ignored);
    listener.retry.cancel();
  }
  const std::set<Talk*> open = talks;
  for (Talk* talk : open) talk->wind_up();
  last_call.expires_after(front.limits().stop_time);
  last_call.async_wait([this](beast::error_code cancelled) {
    if (!cancelled) io.stop();
  });
  if (talks.empty()) last_call.cancel();
}

void Net::Inside::talk_ended(Talk* talk, Listener& listener, const std::string& peer) {
  talks.erase(talk);
  --listener.talks;
  const auto at = listener.talks_of_peer.find(peer);
  if (--at->second == 0) listener.talks_of_peer.erase(at);
  if (stopping && talks.empty()) last_call.cancel();
}

Net::Net(Front& front) : inside_(std::make_unique<Inside>(front)) {}

/// Talks that outlived the last call end here, while what they count in still stands.
Net::~Net() {
  inside_->begin_stop();
  const std::set<Talk*> open = inside_->talks;
  for (Talk* talk : open) talk->cut();
  inside_->io.restart();
  inside_->io.poll();
}

Result<std::uint16_t> Net::open(const std::string& address, std::uint16_t port, Door door) {
  auto made = inside_->listen(address, port, std::move(door));
  if (!made) return tl::unexpected(made.error());
  Listener& listener = **made;
  listener.start = [net = inside_.get(), &listener](Tcp::socket socket, std::string peer) {
    std::make_shared<TalkOver<beast::tcp_stream>>(*net, listener, std::move(peer),
                                                  std::move(socket))
        ->begin();
  };
  inside_->accept(listener);
  return listener.door.port;
}

void Net::heed_signals() {
  inside_->signals.add(SIGINT);
  inside_->signals.add(SIGTERM);
  inside_->signals.async_wait([net = inside_.get()](beast::error_code failed, int) {
    if (!failed) net->begin_stop();
  });
}

void Net::run() {
  inside_->io.run();
}

void Net::stop() {
  asio::post(inside_->io, [net = inside_.get()] { net->begin_stop(); });
}

void Net::set_greeting(std::function<std::string()> greeting) {
  inside_->greeting = std::move(greeting);
}

void Net::tell(std::string event) {
  post([net = inside_.get(), event = std::make_shared<const std::string>(std::move(event))] {
    const std::set<Talk*> open = net->talks;
    for (Talk* talk : open) {
      if (!talk->listening.empty()) talk->say(event);
    }
  });
}

void Net::hush(std::string device) {
  post([net = inside_.get(), device = std::move(device)] {
    const std::set<Talk*> open = net->talks;
    for (Talk* talk : open) {
      if (talk->listening == device) talk->cut();
    }
  });
}

void Net::post(std::function<void()> work) {
  asio::post(inside_->io, std::move(work));
}

namespace {

void repeat(asio::steady_timer& timer, std::chrono::milliseconds time,
            const std::shared_ptr<std::function<void()>>& work) {
  timer.expires_after(time);
  timer.async_wait([&timer, time, work](beast::error_code cancelled) {
    if (cancelled) return;
    (*work)();
    repeat(timer, time, work);
  });
}

}  // namespace

void Net::every(std::chrono::milliseconds time, std::function<void()> work) {
  repeat(inside_->repeating.emplace_back(inside_->io), time,
         std::make_shared<std::function<void()>>(std::move(work)));
}

}  // namespace hw::server
