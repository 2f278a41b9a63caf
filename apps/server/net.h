#pragma once
// The sockets: one thread that reads requests, asks Front, and writes answers. Asio is known to
// net_plain.cpp and net_tls.cpp alone.
#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "certificates.h"
#include "front.h"

namespace hw::server {

class Net {
 public:
  explicit Net(Front& front);
  ~Net();
  Net(const Net&) = delete;
  Net& operator=(const Net&) = delete;

  /// Opens a door without TLS and gives its port. address: "127.0.0.1"; port 0: any that is free.
  /// Error: io.
  Result<std::uint16_t> open(const std::string& address, std::uint16_t port, Door door);

  /// Opens a door with TLS 1.2 or newer.
  Result<std::uint16_t> open_tls(const std::string& address, std::uint16_t port, Door door,
                                 const Identity& identity);
  /// The machine is called otherwise on the network from now on. Error: io.
  Result<void> change_lan(const std::vector<std::string>& names, const Identity& identity);

  /// SIGINT and SIGTERM stop it from now on, also before it runs.
  void heed_signals();
  /// Serves until it is stopped. Requests under way are answered first.
  void run();
  /// From any thread.
  void stop();
  /// What every page is told that starts to listen.
  void set_greeting(std::function<std::string()> greeting);
  /// Sends some text to every page that listens, from any thread.
  void tell(std::string event);
  /// Ends the streams of a device, from any thread.
  void hush(std::string device);
  /// Runs something on the thread of the network, from any thread.
  void post(std::function<void()> work);
  /// Runs something on the thread of the network again and again.
  void every(std::chrono::milliseconds time, std::function<void()> work);

  struct Inside;

 private:
  std::unique_ptr<Inside> inside_;
};

}  // namespace hw::server
