#pragma once
// The server of one open book: its doors, threads and clock put together.
#include <memory>
#include <string>

#include "lan.h"
#include "net.h"
#include "own_routes.h"

namespace hw::server {

struct Settings {
  std::uint16_t port = 8463;  ///< of the door for this machine; 0: any that is free
  bool lan = false;           ///< two more doors, to the salon's network: port + 1 and port + 2
  unsigned threads = 2;       ///< that handlers run on
  bool heeds_signals = true;  ///< SIGINT and SIGTERM stop it
  Limits limits;
  /// Lines for the person at the machine.
  std::function<void(const std::string&)> say = [](const std::string&) {};
  /// What the machine is called; tests set another.
  std::function<Lan()> lan_now = server::lan_now;
};

class Server {
 public:
  /// Opens the doors. A book whose last stop was unclean is looked through first; where something
  /// is found, it is served without writing. Errors: io, where another program has a port;
  /// conflict, where another server has the folder; malformed files of devices.
  [[nodiscard]] static Result<std::unique_ptr<Server>> open(std::unique_ptr<book::Folder> folder,
                                                            const Settings& settings);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Serves until it is stopped.
  void run();
  /// From any thread.
  void stop();

  [[nodiscard]] std::uint16_t port() const;
  /// With `lan`; else 0 and empty.
  [[nodiscard]] std::uint16_t tls_port() const;
  [[nodiscard]] std::uint16_t trust_port() const;
  [[nodiscard]] const std::string& fingerprint() const;
  [[nodiscard]] Links links() const;
  /// Looks whether the network calls this machine otherwise by now; done every ten minutes anyway.
  Result<void> look_at_lan();
  [[nodiscard]] Service& service();
  /// A link that makes the browser that opens it the owner's, on this machine alone.
  [[nodiscard]] std::string owner_link();
  /// A code that lets one device in.
  [[nodiscard]] std::string code_for(Role role);

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace hw::server
