#include "gate.h"

#include <algorithm>
#include <array>

#include "replies.h"
#include "text.h"

namespace hw::server {
namespace {

constexpr std::size_t kMostSecrets = 4;  // cookies of one name; guess

std::string_view cookie_name(const Door& door) {
  return door.secure() ? "__Host-huewright" : "huewright";
}

Reply from_elsewhere() {
  return refusal(403, "another site asks this, or nobody says who", "Sec-Fetch-Site, Origin",
                 "ask from the page of this server, or send its address as Origin");
}

}  // namespace

std::optional<Reply> refused_host(const Door& door, const Head& head) {
  if (head.count("host") != 1) {
    return refusal(400, "one Host is needed", "Host", "send the address that you ask");
  }
  if (!door.knows(head.field("host"))) {
    return refusal(421, "this is not the address of the server", "Host",
                   "use the address that huewright serve printed");
  }
  static constexpr std::array<std::string_view, 5> kOnce{"origin", "sec-fetch-site", "content-type",
                                                         "idempotency-key", "if-none-match"};
  const bool twice =
      std::ranges::any_of(kOnce, [&](std::string_view name) { return head.count(name) > 1; });
  if (twice) return refusal(400, "a field stands twice", "header", "send each field once");
  return std::nullopt;
}

std::optional<Reply> refused_crossing(const Door& door, const Head& head) {
  const bool writes = head.method != "GET" && head.method != "HEAD";
  if (head.count("sec-fetch-site") == 1) {
    const std::string_view site = head.field("sec-fetch-site");
    if (site != "same-origin" && site != "none") return from_elsewhere();
  } else if (writes && head.count("origin") == 0) {
    return from_elsewhere();
  }
  if (head.count("origin") == 1) {
    const std::string ours = std::string(door.scheme()) + "://" + lower(head.field("host"));
    if (head.field("origin") != ours) return from_elsewhere();
  }
  return std::nullopt;
}

std::optional<Reply> refused_type(const Route& route, const Head& head) {
  const std::string given = lower(head.field("content-type"));
  const std::string_view kind = trimmed(std::string_view(given).substr(0, given.find(';')));
  if (kind == route.takes) return std::nullopt;
  return refusal(415, "the body is of another type", "Content-Type",
                 "send " + std::string(route.takes));
}

std::vector<std::string> secrets_of(const Door& door, const Head& head) {
  std::vector<std::string> secrets;
  for (const auto& [name, value] : head.fields) {
    if (name != "cookie") continue;
    for (std::string_view rest = value; !rest.empty();) {
      const std::string_view one = trimmed(rest.substr(0, rest.find(';')));
      rest.remove_prefix(std::min(rest.find(';'), rest.size() - 1) + 1);
      const std::size_t equals = one.find('=');
      if (equals == std::string_view::npos || one.substr(0, equals) != cookie_name(door)) continue;
      if (secrets.size() < kMostSecrets) secrets.emplace_back(one.substr(equals + 1));
    }
  }
  return secrets;
}

std::string cookie_of(const Door& door, std::string_view secret) {
  constexpr std::string_view kAge = "34560000";  // s: 400 days, the most that browsers keep
  std::string cookie = std::string(cookie_name(door)) + "=" + std::string(secret) +
                       "; Path=/; HttpOnly; SameSite=Strict; Max-Age=" + std::string(kAge);
  if (door.secure()) cookie += "; Secure";
  return cookie;
}

}  // namespace hw::server
