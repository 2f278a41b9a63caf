#pragma once
// A server of a book of its own, on a thread of its own, for as long as this lives.
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <thread>

#include "server.h"

namespace hw::test {

class Running {
 public:
  explicit Running(const std::function<void(server::Settings&)>& change = {});
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  [[nodiscard]] std::uint16_t port() const { return server_->port(); }
  server::Server& operator*() { return *server_; }
  server::Server* operator->() { return server_.get(); }
  [[nodiscard]] const std::string& folder() const { return folder_; }
  /// Stops it and starts it again on the same book.
  void again();

 private:
  void start();
  void end();
  std::string folder_;
  server::Settings settings_;
  std::unique_ptr<server::Server> server_;
  std::thread thread_;
};

}  // namespace hw::test
