// Whatever bytes come, at whatever pace: the server answers or hangs up, and goes on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using namespace std::chrono_literals;
using server::Role;
using testing::HasSubstr;

/// Sends bytes and gives the status of the first answer; 0: hung up without one.
int status_of(std::uint16_t port, const std::string& bytes) {
  const Wire wire(port);
  wire.send(bytes);
  wire.end_sending();
  std::string heard = wire.receive_all();
  return take_answer(heard).status;
}

bool is_well(std::uint16_t port) {
  return asked(port, {.target = "/api/v1/health"}).status == 200;
}

std::string host(std::uint16_t port) {
  return "Host: 127.0.0.1:" + std::to_string(port) + "\r\n";
}

TEST(ServerHostile, HeadersThatAreNone) {
  Running server;
  const std::uint16_t port = server.port();
  const std::string right = host(port);
  const auto get = [&](const std::string& line, const std::string& rest) {
    return status_of(port, line + "\r\n" + rest + "\r\n");
  };
  EXPECT_EQ(get("GET /api/v1/health HTTP/1.1", right), 200);
  EXPECT_EQ(get("GET /api/v1/health HTTP/1.1", ""), 400);
  EXPECT_EQ(get("GET /api/v1/health HTTP/1.1", right + right), 400);
  EXPECT_EQ(get("GET /api/v1/health HTTP/1.1", "Host: 127.0.0.1\r\n"), 421);
  EXPECT_EQ(get("GET /api/v1/health HTTP/2.0", right), 400);
  EXPECT_EQ(get("GET  /api/v1/health HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET http://127.0.0.1/api/v1/health HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET * HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET /%zz HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET /%00 HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET /%ff HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET /a/%2e%2e/b HTTP/1.1", right), 400);
  EXPECT_EQ(get("GET /?a=1&a=2 HTTP/1.1", right), 400);
  EXPECT_EQ(get("hello", right), 400);
  EXPECT_EQ(get("GET / HTTP/1.1", right + "X: " + std::string(9000, 'x') + "\r\n"), 431);
  std::string many;
  for (int i = 0; i < 100; ++i) many += "X" + std::to_string(i) + ": 1\r\n";
  EXPECT_EQ(get("GET / HTTP/1.1", right + many), 431);
  EXPECT_EQ(get("GET / HTTP/1.1", right + "Bad header\r\n"), 400);
  EXPECT_EQ(get("GET / HTTP/1.1", right + "Origin: a\r\nOrigin: b\r\n"), 400);
}

TEST(ServerHostile, BodiesFramedInTwoWays) {
  Running server([](server::Settings& settings) { settings.limits.rates_times = 1000; });
  const std::uint16_t port = server.port();
  const std::string start = "POST /api/v1/pair HTTP/1.1\r\n" + host(port) +
                            "Origin: http://127.0.0.1:" + std::to_string(port) +
                            "\r\nContent-Type: application/json\r\n";
  EXPECT_EQ(status_of(port, start + "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n{}"),
            400);
  EXPECT_EQ(status_of(port, start + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}"), 400);
  EXPECT_EQ(status_of(port, start + "Content-Length: -1\r\n\r\n{}"), 400);
  EXPECT_EQ(status_of(port, start + "Content-Length: 99999999999999999999\r\n\r\n{}"), 400);
  EXPECT_EQ(status_of(port, start + "Content-Length: 1025\r\n\r\n{}"), 413);
  // A body in pieces is read as one, up to the same limit.
  EXPECT_EQ(status_of(port, start + "Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n"), 400);
  std::string pieces;
  for (int i = 0; i < 600; ++i) pieces += "2\r\n{}\r\n";
  EXPECT_EQ(status_of(port, start + "Transfer-Encoding: chunked\r\n\r\n" + pieces + "0\r\n\r\n"),
            413);
  EXPECT_EQ(status_of(port, start + "Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n"),
            400);
  // One that never comes whole.
  EXPECT_EQ(status_of(port, start + "Content-Length: 20\r\n\r\n{}"), 400);
  EXPECT_TRUE(is_well(port));
}

TEST(ServerHostile, ABodyIsAnnouncedAndAwaited) {
  Running server;
  const std::uint16_t port = server.port();
  const Wire wire(port);
  wire.send(bytes_of({.method = "POST",
                      .target = "/api/v1/pair",
                      .headers = {"Expect: 100-continue", "Content-Length: 2"}},
                     port));
  EXPECT_EQ(wire.receive(), "HTTP/1.1 100 Continue\r\n\r\n");
  wire.send("{}");
  std::string heard = wire.receive();
  EXPECT_EQ(take_answer(heard).status, 400);
}

TEST(ServerHostile, WhoSendsSlowlyIsHungUpOn) {
  Running server([](server::Settings& settings) {
    settings.limits.header_time = 300ms;
    settings.limits.silence = 200ms;
    settings.limits.idle_time = 400ms;
  });
  const std::uint16_t port = server.port();
  const Wire silent(port);
  EXPECT_TRUE(silent.is_closed(2s));
  // A byte now and then does not buy more time.
  const Wire slow(port);
  const std::string request = bytes_of({.target = "/api/v1/health"}, port);
  const auto start = std::chrono::steady_clock::now();
  for (const char c : request) {
    if (!slow.send(std::string(1, c)) || slow.is_closed(50ms)) break;
  }
  EXPECT_LT(std::chrono::steady_clock::now() - start, 1500ms);
  const Wire body(port);
  body.send(bytes_of(
      {.method = "POST", .target = "/api/v1/pair", .headers = {"Content-Length: 20"}, .body = "{"},
      port));
  EXPECT_TRUE(body.is_closed(2s));
  const Wire idle(port);
  idle.send(request);
  EXPECT_THAT(idle.receive(), HasSubstr("200 OK"));
  EXPECT_FALSE(idle.is_closed(100ms));
  EXPECT_TRUE(idle.is_closed(2s));
  EXPECT_TRUE(is_well(port));
}

TEST(ServerHostile, MoreConnectionsThanItHolds) {
  Running server([](server::Settings& settings) {
    settings.limits.connections = 20;
    settings.limits.header_time = 500ms;
  });
  std::vector<Wire> wires;
  for (int i = 0; i < 60; ++i) wires.emplace_back(server.port());
  int closed = 0;
  for (int i = 0; i < 60; ++i) closed += wires[static_cast<std::size_t>(i)].is_closed(5ms) ? 1 : 0;
  EXPECT_GE(closed, 40);
  std::this_thread::sleep_for(700ms);  // the idle ones have gone
  EXPECT_TRUE(is_well(server.port()));
}

TEST(ServerHostile, AskingTooOften) {
  Running server;
  const std::string cookie = server.device(Role::owner);
  int refused = 0;
  std::string after;
  for (int i = 0; i < 320; ++i) {
    const Answer answer = asked(server.port(), {.target = "/api/v1/devices", .cookie = cookie});
    if (answer.status != 429) continue;
    ++refused;
    after = answer.header("retry-after");
  }
  EXPECT_GT(refused, 0);
  EXPECT_EQ(after, "1");
  EXPECT_TRUE(is_well(server.port()));  // another asker
}

/// One request of each kind, as raw bytes.
std::vector<std::string> seeds(std::uint16_t port, const std::string& cookie) {
  return {
      bytes_of({.target = "/api/v1/health"}, port),
      bytes_of({.target = "/api/v1/devices?x=%41+b&y", .cookie = cookie}, port),
      bytes_of({.method = "POST",
                .target = "/api/v1/pair",
                .body = R"({"code":"123456","name":"tablet"})"},
               port),
      bytes_of({.method = "POST",
                .target = "/api/v1/pairings",
                .headers = {"Idempotency-Key: k", "Transfer-Encoding: chunked", "Content-Length:"},
                .body = "14\r\n{\"role\":\"assistant\"}\r\n0\r\n\r\n",
                .cookie = cookie},
               port),
      bytes_of({.target = "/assets/x.js", .headers = {"If-None-Match: \"a\""}}, port),
      bytes_of({.target = "/api/v1/events", .cookie = cookie}, port),
  };
}

/// Some bytes changed, doubled, left out, or put in the wrong place.
std::string mutated(std::string bytes, std::mt19937& random) {
  const auto below = [&](std::size_t limit) { return random() % std::max<std::size_t>(limit, 1); };
  static constexpr std::string_view kNasty[] = {"\r\n\r\n",
                                                "\r\n",
                                                "\n",
                                                "\r",
                                                ": ",
                                                "%",
                                                "%00",
                                                "%ff",
                                                "\xff\xfe",
                                                "HTTP/9.9",
                                                "{",
                                                "\"",
                                                "Content-Length: 99999999\r\n",
                                                "Transfer-Encoding: chunked\r\n",
                                                "Connection: close\r\n",
                                                "Expect: 100-continue\r\n",
                                                "Host: x\r\n",
                                                "ffffffffffffffff",
                                                "0\r\n\r\n",
                                                " ",
                                                "\t",
                                                ";",
                                                "Cookie: huewright=\r\n",
                                                "../",
                                                "?",
                                                "#",
                                                "&",
                                                "=",
                                                std::string_view("\0", 1)};
  for (std::size_t changes = 1 + below(4); changes > 0; --changes) {
    const std::size_t at = below(bytes.size() + 1);
    switch (below(5)) {
      case 0:
        if (at < bytes.size()) bytes[at] = static_cast<char>(below(256));
        break;
      case 1:
        bytes.erase(at, below(40));
        break;
      case 2:
        bytes.insert(at, kNasty[below(std::size(kNasty))]);
        break;
      case 3:
        bytes.insert(at, bytes.substr(below(bytes.size()), below(60)));
        break;
      default:
        bytes.insert(at, std::string(below(3000), static_cast<char>(below(256))));
    }
  }
  return bytes;
}

TEST(ServerHostile, ThousandsOfChangedRequests) {
  Running server([](server::Settings& settings) {
    settings.limits.rates_times = 1e6;
    settings.limits.silence = 500ms;
  });
  const std::uint16_t port = server.port();
  const std::string cookie = server.device(Role::owner);
  const auto all = seeds(port, cookie);
  std::mt19937 random(20250514);
  int answered = 0;
  constexpr int kRounds = 4000;
  for (int i = 0; i < kRounds; ++i) {
    const Wire wire(port);
    wire.send(mutated(all[random() % all.size()], random));
    wire.end_sending();
    std::string heard = wire.receive(200ms);
    const Answer answer = take_answer(heard);
    if (answer.status == 0) continue;
    ++answered;
    EXPECT_NE(answer.status, 500) << answer.body;
  }
  EXPECT_GT(answered, kRounds / 4);
  EXPECT_TRUE(is_well(port));
  EXPECT_EQ(asked(port, {.target = "/api/v1/devices", .cookie = cookie}).status, 200);
}

TEST(ServerHostile, WhoHangsUpInTheMiddle) {
  Running server;
  const std::uint16_t port = server.port();
  const std::string request = bytes_of(
      {.method = "POST", .target = "/api/v1/pair", .body = R"({"code":"1","name":"a"})"}, port);
  for (std::size_t cut = 0; cut <= request.size(); cut += 3) {
    const Wire wire(port);
    wire.send(request.substr(0, cut));
  }
  EXPECT_TRUE(is_well(port));
}

TEST(ServerHostile, NothingIsKeptOnAFullDisk) {
  Running server([](server::Settings& settings) {
    settings.limits.least_free_bytes = std::uint64_t{1} << 62U;
  });
  const std::string cookie = server.device(Role::owner);  // letting in still works
  for (const server::Route& route : server::routes()) {
    if (route.method != "POST") continue;
    std::string target(route.pattern);
    if (target.find('{') != std::string::npos) target.replace(target.find('{'), 4, "01J0");
    const Answer answer =
        asked(server.port(), {.method = "POST",
                              .target = target,
                              .headers = {"Content-Type: " + std::string(route.takes)},
                              .body = "{}",
                              .cookie = cookie});
    EXPECT_EQ(answer.status == 507, route.stores) << target << " " << answer.body;
  }
}

}  // namespace
}  // namespace hw::test
