#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "pages.h"
#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using server::Page;
using server::page_at;
using testing::HasSubstr;

constexpr std::array kPages{
    Page{"/index.html", "text/html; charset=utf-8", "\"aa\"", "<p>page</p>"},
    Page{"/assets/page-1.js", "text/javascript; charset=utf-8", "\"bb\"", "let x;", "smaller"},
};

std::string header(const server::Reply& reply, std::string_view name) {
  for (const auto& [known, value] : reply.headers) {
    if (known == name) return value;
  }
  return {};
}

TEST(ServerPages, GiveFilesWithTypeAndTag) {
  const auto reply = page_at("/assets/page-1.js", "", kPages);
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(reply.type, "text/javascript; charset=utf-8");
  EXPECT_EQ(reply.body, "let x;");
  EXPECT_EQ(header(reply, "ETag"), "\"bb\"");
  EXPECT_THAT(header(reply, "Cache-Control"), HasSubstr("immutable"));
}

TEST(ServerPages, GiveTheOnePageAtEveryAddressOfItsOwn) {
  for (const char* path : {"/", "/visit/01J", "/shelf", "/index.html"}) {
    const auto reply = page_at(path, "", kPages);
    EXPECT_EQ(reply.status, 200) << path;
    EXPECT_EQ(reply.body, "<p>page</p>") << path;
    EXPECT_EQ(header(reply, "Cache-Control"), "no-cache") << path;
  }
  EXPECT_EQ(page_at("/assets/gone.js", "", kPages).status, 404);
  EXPECT_EQ(page_at("/../etc/passwd.txt", "", kPages).status, 404);
}

TEST(ServerPages, GiveTheSmallerFormToWhoeverTakesIt) {
  for (const char* accepts : {"gzip", "br, gzip", "deflate,gzip;q=0.5", "*"}) {
    const auto reply = page_at("/assets/page-1.js", "", kPages, accepts);
    EXPECT_EQ(reply.body, "smaller") << accepts;
    EXPECT_EQ(header(reply, "Content-Encoding"), "gzip") << accepts;
    EXPECT_EQ(header(reply, "Vary"), "Accept-Encoding") << accepts;
    EXPECT_EQ(header(reply, "ETag"), "\"bb-gzip\"") << accepts;
  }
  for (const char* accepts : {"", "br", "gzip;q=0", "gzip;q=0.0", "x-gzipped"}) {
    const auto reply = page_at("/assets/page-1.js", "", kPages, accepts);
    EXPECT_EQ(reply.body, "let x;") << accepts;
    EXPECT_EQ(header(reply, "Content-Encoding"), "") << accepts;
  }
  EXPECT_EQ(page_at("/assets/page-1.js", "\"bb-gzip\"", kPages, "gzip").status, 304);
  EXPECT_EQ(page_at("/assets/page-1.js", "\"bb\"", kPages, "gzip").status, 200);
  EXPECT_EQ(page_at("/", "", kPages, "gzip").body, "<p>page</p>");
}

TEST(ServerPages, SayThatNothingChanged) {
  const auto reply = page_at("/", "\"zz\", \"aa\"", kPages);
  EXPECT_EQ(reply.status, 304);
  EXPECT_EQ(reply.body, "");
  EXPECT_EQ(page_at("/", "\"zz\"", kPages).status, 200);
}

TEST(ServerPages, WithoutAPageSayHowToGetOne) {
  const auto reply = page_at("/", "", {});
  EXPECT_EQ(reply.status, 200);
  EXPECT_THAT(reply.body, HasSubstr("npm run build"));
}

TEST(ServerPages, ComeWithTheHeadersThatKeepThemApart) {
  Running server;
  const Answer answer = asked(server.port(), {.target = "/"});
  EXPECT_EQ(answer.status, 200);
  const std::string policy = answer.header("content-security-policy");
  EXPECT_THAT(policy, HasSubstr("default-src 'self';"));
  EXPECT_THAT(policy, testing::Not(HasSubstr("unsafe")));
  EXPECT_EQ(answer.header("x-content-type-options"), "nosniff");
  const Answer head = asked(server.port(), {.method = "HEAD", .target = "/"});
  EXPECT_EQ(head.header("content-length"), answer.header("content-length"));
  EXPECT_EQ(head.body, "");
}

}  // namespace
}  // namespace hw::test
