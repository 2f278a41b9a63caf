// huewright serve: the book and the planner for a browser.
#include <fmt/format.h>

#include <charconv>
#include <csignal>
#include <cstdio>

#include "open_book.h"
#include "page.h"
#include "qr.h"
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

/// The role of --let-in, if it is given.
Result<server::Role> let_in_of(const Asked& asked) {
  const std::string word = option_of(asked, "--let-in");
  if (word.empty()) return server::Role::none;
  auto role = server::role_of(word);
  if (role) return role;
  Error error = role.error();
  error.where = "--let-in";
  return tl::unexpected(error);
}

void say(const std::string& line) {
  fmt::print("{}\n", line);
  std::fflush(stdout);
}

/// A link as something that a tablet's camera reads.
void say_qr(const std::string& link) {
  if (const auto rows = server::qr_rows(link)) say(server::qr_text(*rows));
}

/// How a tablet gets in from the salon's network, in the order in which it is done.
void say_lan(server::Server& server, server::Role role) {
  const server::Links links = server.links();
  say(said(spoken(), "Once per tablet: trust this computer, at {0}", {links.trust + "/"}));
  say_qr(links.trust + "/");
  say(said(spoken(), "SHA-256 of its certificate: {0}", {server.fingerprint()}));
  const std::string code = server.code_for(role);
  const std::string link = fmt::format("{}/#code={}", links.lan, code);
  say('\n' + said(spoken(), "Then let one device in as {0}, at {1}",
                  {said(spoken(), word_of(role)), link}));
  say_qr(link);
}

}  // namespace

Result<Said> run_serve(const Asked& asked) {
  server::Settings settings;
  settings.say = say;
  settings.lan = asked.options.contains("--lan");
  const auto port = port_of(asked);
  if (!port) return tl::unexpected(port.error());
  settings.port = *port;
  const auto let_in = let_in_of(asked);
  if (!let_in) return tl::unexpected(let_in.error());
  auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  std::signal(SIGPIPE, SIG_IGN);  // a page that went away is no reason to stop
  const auto server = server::Server::open(*std::move(book), settings);
  if (!server) return tl::unexpected(server.error());
  if (settings.lan) {
    say_lan(**server, *let_in == server::Role::none ? server::Role::colourist : *let_in);
  } else if (*let_in != server::Role::none) {
    say(said(spoken(), "A code that lets one device in as {0}: {1}",
             {said(spoken(), word_of(*let_in)), (*server)->code_for(*let_in)}));
  }
  say(said(spoken(), "The owner's page, on this machine: {0}", {(*server)->owner_link()}));
  say(std::string(said(spoken(), "Codes are good once, for 5 minutes. Ctrl-C stops the server.")));
  (*server)->run();
  return Said{as_it_is(said(spoken(), "Stopped; the book is closed."))};
}

}  // namespace hw::apps
