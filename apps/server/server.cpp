#include "server.h"

#include <thread>

namespace hw::server {

Server::Server(std::unique_ptr<book::Folder> folder, const Settings& settings)
    : service_(std::move(folder), make_thread_pool(std::thread::hardware_concurrency())),
      workers_(std::make_unique<Workers>(settings.threads, settings.limits.waiting)),
      front_(service_, *workers_, settings.limits),
      net_(front_),
      heeds_signals_(settings.heeds_signals) {}

Result<std::unique_ptr<Server>> Server::open(std::unique_ptr<book::Folder> folder,
                                             const Settings& settings) {
  std::unique_ptr<Server> server(new Server(std::move(folder), settings));
  Door here;
  here.kind = Door::Kind::here;
  here.names = {"127.0.0.1", "localhost"};
  const auto port = server->net_.open("127.0.0.1", settings.port, std::move(here));
  if (!port) return tl::unexpected(port.error());
  server->port_ = *port;
  return server;
}

void Server::run() {
  net_.run(heeds_signals_);
  workers_.reset();  // what they still do is done before the book closes
}

}  // namespace hw::server
