#include "server/served.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <fstream>

namespace hw::test {

Served::Served(const std::string& book, const std::vector<std::string>& more) {
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

Served::~Served() {
  if (child_ > 0) end(SIGKILL);
  ::close(out_);
}

bool Served::hear(const std::string& text) {
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

int Served::end(int signal) {
  ::kill(child_, signal);
  int status = 0;
  ::waitpid(child_, &status, 0);
  child_ = 0;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

std::string Served::after(const std::string& text) const {
  const std::size_t at = said_.find(text);
  if (at == std::string::npos) return {};
  const std::size_t start = at + text.size();
  return said_.substr(start, said_.find_first_of(" \n", start) - start);
}

std::uint16_t Served::port() const {
  return static_cast<std::uint16_t>(std::stoi(after("http://127.0.0.1:")));
}

std::size_t Served::memory() const {
  std::ifstream pages("/proc/" + std::to_string(child_) + "/statm");
  std::size_t all = 0, held = 0;
  pages >> all >> held;
  return held * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

Answer pair(std::uint16_t port, const std::string& code) {
  return asked(port, {.method = "POST",
                      .target = "/api/v1/pair",
                      .body = R"({"code":")" + code + R"(","name":"desk"})"});
}

std::string let_in(const Served& program) {
  const std::string link = program.after("this machine: ");
  const std::string cookie =
      pair(program.port(), link.substr(link.find('=') + 1)).header("set-cookie");
  return cookie.substr(10, 64);
}

}  // namespace hw::test
