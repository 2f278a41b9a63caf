#pragma once
// huewright serve as a person runs it: a process of its own.
#include <sys/types.h>

#include <cstdint>
#include <string>
#include <vector>

#include "server/client.h"

namespace hw::test {

/// The program, serving, until it is ended or this goes.
class Served {
 public:
  explicit Served(const std::string& book, const std::vector<std::string>& more = {});
  ~Served();
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  /// Reads what it prints until some text stands there.
  bool hear(const std::string& text);
  /// Exit code, or minus the signal.
  int end(int signal);
  [[nodiscard]] const std::string& said() const { return said_; }
  /// What stands in what it said between some text and the next space or line end.
  [[nodiscard]] std::string after(const std::string& text) const;
  [[nodiscard]] std::uint16_t port() const;
  /// Memory that it holds [bytes], by /proc.
  [[nodiscard]] std::size_t memory() const;

 private:
  pid_t child_ = 0;
  int out_ = -1;
  std::string said_;
};

/// Asks to be let in with a code.
Answer pair(std::uint16_t port, const std::string& code);
/// The secret of a device that the printed link let in.
std::string let_in(const Served& program);

}  // namespace hw::test
