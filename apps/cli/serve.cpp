// huewright serve: the book and the planner for a browser.
#include <fmt/format.h>

#include <charconv>
#include <csignal>
#include <cstdio>

#include "open_book.h"
#include "server.h"

namespace hw::apps {
namespace {

Result<std::uint16_t> port_of(const Asked& asked) {
  const std::string text = option_of(asked, "--port");
  if (text.empty()) return server::Settings{}.port;
  std::uint16_t port = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), port);
  if (read.ec == std::errc{} && read.ptr == text.data() + text.size()) return port;
  return fail(ErrorCode::out_of_range, "is no port", "--port", "give a number up to 65535");
}

}  // namespace

Result<Said> run_serve(const Asked& asked) {
  server::Settings settings;
  const auto port = port_of(asked);
  if (!port) return tl::unexpected(port.error());
  settings.port = *port;
  auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  std::signal(SIGPIPE, SIG_IGN);  // a page that went away is no reason to stop
  auto server = server::Server::open(*std::move(book), settings);
  if (!server) return tl::unexpected(server.error());
  fmt::print("Huewright is at http://127.0.0.1:{}/ on this machine. Ctrl-C stops it.\n",
             (*server)->port());
  std::fflush(stdout);
  (*server)->run();
  return Said{"Stopped; the book is closed.\n"};
}

}  // namespace hw::apps
