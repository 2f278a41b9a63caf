#pragma once
// What holds of any bytes given to a decoder: a fault in one clean line, or a message that survives
// being written and read again.
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/wire/json.h"

namespace hw::fuzz {

inline void check_error(const Error& error) {
  const std::string line = one_line(error);
  HW_CHECK(!error.message.empty() && !error.hint.empty());
  HW_CHECK(line.size() < 1000);
  HW_CHECK(std::none_of(line.begin(), line.end(),
                        [](char c) { return static_cast<unsigned char>(c) < 0x20; }));
}

/// The message of the bytes, if they are one.
template <class Message>
std::optional<Message> taken(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  auto message = wire::decode<Message>(text);
  if (!message) {
    check_error(message.error());
    return std::nullopt;
  }
  const std::string written = wire::encode(*message);
  const auto again = wire::decode<Message>(written);
  HW_CHECK(again.has_value());
  HW_CHECK(wire::encode(*again) == written);
  return *std::move(message);
}

/// An answer can be written (every number finite), or its error is one clean line.
template <class Answer>
void check_answer(const Result<Answer>& answer) {
  if (answer) {
    HW_CHECK(!wire::encode(*answer).empty());
  } else {
    check_error(answer.error());
  }
}

}  // namespace hw::fuzz
