#pragma once
// The server of one open book: its doors, threads and clock put together.
#include <memory>

#include "net.h"
#include "server_limits.h"
#include "service.h"

namespace hw::server {

struct Settings {
  std::uint16_t port = 8463;  ///< of the door for this machine; 0: any that is free
  unsigned threads = 2;       ///< that handlers run on
  bool heeds_signals = true;  ///< SIGINT and SIGTERM stop it
  Limits limits;
};

class Server {
 public:
  /// Opens the doors. Error: io, where another program has a port.
  [[nodiscard]] static Result<std::unique_ptr<Server>> open(std::unique_ptr<book::Folder> folder,
                                                            const Settings& settings);
  /// Serves until it is stopped.
  void run();
  /// From any thread.
  void stop() { net_.stop(); }

  [[nodiscard]] std::uint16_t port() const { return port_; }
  [[nodiscard]] Service& service() { return service_; }

 private:
  Server(std::unique_ptr<book::Folder> folder, const Settings& settings);
  // In this order: what stands below uses what stands above.
  Service service_;
  std::unique_ptr<Workers> workers_;
  Front front_;
  Net net_;
  std::uint16_t port_ = 0;
  bool heeds_signals_;
};

}  // namespace hw::server
