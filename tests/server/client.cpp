#include "server/client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

namespace hw::test {

Wire::Wire(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_port = htons(port);
  place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (::connect(socket_, reinterpret_cast<sockaddr*>(&place), sizeof place) != 0) {
    ::close(socket_);
    socket_ = -1;
  }
}

Wire::Wire(Wire&& other) noexcept : socket_(std::exchange(other.socket_, -1)) {}

Wire::~Wire() {
  if (socket_ >= 0) ::close(socket_);
}

bool Wire::send(std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

void Wire::end_sending() const {
  ::shutdown(socket_, SHUT_WR);
}

std::string Wire::receive(std::chrono::milliseconds within) const {
  pollfd one{socket_, POLLIN, 0};
  if (::poll(&one, 1, static_cast<int>(within.count())) <= 0) return {};
  std::array<char, 65536> piece{};
  const ssize_t got = ::recv(socket_, piece.data(), piece.size(), 0);
  return got <= 0 ? std::string() : std::string(piece.data(), static_cast<std::size_t>(got));
}

std::string Wire::receive_all(std::chrono::milliseconds silence) const {
  std::string all;
  for (;;) {
    const std::string piece = receive(silence);
    if (piece.empty()) return all;
    all += piece;
  }
}

bool Wire::is_closed(std::chrono::milliseconds within) const {
  pollfd one{socket_, POLLIN, 0};
  const auto until = std::chrono::steady_clock::now() + within;
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        until - std::chrono::steady_clock::now());
    if (left.count() <= 0 || ::poll(&one, 1, static_cast<int>(left.count())) <= 0) return false;
    std::array<char, 4096> piece{};
    if (::recv(socket_, piece.data(), piece.size(), 0) <= 0) return true;
  }
}

Answer take_answer(std::string& bytes, bool head_only) {
  Answer answer;
  const std::size_t end = bytes.find("\r\n\r\n");
  if (!bytes.starts_with("HTTP/1.1 ") || end == std::string::npos) return answer;
  answer.status = std::atoi(bytes.c_str() + 9);
  std::size_t at = bytes.find("\r\n") + 2;
  while (at < end + 2) {
    const std::size_t stop = bytes.find("\r\n", at);
    const std::string line = bytes.substr(at, stop - at);
    const std::size_t colon = std::min(line.find(": "), line.size());
    std::string name = line.substr(0, colon);
    std::ranges::transform(name, name.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? char(c + 32) : c; });
    answer.headers.emplace(name, line.substr(std::min(colon + 2, line.size())));
    at = stop + 2;
  }
  const std::string length = answer.header("content-length");
  const std::size_t body =
      head_only || length.empty() ? 0 : static_cast<std::size_t>(std::atoll(length.c_str()));
  answer.body = bytes.substr(end + 4, body);
  bytes.erase(0, end + 4 + body);
  return answer;
}

std::string bytes_of(const Ask& ask, std::uint16_t port) {
  const std::string host = "127.0.0.1:" + std::to_string(port);
  std::string out = ask.method + " " + ask.target +
                    " HTTP/1.1\r\nHost: " + (ask.host.empty() ? host : ask.host) + "\r\n";
  const auto usual = [&](const std::string& name, const std::string& value) {
    const bool given = std::ranges::any_of(
        ask.headers, [&](const std::string& header) { return header.starts_with(name + ":"); });
    if (!given) out += name + ": " + value + "\r\n";
  };
  if (ask.method == "POST") {
    usual("Origin", "http://" + host);
    usual("Content-Type", "application/json");
    usual("Content-Length", std::to_string(ask.body.size()));
  }
  if (!ask.cookie.empty()) usual("Cookie", "huewright=" + ask.cookie);
  for (const std::string& header : ask.headers) {
    if (!header.ends_with(":")) out += header + "\r\n";  // a name alone leaves the field out
  }
  return out + "\r\n" + ask.body;
}

Answer asked(std::uint16_t port, const Ask& ask) {
  const Wire wire(port);
  wire.send(bytes_of(ask, port));
  std::string bytes;
  for (;;) {
    const std::string piece = wire.receive();
    if (piece.empty()) return {};
    bytes += piece;
    std::string copy = bytes;
    Answer answer = take_answer(copy, ask.method == "HEAD");
    const std::string length = answer.header("content-length");
    const bool whole = ask.method == "HEAD" || length.empty() ||
                       answer.body.size() == static_cast<std::size_t>(std::atoll(length.c_str()));
    if (answer.status != 0 && whole) return answer;
  }
}

}  // namespace hw::test
