#pragma once
// A running server and what it needs.
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <thread>

#include "server.h"

namespace hw::test {

/// A folder of its own; gone when the guard is.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// A server of a book of its own, on a thread of its own, for as long as this lives.
class Running {
 public:
  explicit Running(const std::function<void(server::Settings&)>& change = {});
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  [[nodiscard]] std::uint16_t port() const { return server_->port(); }
  server::Server& operator*() { return *server_; }
  server::Server* operator->() { return server_.get(); }
  [[nodiscard]] const std::string& folder() const { return folder_.path(); }
  /// Lets a device in and gives its secret.
  [[nodiscard]] std::string device(server::Role role);
  /// Stops it and starts it again on the same book.
  void again();

 private:
  void start();
  void end();
  TemporaryFolder folder_;
  server::Settings settings_;
  std::unique_ptr<server::Server> server_;
  std::thread thread_;
};

}  // namespace hw::test
