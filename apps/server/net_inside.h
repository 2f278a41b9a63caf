#pragma once
// What net_plain.cpp and net_tls.cpp share; nothing else may include this.
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/beast/core.hpp>
#include <list>
#include <map>
#include <set>

#include "net.h"

namespace hw::server {

namespace asio = boost::asio;
namespace beast = boost::beast;
using Tcp = asio::ip::tcp;

/// One open connection, whatever it runs over.
class Talk {
 public:
  Talk() = default;
  Talk(const Talk&) = delete;
  Talk& operator=(const Talk&) = delete;
  virtual ~Talk() = default;
  /// The server stops: ends at once unless a request is under way.
  virtual void wind_up() = 0;
  /// Ends now.
  virtual void cut() = 0;
  /// Sends some text behind what is already on its way; of a talk that listens.
  virtual void say(const std::shared_ptr<const std::string>& text) = 0;
  /// Of a talk that listens: the device whose page it is. Empty: it does not listen.
  std::string listening;
};

/// One listening socket and the talks that came in by it.
struct Listener {
  Listener(asio::io_context& io, Door door_of)
      : acceptor(io), retry(io), door(std::move(door_of)) {}
  Tcp::acceptor acceptor;
  asio::steady_timer retry;
  Door door;
  std::size_t talks = 0;
  std::map<std::string, std::size_t> talks_of_peer;
  /// Starts a talk on an accepted socket.
  std::function<void(Tcp::socket, std::string peer)> start;
};

struct Net::Inside {
  explicit Inside(Front& front_of) : front(front_of), signals(io), last_call(io) {}
  asio::io_context io{1};
  Front& front;
  asio::signal_set signals;
  asio::steady_timer last_call;
  std::list<Listener> listeners;
  std::list<asio::steady_timer> repeating;
  std::set<Talk*> talks;
  bool stopping = false;
  std::function<std::string()> greeting = [] { return std::string(); };

  /// A bound and listening socket. Error: io.
  Result<Listener*> listen(const std::string& address, std::uint16_t port, Door door);
  void accept(Listener& listener);
  void begin_stop();
  void talk_ended(Talk* talk, Listener& listener, const std::string& peer);
};

}  // namespace hw::server
