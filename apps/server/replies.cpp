#include "replies.h"

#include <algorithm>

namespace hw::server {

Reply refusal(int status, std::string what, std::string where, std::string mend) {
  Reply reply;
  reply.status = status;
  reply.body =
      error_json({ErrorCode::malformed, std::move(what), std::move(where), std::move(mend)});
  return reply;
}

void dress(Reply& reply) {
  const auto add = [&](std::string_view name, std::string_view value) {
    reply.headers.emplace_back(name, value);
  };
  const bool says_how_long = std::ranges::any_of(
      reply.headers, [](const auto& header) { return header.first == "Cache-Control"; });
  if (!says_how_long) add("Cache-Control", "no-store");
  add("Content-Security-Policy",
      "default-src 'self'; img-src 'self' blob:; object-src 'none'; base-uri 'none'; "
      "form-action 'self'; frame-ancestors 'none'");
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Permissions-Policy",
      "camera=(self), screen-wake-lock=(self), geolocation=(), microphone=(), payment=(), usb=()");
  add("X-Frame-Options", "DENY");
  add("X-XSS-Protection", "0");
  add("Vary", "Sec-Fetch-Site, Origin, Accept-Language");
}

}  // namespace hw::server
