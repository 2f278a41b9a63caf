// huewright serve as a person runs it: started, stopped, killed.
#include <gmock/gmock.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "api/program.h"
#include "server/client.h"
#include "server/running.h"
#include "server/served.h"

namespace hw::test {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(ServerProgram, TheLinkItPrintsMakesTheOwner) {
  const TemporaryFolder folder;
  Served program(folder.path(), {"--let-in", "assistant"});
  const std::string link = program.after("this machine: ");
  EXPECT_THAT(link, HasSubstr("/#code="));
  const Answer answer = pair(program.port(), link.substr(link.find('=') + 1));
  EXPECT_EQ(answer.status, 200);
  EXPECT_THAT(answer.body, HasSubstr(R"("role":"owner")"));
  EXPECT_THAT(pair(program.port(), program.after("in as assistant: ")).body,
              HasSubstr(R"("role":"assistant")"));
}

TEST(ServerProgram, StopsCleanlyOnEitherSignal) {
  const TemporaryFolder folder;
  for (const int signal : {SIGTERM, SIGINT}) {
    Served program(folder.path());
    EXPECT_TRUE(std::filesystem::exists(folder.path() + "/open"));
    EXPECT_EQ(program.end(signal), 0);
    EXPECT_TRUE(program.hear("Stopped; the book is closed.\n"));
    EXPECT_FALSE(std::filesystem::exists(folder.path() + "/open"));
  }
}

TEST(ServerProgram, AfterAKillTheDevicesAndAnswersAreThere) {
  const TemporaryFolder folder;
  std::string cookie;
  Ask ask;
  std::string first;
  {
    Served program(folder.path());
    cookie = let_in(program);
    ask = {.method = "POST",
           .target = "/api/v1/pairings",
           .headers = {"Idempotency-Key: k"},
           .body = R"({"role":"assistant"})",
           .cookie = cookie};
    first = asked(program.port(), ask).body;
    EXPECT_EQ(program.end(SIGKILL), -SIGKILL);
  }
  Served program(folder.path());
  EXPECT_THAT(program.said(), HasSubstr("The last stop was not a clean one"));
  EXPECT_EQ(asked(program.port(), {.target = "/api/v1/devices", .cookie = cookie}).status, 200);
  EXPECT_EQ(asked(program.port(), ask).body, first);
  EXPECT_THAT(first, HasSubstr("\"code\""));
}

/// Changes one letter of a name in the file of a closed book.
void spoil(const std::string& book, const std::string& name) {
  std::fstream file(book + "/book.db", std::ios::in | std::ios::out | std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  // The body of the fact, not the list beside it.
  const std::size_t at = bytes.find("\"name\":\"" + name);
  ASSERT_NE(at, std::string::npos);
  file.clear();
  file.seekp(static_cast<std::streamoff>(at + 8));
  file.put('X');
}

TEST(ServerProgram, LooksTheBookThroughBehindTheFirstPage) {
  const TemporaryFolder book;
  const std::string name = "Ada Quill";
  const auto add = [&](const Served& server, const std::string& cookie) {
    return asked(server.port(), {.method = "POST",
                                 .target = "/api/v1/clients",
                                 .body = R"({"name":")" + name + R"("})",
                                 .cookie = cookie});
  };
  std::string cookie;
  {
    Served server(book.path());
    cookie = let_in(server);
    EXPECT_EQ(asked(server.port(), {.target = "/"}).status, 200);
    EXPECT_EQ(add(server, cookie).status, 200);
    EXPECT_EQ(server.end(SIGTERM), 0);
    EXPECT_TRUE(server.hear("Stopped; the book is closed."));
    EXPECT_THAT(server.said(), Not(HasSubstr("wrong with the book")));
  }
  spoil(book.path(), name);
  Served server(book.path());
  EXPECT_THAT(server.said(), Not(HasSubstr("wrong with the book")));  // a clean stop: not yet
  EXPECT_EQ(asked(server.port(), {.target = "/"}).status, 200);
  EXPECT_TRUE(server.hear("it is not as it was written")) << server.said();
  EXPECT_TRUE(server.hear("huewright doctor says what to do."));
  const Answer refused = add(server, cookie);
  EXPECT_EQ(refused.status, 409);
  EXPECT_THAT(refused.body, HasSubstr("nothing more is kept"));
  EXPECT_EQ(server.end(SIGTERM), 0);
}

TEST(ServerProgram, OneServerPerBookAndPort) {
  const TemporaryFolder folder;
  const TemporaryFolder other;
  Served program(folder.path());
  const Ran same = run_program("serve --port 0 --book '" + folder.path() + "'");
  EXPECT_EQ(same.exit_code, 2);
  EXPECT_THAT(same.err, HasSubstr("another huewright serves this book; stop that one"));
  const Ran port = run_program("serve --port " + std::to_string(program.port()) + " --book '" +
                               other.path() + "'");
  EXPECT_EQ(port.exit_code, 2);
  EXPECT_THAT(port.err, HasSubstr("stop what else listens there, or give another --port"));
}

TEST(ServerProgram, SaysWhatIsWrongWithItsOptions) {
  const TemporaryFolder folder;
  const std::string book = " --book '" + folder.path() + "'";
  const Ran role = run_program("serve --let-in king" + book);
  EXPECT_EQ(role.exit_code, 2);
  EXPECT_EQ(role.err, "--let-in: \"king\" is no role; give assistant, colourist or owner\n");
  for (const char* port : {"x", "65536", "-1", "80x"}) {
    const Ran ran = run_program(std::string("serve --port '") + port + "'" + book);
    EXPECT_EQ(ran.exit_code, 2) << port;
    EXPECT_THAT(ran.err, HasSubstr("--port: is no port; give a number up to 65535")) << port;
  }
}

}  // namespace
}  // namespace hw::test
