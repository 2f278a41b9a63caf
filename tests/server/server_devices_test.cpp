#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <iterator>

#include "own_routes.h"
#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using server::Role;
using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

Answer paired(const Running& server, const std::string& code, const std::string& name = "tablet") {
  return asked(server.port(), {.method = "POST",
                               .target = "/api/v1/pair",
                               .body = R"({"code":")" + code + R"(","name":")" + name + R"("})"});
}

TEST(ServerDevices, ACodeLetsOneDeviceInOnce) {
  Running server;
  const std::string code = server->code_for(Role::colourist);
  EXPECT_EQ(code.size(), 6U);
  const Answer answer = paired(server, code, "tablet at chair 1");
  EXPECT_EQ(answer.status, 200);
  EXPECT_THAT(answer.body, HasSubstr(R"("name":"tablet at chair 1","role":"colourist")"));
  const std::string cookie = answer.header("set-cookie");
  EXPECT_THAT(cookie, HasSubstr("; Path=/; HttpOnly; SameSite=Strict; "));
  EXPECT_THAT(cookie, Not(HasSubstr("Secure")));  // plain, on this machine alone
  EXPECT_EQ(paired(server, code).status, 403);
}

TEST(ServerDevices, OnlyAHashOfTheSecretIsOnDisk) {
  Running server;
  const std::string secret = server.device(Role::owner);
  EXPECT_EQ(secret.size(), 64U);
  const std::string file = server.folder() + "/devices.json";
  EXPECT_THAT(text_of(file), Not(HasSubstr(secret)));
  struct stat status {};
  ASSERT_EQ(::stat(file.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
}

TEST(ServerDevices, AreKnownAfterAnotherStartAndGoneWhenTakenOut) {
  Running server;
  const std::string owner = server.device(Role::owner);
  server.again();
  const Answer list = asked(server.port(), {.target = "/api/v1/devices", .cookie = owner});
  ASSERT_EQ(list.status, 200) << list.body;
  const std::string id = list.body.substr(list.body.find("\"id\":\"") + 6, 26);
  const Ask revoke{.method = "POST",
                   .target = "/api/v1/devices/" + id + "/revoke",
                   .body = "{}",
                   .cookie = owner};
  EXPECT_EQ(asked(server.port(), revoke).status, 200);
  EXPECT_EQ(asked(server.port(), {.target = "/api/v1/devices", .cookie = owner}).status, 401);
  server.again();
  EXPECT_EQ(asked(server.port(), {.target = "/api/v1/devices", .cookie = owner}).status, 401);
}

TEST(ServerDevices, TheOwnerGetsACodeWithItsQr) {
  Running server;
  const std::string owner = server.device(Role::owner);
  const Answer answer = asked(server.port(), {.method = "POST",
                                              .target = "/api/v1/pairings",
                                              .body = R"({"role":"assistant"})",
                                              .cookie = owner});
  ASSERT_EQ(answer.status, 200) << answer.body;
  const std::string code = answer.body.substr(answer.body.find("\"code\":\"") + 8, 6);
  EXPECT_THAT(answer.body, HasSubstr("/#code=" + code + "\""));
  EXPECT_THAT(answer.body, HasSubstr(R"("qr":["1111111)"));  // a corner of every QR code
  EXPECT_THAT(paired(server, code).body, HasSubstr(R"("role":"assistant")"));
}

TEST(ServerDevices, OneThatPairsAgainStaysOneDevice) {
  Running server;
  const std::string owner = server.device(Role::owner);
  const Answer again =
      asked(server.port(),
            {.method = "POST",
             .target = "/api/v1/pair",
             .body = R"({"code":")" + server->code_for(Role::owner) + R"(","name":"desk"})",
             .cookie = owner});
  ASSERT_EQ(again.status, 200);
  EXPECT_EQ(asked(server.port(), {.target = "/api/v1/devices", .cookie = owner}).status, 401);
  const std::string cookie = again.header("set-cookie").substr(10, 64);
  const Answer list = asked(server.port(), {.target = "/api/v1/devices", .cookie = cookie});
  EXPECT_THAT(list.body, HasSubstr(R"("name":"desk")"));
  EXPECT_THAT(list.body, Not(HasSubstr("tablet")));
}

TEST(ServerDevices, WrongCodesCostTimeAndTheOwnerIsShownANewLink) {
  std::mutex mutex;
  std::string said;
  Running server([&](server::Settings& settings) {
    settings.say = [&](const std::string& line) {
      const std::lock_guard lock(mutex);
      said += line + '\n';
    };
  });
  EXPECT_EQ(paired(server, "not a code").status, 403);
  const Answer early = paired(server, server->code_for(Role::assistant));
  EXPECT_EQ(early.status, 429);
  EXPECT_EQ(early.header("retry-after"), "1");
  const std::lock_guard lock(mutex);
  EXPECT_THAT(said, HasSubstr("/#code="));
}

TEST(ServerDevices, NeverMoreThan25) {
  const std::string file = testing::TempDir() + "huewright_devices.json";
  std::filesystem::remove(file);
  auto devices = server::Devices::open(file).value();
  process::Moment now{std::chrono::sys_days(std::chrono::year(2025) / 5 / 14), {}};
  std::string first;
  for (std::size_t i = 0; i < server::kMostDevices; ++i) {
    now.utc += std::chrono::minutes(1);
    const auto paired = devices->pair("tablet", Role::assistant, now, "", false);
    ASSERT_TRUE(paired);
    if (i == 0) first = paired->device.id;
  }
  EXPECT_EQ(devices->pair("one more", Role::assistant, now, "", false).error().code,
            ErrorCode::conflict);
  // The owner at the machine always gets in; the one not seen for longest goes.
  EXPECT_TRUE(devices->pair("desk", Role::owner, now, "", true));
  const auto all = devices->all();
  EXPECT_EQ(all.size(), server::kMostDevices);
  EXPECT_TRUE(std::ranges::none_of(all, [&](const auto& device) { return device.id == first; }));
  std::filesystem::remove(file);
}

TEST(ServerDevices, AFileThatIsNoneIsSaidInOneLine) {
  const TemporaryFolder folder;
  std::ofstream(folder.path() + "/devices.json") << "{\"devices\": 5}";
  const auto devices = server::Devices::open(folder.path() + "/devices.json");
  ASSERT_FALSE(devices);
  EXPECT_THAT(one_line(devices.error()), HasSubstr("devices.json: devices"));
}

TEST(ServerCodes, RunOutAfterFiveMinutesAndStayOnTheirMachine) {
  server::Pairing pairing;
  const server::Clock::time_point start{};
  const std::string code = pairing.issue(Role::assistant, false, start);
  EXPECT_FALSE(pairing.redeem(code, false, start + server::kCodeTime));
  const std::string owner = pairing.issue(Role::owner, true, start);
  EXPECT_FALSE(pairing.redeem(owner, false, start));
  EXPECT_TRUE(pairing.waits_here(start));
  EXPECT_EQ(pairing.redeem(owner, true, start), Role::owner);
  EXPECT_FALSE(pairing.waits_here(start));
}

TEST(ServerRates, GiveBackWithTime) {
  using namespace std::chrono_literals;
  server::Rates rates;
  const server::Rate rate{2, 3000ms};
  const server::Clock::time_point start{};
  EXPECT_FALSE(rates.take("a", rate, start));
  EXPECT_FALSE(rates.take("a", rate, start));
  EXPECT_EQ(rates.take("a", rate, start), 1500ms);
  EXPECT_FALSE(rates.take("b", rate, start));
  EXPECT_FALSE(rates.take("a", rate, start + 1500ms));
  EXPECT_TRUE(rates.take("a", rate, start + 1500ms));
}

TEST(ServerRates, FailuresDoubleTheWaitAndNeverShutOutForGood) {
  using namespace std::chrono_literals;
  server::Delays delays;
  const server::Clock::time_point start{};
  EXPECT_FALSE(delays.left("here", start));
  delays.failed("here", 0, start);
  EXPECT_EQ(delays.left("here", start), 1000ms);
  delays.failed("here", 0, start);
  EXPECT_EQ(delays.left("here", start), 2000ms);
  for (int i = 0; i < 100; ++i) delays.failed("here", 0, start);
  EXPECT_EQ(delays.left("here", start), server::Delays::kLongest);
  EXPECT_FALSE(delays.left("here", start + server::Delays::kLongest));
  delays.succeeded("here");
  delays.failed("here", 0, start);
  EXPECT_EQ(delays.left("here", start), 1000ms);
}

}  // namespace
}  // namespace hw::test
