#pragma once
// Reading this floor's own tables. They are sealed by hash and covered by tests, so a fault in one
// is a programmer's mistake and stops the program.
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "huewright/base/csv.h"

namespace hw::hair {

/// The value of a Result that an embedded table cannot fail.
template <class T>
[[nodiscard]] T sound(Result<T> result) {
  if (!result) {
    std::fprintf(stderr, "embedded table: %s\n", one_line(result.error()).c_str());
    std::abort();
  }
  return *std::move(result);
}

[[nodiscard]] inline Table embedded(std::string_view text, std::string name) {
  return sound(parse_table(text, std::move(name)));
}

}  // namespace hw::hair
