// The server with its doors to a network, wherever the machine stands: what huewright serve --lan
// opens, on a machine that is called "desk" and has the address 127.0.0.1. For the page's tests in
// a browser, which must not depend on the network of the machine they run on.
//   hw_test_lan_server FOLDER      prints "lan HTTPS-PORT TRUST-PORT CODE" and serves until SIGTERM
#include <cstdio>

#include "huewright/book/folder.h"
#include "server.h"

int main(int count, char** words) {
  using namespace hw;
  if (count != 2) {
    std::fputs("hw_test_lan_server FOLDER\n", stderr);
    return 2;
  }
  auto book = book::Folder::open(words[1]);
  if (!book) {
    std::fprintf(stderr, "%s\n", one_line(book.error()).c_str());
    return 2;
  }
  server::Settings settings;
  settings.port = 0;
  settings.lan = true;
  settings.lan_now = [] { return server::Lan{"desk", {"127.0.0.1"}}; };
  const auto server = server::Server::open(*std::move(book), settings);
  if (!server) {
    std::fprintf(stderr, "%s\n", one_line(server.error()).c_str());
    return 2;
  }
  std::printf("lan %d %d %s\n", (*server)->tls_port(), (*server)->trust_port(),
              (*server)->code_for(server::Role::owner).c_str());
  std::fflush(stdout);
  (*server)->run();
  return 0;
}
