#include "server/running.h"

#include <gtest/gtest.h>

#include "huewright/book/folder.h"
#include "server/client.h"

namespace hw::test {

TemporaryFolder::TemporaryFolder() : path_(testing::TempDir() + "huewright_served_XXXXXX") {
  if (mkdtemp(path_.data()) == nullptr) std::abort();
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

Running::Running(const std::function<void(server::Settings&)>& change) {
  settings_.port = 0;
  settings_.heeds_signals = false;
  if (change) change(settings_);
  start();
}

Running::~Running() {
  end();
}

void Running::start() {
  auto book = book::Folder::open(folder());
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

std::string Running::device(server::Role role) {
  const std::string body = R"({"code":")" + server_->code_for(role) + R"(","name":"tablet"})";
  const Answer answer = asked(port(), {.method = "POST", .target = "/api/v1/pair", .body = body});
  const std::string cookie = answer.header("set-cookie");
  const std::string name = "huewright=";
  if (answer.status != 200 || !cookie.starts_with(name)) {
    std::fprintf(stderr, "let in: %d %s\n", answer.status, answer.body.c_str()), std::abort();
  }
  return cookie.substr(name.size(), cookie.find(';') - name.size());
}

void Running::again() {
  end();
  start();
}

}  // namespace hw::test
