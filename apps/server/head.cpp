#include "head.h"

#include <algorithm>

#include "text.h"

namespace hw::server {

bool Door::knows(std::string_view host) const {
  const std::string given = lower(host);
  const std::string port_text = ":" + std::to_string(port);
  const bool default_port = port == (secure() ? 443 : 80);
  return std::ranges::any_of(names, [&](const std::string& name) {
    return given == name + port_text || (default_port && given == name);
  });
}

std::string_view Head::field(std::string_view name) const {
  for (const auto& [known, value] : fields) {
    if (known == name) return value;
  }
  return {};
}

std::size_t Head::count(std::string_view name) const {
  return static_cast<std::size_t>(
      std::ranges::count_if(fields, [&](const auto& field) { return field.first == name; }));
}

}  // namespace hw::server
