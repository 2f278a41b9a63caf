#pragma once
// The files of the page, inside the program.
#include <span>
#include <string_view>

#include "route.h"

namespace hw::server {

struct Page {
  std::string_view path;  ///< "/assets/index-abc.js"
  std::string_view type;  ///< "text/javascript; charset=utf-8"
  std::string_view etag;  ///< with its quotes
  std::string_view bytes;
  std::string_view gzip = {};  ///< the same, smaller (RFC 1952); empty: only as it is
};

/// Every file of ui/dist as it was when the program was built; empty where there was none.
[[nodiscard]] std::span<const Page> pages();

/// The file at a path; the page itself (index.html) at any path without a dot in its last part; 404
/// else. known_etags: the field If-None-Match. accepts: the field Accept-Encoding. Where no page
/// was built in, one that says so.
[[nodiscard]] Reply page_at(std::string_view path, std::string_view known_etags,
                            std::span<const Page> all = pages(), std::string_view accepts = {});

}  // namespace hw::server
