#include "api/program.h"

#include <gtest/gtest.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace hw::test {
namespace {

std::string contents(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string program() {
  const char* path = std::getenv("HW_PROGRAM");
  if (path == nullptr) {
    std::fprintf(stderr, "HW_PROGRAM does not name the program; run through ctest\n");
    std::abort();
  }
  return path;
}

int exit_code_of(int status) {
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

TemporaryFile::TemporaryFile(const std::string& content)
    : path_(testing::TempDir() + "huewright_XXXXXX") {
  const int handle = mkstemp(path_.data());
  if (handle < 0) {
    std::perror(path_.c_str());
    std::abort();
  }
  close(handle);
  std::ofstream(path_, std::ios::binary) << content;
}

TemporaryFile::~TemporaryFile() {
  std::remove(path_.c_str());
}

Ran run_program(const std::string& arguments, const std::string& input, const std::string& before) {
  const TemporaryFile in(input);
  const TemporaryFile err("");
  const std::string command =
      before + " '" + program() + "' " + arguments + " <'" + in.path() + "' 2>'" + err.path() + "'";
  Ran ran;
  std::FILE* pipe = popen(command.c_str(), "r");
  std::array<char, 4096> buffer{};
  while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe)) {
    ran.out.append(buffer.data(), got);
  }
  ran.exit_code = exit_code_of(pclose(pipe));
  ran.err = contents(err.path());
  return ran;
}

Ran run_on_terminal(const std::string& arguments, const std::string& input,
                    const std::string& before) {
  const TemporaryFile in(input);
  const std::string command =
      before + " '" + program() + "' " + arguments + " <'" + in.path() + "'";
  int terminal = -1;
  const pid_t child = forkpty(&terminal, nullptr, nullptr, nullptr);
  if (child == 0) {
    execl("/bin/sh", "sh", "-c", command.c_str(), nullptr);
    _exit(127);  // no shell
  }
  Ran ran;
  std::array<char, 4096> buffer{};
  for (ssize_t got = 1; got > 0;) {  // ends with an error once the program has closed its side
    got = read(terminal, buffer.data(), buffer.size());
    if (got > 0) ran.out.append(buffer.data(), static_cast<std::size_t>(got));
  }
  int status = 0;
  waitpid(child, &status, 0);
  close(terminal);
  ran.exit_code = exit_code_of(status);
  return ran;
}

std::string lift_request(double minutes, const std::string& rest) {
  std::ostringstream out;
  out << R"({"hair":{"level":3,"strand_um":73,"opened":1.0},"applications":[{"parts":[)"
      << R"({"kind":"lightener","grams":30},{"kind":"developer","grams":60,"peroxide_percent":6}],)"
      << R"("grams_per_gram_hair":3,"temperature_c":22,"minutes":)" << minutes
      << R"(,"on_scalp":false,"covered":false,"water_held_g_per_g":0}])" << rest << "}";
  return out.str();
}

}  // namespace hw::test
