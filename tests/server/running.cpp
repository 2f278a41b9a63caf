#include "server/running.h"

#include <gtest/gtest.h>

#include "huewright/book/folder.h"

namespace hw::test {

Running::Running(const std::function<void(server::Settings&)>& change)
    : folder_(testing::TempDir() + "huewright_served_XXXXXX") {
  if (mkdtemp(folder_.data()) == nullptr) std::abort();
  settings_.port = 0;
  settings_.heeds_signals = false;
  if (change) change(settings_);
  start();
}

Running::~Running() {
  end();
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

void Running::start() {
  auto book = book::Folder::open(folder_);
  if (!book) std::fprintf(stderr, "%s\n", one_line(book.error()).c_str()), std::abort();
  auto server = server::Server::open(*std::move(book), settings_);
  if (!server) std::fprintf(stderr, "%s\n", one_line(server.error()).c_str()), std::abort();
  server_ = *std::move(server);
  thread_ = std::thread([this] { server_->run(); });
}

void Running::end() {
  server_->stop();
  thread_.join();
  server_.reset();
}

void Running::again() {
  end();
  start();
}

}  // namespace hw::test
