// Eight tablets at work on one server: whatever they ask, its memory stays where it was. A few
// seconds here; HW_SOAK_SECONDS makes it longer (scripts/long soak: an hour).
#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <thread>

#include "huewright/book/folder.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/wire/case_file.h"
#include "server/running.h"
#include "server/served.h"

namespace hw::test {
namespace {

using nlohmann::json;
using Clock = std::chrono::steady_clock;

constexpr int kTablets = 8;

std::string source(const std::string& path) {
  std::ifstream file(std::string(std::getenv("HW_SOURCE_DIR")) + "/" + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// One device and what it asks.
class Tablet {
 public:
  Tablet(std::uint16_t port, std::string cookie) : port_(port), cookie_(std::move(cookie)) {}

  json get(const std::string& target) const {
    return read(asked(port_, {.target = target, .cookie = cookie_}), target);
  }
  json post(const std::string& target, const json& body) const {
    return read(
        asked(port_, {.method = "POST", .target = target, .body = body.dump(), .cookie = cookie_}),
        target);
  }
  /// A connection that listens to the server's events.
  [[nodiscard]] Wire listening() const {
    Wire wire(port_);
    EXPECT_TRUE(wire.send(bytes_of({.target = "/api/v1/events", .cookie = cookie_}, port_)));
    return wire;
  }

  /// A client with a planned visit.
  void settle(int number) {
    client_ = post("/api/v1/clients", {{"name", "Client " + std::to_string(number)}})["id"];
    visit_ = post("/api/v1/visits",
                  {{"client", client_}, {"starts_at", "2025-05-14T10:00+02:00"}})["id"];
    json head = json::parse(source("cases/01-coils-to-mahogany.json"));
    for (const char* key : {"shelf_file", "tests", "salon"}) head.erase(key);
    planned_ = post("/api/v1/visits/" + visit_ + "/plan", {{"case", head}, {"course", 1}});
    ASSERT_FALSE(planned_.is_null());
  }

  /// What a tablet asks in some minutes of a visit.
  void work(int round) const {
    get("/api/v1/clients?find=cli");
    get("/api/v1/clients/" + client_);
    get("/api/v1/visits/" + visit_);
    get("/api/v1/visits/" + visit_ + "/run");
    get("/api/v1/shelf");
    if (round % 4 == 0) {
      post("/api/v1/visits/" + visit_ + "/facts",
           {{"facts", {{{"kind", "pain"}, {"body", {{"place", "nape"}, {"done", "rinsed"}}}}}}});
    }
  }

 private:
  static json read(const Answer& answer, const std::string& target) {
    if (answer.status == 429) return {};  // it asks too often, as it should be told
    EXPECT_EQ(answer.status, 200) << target << ": " << answer.body;
    return json::parse(answer.body, nullptr, false);
  }
  std::uint16_t port_;
  std::string cookie_;
  std::string client_, visit_;
  json planned_;
};

/// A book with a shelf.
void fill(const std::string& path) {
  const auto folder = book::Folder::open(path);
  ASSERT_TRUE(folder) << one_line(folder.error());
  const auto shelf = wire::decode<wire::ShelfFile>(source("cases/shelves/small.json"));
  std::vector<book::Fact> facts;
  for (const process::Product& product : shelf->shelf) {
    book::ProductFact made;
    made.product = product;
    facts.push_back(
        book::make_fact("p-" + product.id, product.id, "2025-05-14T09:00:00+02:00", "Ines", made));
  }
  const auto kept = (*folder)->store().append(facts);
  ASSERT_TRUE(kept) << one_line(kept.error());
}

/// Lets a tablet in; codes are tried no faster than the server lets them be.
std::string paired(const Served& server, const std::string& owner) {
  for (;;) {
    const Answer made = asked(server.port(), {.method = "POST",
                                              .target = "/api/v1/pairings",
                                              .body = R"({"role":"colourist"})",
                                              .cookie = owner});
    if (made.status == 200) {
      const Answer in = pair(server.port(), json::parse(made.body)["code"]);
      if (in.status == 200) return in.header("set-cookie").substr(10, 64);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(500));
  }
}

double seconds_to_run() {
  const char* said = std::getenv("HW_SOAK_SECONDS");
  return said == nullptr ? 12 : std::atof(said);
}

TEST(ServerSoak, EightTabletsAndNoMoreMemoryThanAtFirst) {
  const TemporaryFolder book;
  fill(book.path());
  Served server(book.path());
  const std::string owner = let_in(server);
  std::vector<Tablet> tablets;
  for (int i = 0; i < kTablets; ++i) {
    tablets.emplace_back(server.port(), paired(server, owner));
    tablets.back().settle(i);
  }

  const double seconds = seconds_to_run();
  // A short run asks faster than people do; a long one leaves the machine to others.
  const std::chrono::milliseconds pause(seconds < 100 ? 100 : 1000);
  std::atomic<bool> done = false;
  std::vector<std::jthread> hands;
  std::atomic<int> rounds = 0;
  for (const Tablet& tablet : tablets) {
    hands.emplace_back([&done, &rounds, &tablet, pause] {
      std::optional<Wire> ear(tablet.listening());
      for (int round = 0; !done; ++round) {
        tablet.work(round);
        (void)ear->receive(std::chrono::milliseconds(1));
        if (round % 50 == 49) ear.emplace(tablet.listening());  // reloaded
        ++rounds;
        std::this_thread::sleep_for(pause);
      }
    });
  }
  std::this_thread::sleep_for(std::chrono::duration<double>(seconds / 3));
  const std::size_t warm = server.memory();
  std::this_thread::sleep_for(std::chrono::duration<double>(seconds * 2 / 3));
  const std::size_t late = server.memory();
  done = true;
  hands.clear();
  std::printf("%d rounds of %d tablets in %.0f s: %.1f MB after a third, %.1f MB at the end\n",
              rounds.load(), kTablets, seconds, static_cast<double>(warm) / 1e6,
              static_cast<double>(late) / 1e6);
  EXPECT_GT(rounds, 2 * kTablets);
  // Room for the database's cache (64 MB at most when full) and a heap that breathes; an answer
  // leaked each round would pass it within minutes.
  constexpr std::size_t kBreath = 8'000'000;
  EXPECT_LT(late, warm + kBreath);
  EXPECT_EQ(server.end(SIGTERM), 0);
}

}  // namespace
}  // namespace hw::test
