#pragma once
// The target of a request line: path and query, decoded by hand (RFC 3986, origin form only).
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::server {

struct Target {
  std::string path;                ///< decoded, without the query
  std::vector<std::string> parts;  ///< of the path, each decoded on its own: a %2F stays inside
  std::map<std::string, std::string, std::less<>> query;  ///< decoded; + is a space
};

/// Most keys of a query [1]; house rule, no source: the longest of ours has three.
inline constexpr std::size_t kMostQueryKeys = 50;

/// Reads a target. Errors, all malformed: not starting with one slash, a % without two hex digits,
/// bytes that are no UTF-8 or control characters, a part that is "." or "..", a key twice, too many
/// keys.
[[nodiscard]] Result<Target> target_of(std::string_view text);

}  // namespace hw::server
