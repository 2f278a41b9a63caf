#include "match.h"

namespace hw::server {
namespace {

/// Whether a pattern fits the parts of a path; what stood for each {…} goes into `taken`.
bool fits(std::string_view pattern, const std::vector<std::string>& parts,
          std::vector<std::string>& taken) {
  taken.clear();
  for (const std::string& part : parts) {
    if (pattern.empty()) return false;
    pattern.remove_prefix(1);  // the slash
    const std::string_view wanted = pattern.substr(0, pattern.find('/'));
    pattern.remove_prefix(wanted.size());
    if (wanted.starts_with('{')) {
      if (part.empty()) return false;
      taken.push_back(part);
    } else if (wanted != part) {
      return false;
    }
  }
  return pattern.empty();
}

}  // namespace

void match_in(std::span<const Route> all, std::string_view method, const Target& target,
              Match& match) {
  std::vector<std::string> taken;
  for (const Route& route : all) {
    if (!fits(route.pattern, target.parts, taken)) continue;
    match.allow += (match.allow.empty() ? "" : ", ") + std::string(route.method);
    if (route.method == "GET") match.allow += ", HEAD";
    // A fixed word goes before a {…}: the shelf's /reorder is no product.
    const bool closer = match.route == nullptr || taken.size() < match.parts.size();
    if (route.method == (method == "HEAD" ? "GET" : method) && closer) {
      match.route = &route;
      match.parts = taken;
    }
  }
}

}  // namespace hw::server
