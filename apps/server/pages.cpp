#include "pages.h"

#include <algorithm>

#include "replies.h"

namespace hw::server {
namespace {

constexpr std::string_view kNoPage =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
    "<title>Huewright</title></head><body>\n"
    "<h1>Huewright is running, without its page</h1>\n"
    "<p>This program was built before its page was. Build the page, then the program:</p>\n"
    "<pre>cd ui &amp;&amp; npm ci &amp;&amp; npm run build\nscripts/build</pre>\n"
    "<p>The interface for other programs is at /api/v1.</p>\n</body></html>\n";

const Page* find(std::span<const Page> all, std::string_view path) {
  const auto at = std::ranges::find(all, path, &Page::path);
  return at == all.end() ? nullptr : &*at;
}

bool names(std::string_view known_etags, std::string_view etag) {
  return known_etags == "*" || known_etags.find(etag) != std::string_view::npos;
}

/// Whether gzip is named and not turned down by a weight of nothing (RFC 9110 12.5.3).
bool takes_gzip(std::string_view accepts) {
  for (std::size_t at = 0; at < accepts.size();) {
    const std::size_t end = std::min(accepts.find(',', at), accepts.size());
    std::string one(accepts.substr(at, end - at));
    std::erase(one, ' ');
    if (one == "gzip" || one == "*") return true;
    if (one.starts_with("gzip;q=")) return one.find_first_not_of("0.", 7) != std::string::npos;
    at = end + 1;
  }
  return false;
}

}  // namespace

Reply page_at(std::string_view path, std::string_view known_etags, std::span<const Page> all,
              std::string_view accepts) {
  const Page* page = find(all, path);
  const bool is_file = path.substr(path.rfind('/') + 1).find('.') != std::string_view::npos;
  if (page == nullptr && !is_file) {
    page = find(all, "/index.html");
    if (page == nullptr) return {200, "text/html; charset=utf-8", std::string(kNoPage)};
  }
  if (page == nullptr) {
    return refusal(404, "there is no such page", "address", "start from the first page, /");
  }
  Reply reply;
  reply.type = page->type;
  // Names below /assets/ hold a hash of what they name, so they are good for ever.
  reply.headers.emplace_back("Cache-Control", page->path.starts_with("/assets/")
                                                  ? "public, max-age=31536000, immutable"
                                                  : "no-cache");
  const bool small = !page->gzip.empty() && takes_gzip(accepts);
  std::string etag(page->etag);
  if (small) etag.insert(etag.size() - 1, "-gzip");  // other bytes, so another tag
  reply.headers.emplace_back("ETag", etag);
  if (!page->gzip.empty()) reply.headers.emplace_back("Vary", "Accept-Encoding");
  if (names(known_etags, etag)) {
    reply.status = 304;
    reply.body.clear();
  } else {
    reply.body = small ? page->gzip : page->bytes;
    if (small) reply.headers.emplace_back("Content-Encoding", "gzip");
  }
  return reply;
}

}  // namespace hw::server
