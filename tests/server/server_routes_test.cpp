// Every route there is, asked in every way it must refuse.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "openapi.h"
#include "own_routes.h"
#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using server::Role;
using server::Route;
using testing::HasSubstr;
using testing::Not;

/// A server that no test is too quick for, with a device of each role.
class Routes : public testing::Test {
 protected:
  Routes() {
    for (const Role role : {Role::assistant, Role::colourist, Role::owner}) {
      secrets_.push_back(server_.device(role));
    }
  }
  [[nodiscard]] std::string secret(Role role) const {
    return role == Role::none ? "" : secrets_.at(static_cast<std::size_t>(role) - 1);
  }
  /// A request to a route as somebody who may.
  [[nodiscard]] Ask ask(const Route& route) const {
    std::string target(route.pattern);
    for (std::size_t at = target.find('{'); at != std::string::npos; at = target.find('{')) {
      target.replace(at, target.find('}', at) - at + 1, "01J0000000000000000000000X");
    }
    Ask made;
    made.method = std::string(route.method);
    made.target = target;
    made.cookie = secret(Role::owner);
    if (route.method == "POST") {
      made.headers = {"Content-Type: " + std::string(route.takes)};
      made.body = "{}";
    }
    return made;
  }
  /// Asks and holds the answer against what holds of every answer.
  Answer answer_to(const Ask& ask, const std::string& how) const {
    Answer answer = asked(server_.port(), ask);
    SCOPED_TRACE(how + " " + ask.method + " " + ask.target + " gave " + answer.body);
    EXPECT_NE(answer.status, 0);
    EXPECT_NE(answer.status, 500);
    EXPECT_THAT(answer.header("cache-control"), HasSubstr("no-store"));
    EXPECT_THAT(answer.header("content-security-policy"), HasSubstr("frame-ancestors 'none'"));
    EXPECT_EQ(answer.headers.count("access-control-allow-origin"), 0U);
    EXPECT_THAT(answer.body, Not(HasSubstr(server_.folder())));
    for (const std::string& one : secrets_) EXPECT_THAT(answer.body, Not(HasSubstr(one)));
    if (answer.status >= 400) {
      EXPECT_THAT(answer.body, HasSubstr(R"({"error":{"what":")"));
    }
    return answer;
  }
  void expect(const Ask& ask, int status, const std::string& how) const {
    EXPECT_EQ(answer_to(ask, how).status, status) << how << " " << ask.method << " " << ask.target;
  }

  Running server_{[](server::Settings& settings) { settings.limits.rates_times = 1000; }};
  std::vector<std::string> secrets_;
};

TEST_F(Routes, RefuseWhoeverMayNot) {
  const std::string revoked = server_.device(Role::owner);
  const Answer list = asked(server_.port(), {.target = "/api/v1/devices", .cookie = revoked});
  const std::string id = list.body.substr(list.body.rfind("\"id\":\"") + 6, 26);
  expect({.method = "POST",
          .target = "/api/v1/devices/" + id + "/revoke",
          .body = "{}",
          .cookie = secret(Role::owner)},
         200, "taking out");
  for (const Route& route : server::every_route()) {
    Ask made = ask(route);
    if (route.least != Role::none) {
      made.cookie = "";
      expect(made, 401, "no cookie");
      made.cookie = std::string(64, '0');
      expect(made, 401, "unknown cookie");
      made.cookie = revoked;
      expect(made, 401, "revoked device");
      if (route.least > Role::assistant) {
        made.cookie = secret(static_cast<Role>(static_cast<int>(route.least) - 1));
        expect(made, 403, "too little a role");
      }
    }
  }
}

TEST_F(Routes, RefuseWhatOtherSitesMayCause) {
  for (const Route& route : server::every_route()) {
    Ask made = ask(route);
    const auto with = [&](std::vector<std::string> more) {
      Ask changed = made;
      changed.headers.insert(changed.headers.end(), more.begin(), more.end());
      return changed;
    };
    expect(with({"Sec-Fetch-Site: cross-site"}), 403, "cross-site");
    expect(with({"Sec-Fetch-Site: same-site"}), 403, "same-site");
    expect(with({"Sec-Fetch-Site: "}), 403, "empty site");
    expect(with({"Origin: https://elsewhere.example"}), 403, "other origin");
    expect(with({"Origin: null"}), 403, "no origin");
    if (route.method == "POST") expect(with({"Origin:"}), 403, "neither header");
    made.host = "elsewhere.example";
    expect(made, 421, "other host");
    made.host = "127.0.0.1:1";
    expect(made, 421, "other port");
  }
}

TEST_F(Routes, RefuseBodiesThatAreNone) {
  for (const Route& route : server::every_route()) {
    if (route.method != "POST") continue;
    Ask made = ask(route);
    made.headers = {"Content-Type: text/plain"};
    expect(made, 415, "plain text");
    made.headers = {"Content-Type:"};
    expect(made, 415, "no type");
    made = ask(route);
    made.headers.push_back("Content-Length: " + std::to_string(route.most_body + 1));
    expect(made, 413, "said to be too long");
    if (route.takes != "application/json") continue;
    for (const char* body : {"", "{", "[]", "\xff\xfe", "{\"no key of ours\":1}", "nul"}) {
      made = ask(route);
      made.body = body;
      const int status = answer_to(made, "no JSON of ours").status;
      EXPECT_TRUE(status >= 400 && status < 500 && status != 401 && status != 403)
          << status << " " << route.pattern << " " << body;
    }
  }
}

TEST_F(Routes, KnowTheirMethods) {
  for (const Route& route : server::every_route()) {
    for (const char* method : {"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"}) {
      Ask made = ask(route);
      made.method = method;
      made.body = "";
      const Answer answer = answer_to(made, "method");
      EXPECT_EQ(answer.status, 405) << method << " " << route.pattern;
      EXPECT_THAT(answer.header("allow"), HasSubstr(std::string(route.method)));
    }
  }
}

TEST_F(Routes, RefuseKeysThatAreNone) {
  for (const Route& route : server::every_route()) {
    if (route.method != "POST" || route.pattern == "/api/v1/pair") continue;
    Ask made = ask(route);
    made.headers.push_back("Idempotency-Key: " + std::string(101, 'k'));
    expect(made, 400, "long key");
  }
}

TEST(RoutesFile, IsWhatTheRoutesAre) {
  std::ifstream in(std::string(std::getenv("HW_SOURCE_DIR")) + "/docs/openapi.json");
  const std::string file{std::istreambuf_iterator<char>(in), {}};
  EXPECT_EQ(file, server::openapi_text())
      << "docs/openapi.json is behind: huewright schema openapi > docs/openapi.json";
}

TEST(RoutesTable, HasEveryRouteOnceAndInOrder) {
  std::set<std::pair<std::string_view, std::string_view>> seen;
  for (const Route& route : server::every_route()) {
    EXPECT_TRUE(seen.emplace(route.method, route.pattern).second) << route.pattern;
    EXPECT_TRUE(route.method == "GET" || route.method == "POST") << route.pattern;
    EXPECT_TRUE(route.pattern.starts_with("/api/v1/")) << route.pattern;
    EXPECT_FALSE(route.what.empty()) << route.pattern;
  }
}

}  // namespace
}  // namespace hw::test
