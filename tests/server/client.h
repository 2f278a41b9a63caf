#pragma once
// A client of a few lines over plain sockets, so that the server is not tested against itself.
#include <chrono>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace hw::test {

/// A connection to a port of this machine.
class Wire {
 public:
  explicit Wire(std::uint16_t port);
  ~Wire();
  Wire(Wire&& other) noexcept;
  Wire& operator=(Wire&&) = delete;
  Wire(const Wire&) = delete;

  /// False where the other side has hung up.
  bool send(std::string_view bytes) const;
  /// No more will be sent.
  void end_sending() const;
  /// What comes within a time; empty: nothing, or the other side has hung up.
  std::string receive(std::chrono::milliseconds within = std::chrono::milliseconds(5000)) const;
  /// Everything until the other side hangs up or falls silent.
  std::string receive_all(
      std::chrono::milliseconds silence = std::chrono::milliseconds(5000)) const;
  /// Whether the other side hangs up within a time.
  bool is_closed(std::chrono::milliseconds within) const;

 private:
  int socket_;
};

/// One answer.
struct Answer {
  int status = 0;                                   ///< 0: none came
  std::multimap<std::string, std::string> headers;  ///< names in small letters
  std::string body;
  [[nodiscard]] std::string header(const std::string& name) const {
    const auto at = headers.find(name);
    return at == headers.end() ? "" : at->second;
  }
};
/// The first answer of some bytes; what stands behind it stays in `bytes`. head_only: no body
/// comes.
Answer take_answer(std::string& bytes, bool head_only = false);

/// One request. A POST comes with Content-Length, as JSON, and from the server's own page.
struct Ask {
  std::string method = "GET";
  std::string target = "/";
  std::vector<std::string> headers = {};  ///< "Name: value", in the place of the usual ones
  std::string body = {};
  std::string cookie = {};  ///< secret of a device
  std::string host = {};    ///< empty: the right one
};
/// Its bytes.
std::string bytes_of(const Ask& ask, std::uint16_t port);
/// Asks on a connection of its own.
Answer asked(std::uint16_t port, const Ask& ask);

}  // namespace hw::test
