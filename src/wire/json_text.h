#pragma once
// JSON text to a tree, with the limits of wire/json.h.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "huewright/base/result.h"

namespace hw::wire {

/// The tree of a text, or the first fault by line and column or by path.
[[nodiscard]] Result<nlohmann::json> parse_json(std::string_view text);

/// The user's own text for an error: in quotes, cut to 40 bytes, without control characters.
[[nodiscard]] std::string shown(std::string_view text);

/// Whether a text holds a control character (C0, DEL, C1) other than a tab or a line end: a
/// database may cut it there, a terminal obey it.
[[nodiscard]] bool has_control(std::string_view text);

/// The place of a value, kept as a chain on the stack so that it costs nothing until it is printed.
struct Path {
  static constexpr std::size_t kNoIndex = static_cast<std::size_t>(-1);
  const Path* up = nullptr;
  std::string_view key = {};
  std::size_t index = kNoIndex;
  /// "applications[0].minutes"; empty for the whole text.
  [[nodiscard]] std::string text() const;
};

}  // namespace hw::wire
