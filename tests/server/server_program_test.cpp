// huewright serve as a person runs it: started, stopped, killed.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <filesystem>

#include "api/program.h"
#include "server/client.h"
#include "server/running.h"

namespace hw::test {
namespace {

using testing::HasSubstr;

/// The program, serving.
class Served {
 public:
  explicit Served(const std::string& book, std::vector<std::string> more = {}) {
    std::array<int, 2> pipe{};
    if (::pipe2(pipe.data(), O_CLOEXEC) != 0) std::abort();
    std::vector<std::string> words = {
        std::getenv("HW_PROGRAM"), "serve", "--port", "0", "--book", book};
    words.insert(words.end(), more.begin(), more.end());
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    child_ = ::fork();
    if (child_ == 0) {
      ::dup2(pipe[1], STDOUT_FILENO);
      ::execv(arguments.front(), arguments.data());
      ::_exit(127);
    }
    ::close(pipe[1]);
    out_ = pipe[0];
    hear("stops the server.\n");
  }
  ~Served() {
    if (child_ > 0) end(SIGKILL);
    ::close(out_);
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  /// Reads what it prints until some text stands there.
  bool hear(const std::string& text) {
    std::array<char, 4096> piece{};
    while (said_.find(text) == std::string::npos) {
      pollfd one{out_, POLLIN, 0};
      if (::poll(&one, 1, 10'000) <= 0) return false;
      const ssize_t got = ::read(out_, piece.data(), piece.size());
      if (got <= 0) return false;
      said_.append(piece.data(), static_cast<std::size_t>(got));
    }
    return true;
  }
  /// Exit code, or minus the signal.
  int end(int signal) {
    ::kill(child_, signal);
    int status = 0;
    ::waitpid(child_, &status, 0);
    child_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  }
  [[nodiscard]] const std::string& said() const { return said_; }
  /// What stands in what it said between some text and the next space or line end.
  [[nodiscard]] std::string after(const std::string& text) const {
    const std::size_t at = said_.find(text);
    if (at == std::string::npos) return {};
    const std::size_t start = at + text.size();
    return said_.substr(start, said_.find_first_of(" \n", start) - start);
  }
  [[nodiscard]] std::uint16_t port() const {
    return static_cast<std::uint16_t>(std::stoi(after("http://127.0.0.1:")));
  }

 private:
  pid_t child_ = 0;
  int out_ = -1;
  std::string said_;
};

Answer pair(std::uint16_t port, const std::string& code) {
  return asked(port, {.method = "POST",
                      .target = "/api/v1/pair",
                      .body = R"({"code":")" + code + R"(","name":"desk"})"});
}

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
    const std::string link = program.after("this machine: ");
    cookie = pair(program.port(), link.substr(link.find('=') + 1)).header("set-cookie");
    cookie = cookie.substr(10, 64);
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
