#include <gtest/gtest.h>

#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

TEST(ServerHttp, SaysThatItIsThere) {
  Running server;
  const Answer answer = asked(server.port(), {.target = "/api/v1/health"});
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.header("content-type"), "application/json");
  EXPECT_EQ(answer.header("cache-control"), "no-store");
  EXPECT_NE(answer.body.find("\"program\":\""), std::string::npos) << answer.body;
}

TEST(ServerHttp, AnswersSeveralRequestsSentAtOnceInTheirOrder) {
  Running server;
  const Wire wire(server.port());
  const std::string health = bytes_of({.target = "/api/v1/health"}, server.port());
  const std::string nothing = bytes_of({.target = "/api/v1/nothing"}, server.port());
  ASSERT_TRUE(wire.send(health + nothing + health));
  wire.end_sending();
  std::string bytes = wire.receive_all();
  EXPECT_EQ(take_answer(bytes).status, 200);
  EXPECT_EQ(take_answer(bytes).status, 404);
  EXPECT_EQ(take_answer(bytes).status, 200);
  EXPECT_EQ(bytes, "");
}

TEST(ServerHttp, ClosesTheBookWhenItStops) {
  Running server;
  EXPECT_TRUE(std::filesystem::exists(server.folder() + "/open"));
  server.again();
  const Answer answer = asked(server.port(), {.target = "/api/v1/health"});
  EXPECT_EQ(answer.status, 200);
}

}  // namespace
}  // namespace hw::test
