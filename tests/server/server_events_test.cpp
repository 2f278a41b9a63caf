#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using namespace std::chrono_literals;
using server::Role;
using testing::HasSubstr;

/// An open stream; gives what came until some text stands in it.
class Listening {
 public:
  Listening(std::uint16_t port, const std::string& cookie) : wire_(port) {
    wire_.send(bytes_of({.target = "/api/v1/events", .cookie = cookie}, port));
  }
  bool hears(const std::string& text) {
    while (heard_.find(text) == std::string::npos) {
      const std::string piece = wire_.receive();
      if (piece.empty()) return false;
      heard_ += piece;
    }
    heard_.erase(0, heard_.find(text) + text.size());
    return true;
  }
  [[nodiscard]] bool is_closed() const { return wire_.is_closed(5s); }
  [[nodiscard]] const std::string& heard() const { return heard_; }

 private:
  Wire wire_;
  std::string heard_;
};

TEST(ServerEvents, TellWhatChangedAndTheTime) {
  Running server([](server::Settings& settings) { settings.limits.clock_every = 200ms; });
  Listening page(server.port(), server.device(Role::assistant));
  EXPECT_TRUE(page.hears("HTTP/1.1 200 OK\r\n"));
  EXPECT_TRUE(page.hears("Content-Type: text/event-stream\r\n"));
  EXPECT_TRUE(page.hears("Cache-Control: no-store\r\n"));
  EXPECT_TRUE(page.hears("event: clock\ndata: {\"now\":\"20"));  // at once
  EXPECT_TRUE(page.hears("event: clock\n"));                     // and again
  server->service().tell({"visit", "01J0"});
  EXPECT_TRUE(page.hears("event: changed\ndata: {\"about\":\"visit\",\"id\":\"01J0\"}\n\n"));
}

TEST(ServerEvents, ReachTwoHundredPagesWhileOthersAsk) {
  Running server;
  const std::string cookie = server.device(Role::assistant);
  std::vector<std::unique_ptr<Listening>> pages;
  for (int i = 0; i < 200; ++i) {
    pages.push_back(std::make_unique<Listening>(server.port(), cookie));
    ASSERT_TRUE(pages.back()->hears("event: clock\n")) << i;
  }
  for (int round = 0; round < 5; ++round) {
    const std::string id = "id" + std::to_string(round);
    server->service().tell({"client", id});
    EXPECT_EQ(asked(server.port(), {.target = "/api/v1/health"}).status, 200);
    for (const auto& page : pages) EXPECT_TRUE(page->hears("\"id\":\"" + id + "\"}\n\n"));
  }
}

TEST(ServerEvents, EndForADeviceThatIsTakenOut) {
  Running server;
  const std::string owner = server.device(Role::owner);
  const std::string tablet = server.device(Role::assistant);
  Listening page(server.port(), tablet);
  Listening stays(server.port(), owner);
  ASSERT_TRUE(page.hears("event: clock\n"));
  ASSERT_TRUE(stays.hears("event: clock\n"));
  const Answer list = asked(server.port(), {.target = "/api/v1/devices", .cookie = owner});
  const std::string id = list.body.substr(list.body.rfind("\"id\":\"") + 6, 26);
  EXPECT_EQ(asked(server.port(), {.method = "POST",
                                  .target = "/api/v1/devices/" + id + "/revoke",
                                  .body = "{}",
                                  .cookie = owner})
                .status,
            200);
  EXPECT_TRUE(page.is_closed());
  server->service().tell({"visit", "01J0"});
  EXPECT_TRUE(stays.hears("event: changed\n"));
}

TEST(ServerEvents, LetGoOfAPageThatDoesNotRead) {
  Running server([](server::Settings& settings) { settings.limits.stream_bytes = 4096; });
  const std::string cookie = server.device(Role::assistant);
  Listening stuck(server.port(), cookie);
  Listening reads(server.port(), cookie);
  ASSERT_TRUE(stuck.hears("event: clock\n"));
  ASSERT_TRUE(reads.hears("event: clock\n"));
  const std::string much(1000, 'x');
  for (int i = 0; i < 10'000; ++i) {  // more than the sockets hold between them
    server->service().tell({"visit", much + std::to_string(i)});
    ASSERT_TRUE(reads.hears("x" + std::to_string(i) + "\"}\n\n")) << i;
  }
  EXPECT_TRUE(stuck.is_closed());
}

TEST(ServerEvents, EndWhenTheServerStops) {
  Running server;
  Listening page(server.port(), server.device(Role::assistant));
  ASSERT_TRUE(page.hears("event: clock\n"));
  const auto start = std::chrono::steady_clock::now();
  server.again();
  EXPECT_LT(std::chrono::steady_clock::now() - start, 3s);
  EXPECT_TRUE(page.is_closed());
}

}  // namespace
}  // namespace hw::test
