#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "answers.h"
#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using server::Answers;
using server::Keyed;
using server::Reply;
using server::Role;
using testing::HasSubstr;
using testing::Not;

process::Moment moment(int hour) {
  return {std::chrono::sys_days(std::chrono::year(2025) / 5 / 14) + std::chrono::hours(hour), {}};
}

/// Answers in a file of their own.
class Remembered : public testing::Test {
 protected:
  void open(int hour = 10) { answers_ = Answers::open(file(), moment(hour)).value(); }
  [[nodiscard]] std::string file() const { return folder_.path() + "/answers.jsonl"; }
  /// What is said at once to this request; status 0: it is to be done.
  Reply said(const Keyed& keyed) {
    Reply said;
    said.status = 0;
    answers_->begin(keyed, [&](Reply reply) { said = std::move(reply); });
    return said;
  }
  void done(const Keyed& keyed, const std::string& body, int status = 200, int hour = 10) {
    ASSERT_EQ(said(keyed).status, 0);
    Reply reply;
    reply.status = status;
    reply.body = body;
    ASSERT_TRUE(answers_->finish(keyed, reply, moment(hour)));
  }
  [[nodiscard]] std::string text() const {
    std::ifstream in(file(), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  TemporaryFolder folder_;
  std::unique_ptr<Answers> answers_;
};

TEST_F(Remembered, AreGivenAgainAlsoAfterAnotherStart) {
  open();
  done({"tablet", "k1", "a"}, R"({"id":"1"})");
  EXPECT_EQ(said({"tablet", "k1", "a"}).body, R"({"id":"1"})");
  EXPECT_EQ(said({"phone", "k1", "a"}).status, 0);
  open();
  EXPECT_EQ(said({"tablet", "k1", "a"}).body, R"({"id":"1"})");
}

TEST_F(Remembered, AKeyIsForOneRequest) {
  open();
  done({"tablet", "k1", "a"}, "{}");
  EXPECT_EQ(said({"tablet", "k1", "b"}).status, 422);
  EXPECT_EQ(said({"tablet", "k2", "a"}).status, 0);
  EXPECT_EQ(said({"tablet", "k2", "b"}).status, 422);  // also while it is under way
}

TEST_F(Remembered, WhoAsksMeanwhileWaitsForTheSameAnswer) {
  open();
  const Keyed keyed{"tablet", "k1", "a"};
  ASSERT_EQ(said(keyed).status, 0);
  std::string heard;
  EXPECT_FALSE(answers_->begin(keyed, [&](const Reply& reply) { heard = reply.body; }));
  EXPECT_EQ(heard, "");
  Reply reply;
  reply.body = R"({"id":"1"})";
  ASSERT_TRUE(answers_->finish(keyed, reply, moment(10)));
  EXPECT_EQ(heard, R"({"id":"1"})");
}

TEST_F(Remembered, WhatFailedIsTriedAgain) {
  open();
  done({"tablet", "k1", "a"}, "{}", 409);
  EXPECT_EQ(said({"tablet", "k1", "a"}).status, 0);
}

TEST_F(Remembered, GoAfterADayAndBeyondAThousand) {
  open();
  done({"tablet", "old", "a"}, "{}");
  open(34);
  EXPECT_EQ(said({"tablet", "old", "a"}).status, 0);
  EXPECT_EQ(text(), "");
  for (std::size_t i = 0; i <= server::kMostAnswers; ++i) {
    done({"tablet", std::to_string(i), "a"}, "{}", 200, 34);
  }
  EXPECT_EQ(said({"tablet", "0", "a"}).status, 0);
  EXPECT_EQ(said({"tablet", "1", "a"}).status, 200);
  open(35);
  EXPECT_EQ(said({"tablet", "1", "a"}).status, 200);
  ASSERT_TRUE(answers_->drop_old(moment(60)));
  EXPECT_EQ(text(), "");
}

TEST_F(Remembered, ALineThatACrashLeftHalfIsPassedOver) {
  open();
  done({"tablet", "k1", "a"}, "{}");
  done({"tablet", "k2", "a"}, "{}");
  const std::string whole = text();
  for (std::size_t cut = 0; cut < whole.size(); cut += 7) {
    std::ofstream(file(), std::ios::trunc) << whole.substr(0, cut);
    open();
    const bool first_whole = cut >= whole.find('\n');
    EXPECT_EQ(said({"tablet", "k1", "a"}).status, first_whole ? 200 : 0) << cut;
  }
}

TEST_F(Remembered, AreForgottenOnDiskToo) {
  open();
  done({"tablet", "k1", "a"}, R"({"name":"Ana Bell"})");
  EXPECT_THAT(text(), HasSubstr("Ana Bell"));
  ASSERT_TRUE(answers_->forget());
  EXPECT_EQ(text(), "");
  EXPECT_EQ(said({"tablet", "k1", "a"}).status, 0);
}

TEST(ServerAnswers, AreTheSameAfterTheServerStartedAnew) {
  Running server;
  const std::string owner = server.device(Role::owner);
  const Ask ask{.method = "POST",
                .target = "/api/v1/pairings",
                .headers = {"Idempotency-Key: tablet-17"},
                .body = R"({"role":"assistant"})",
                .cookie = owner};
  const Answer first = asked(server.port(), ask);
  ASSERT_EQ(first.status, 200) << first.body;
  EXPECT_EQ(asked(server.port(), ask).body, first.body);
  server.again();
  Ask other = ask;
  EXPECT_EQ(asked(server.port(), ask).body, first.body);
  other.body = R"({"role":"owner"})";
  EXPECT_EQ(asked(server.port(), other).status, 422);
  other.headers = {};
  EXPECT_THAT(asked(server.port(), other).body, Not(HasSubstr(first.body)));
}

}  // namespace
}  // namespace hw::test
