#pragma once
// The OpenAPI file, made from the routes themselves.
#include <string>

namespace hw::server {

/// OpenAPI 3.1 of every route, with the least role of each as "x-least-role"; indented, with a
/// final line break.
[[nodiscard]] std::string openapi_text();

}  // namespace hw::server
