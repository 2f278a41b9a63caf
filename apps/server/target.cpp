#include "target.h"

#include <algorithm>

#include "text.h"

namespace hw::server {
namespace {

tl::unexpected<Error> bad(std::string what, std::string mend) {
  return fail(ErrorCode::malformed, std::move(what), "request line", std::move(mend));
}

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

Result<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '%') {
      const int high = i + 1 < text.size() ? hex_digit(text[i + 1]) : -1;
      const int low = i + 2 < text.size() ? hex_digit(text[i + 2]) : -1;
      if (high < 0 || low < 0) {
        return bad("a % without two hex digits", "write a percent sign as %25");
      }
      c = static_cast<char>(high * 16 + low);
      i += 2;
    } else if (c == '+' && plus_is_space) {
      c = ' ';
    }
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      return bad("a control character in the address", "leave it out");
    }
    out += c;
  }
  if (!is_utf8(out)) return bad("the address is not UTF-8", "encode it as UTF-8");
  return out;
}

Result<void> read_query(std::string_view text, Target& target) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('&'), text.size());
    const std::string_view pair = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (pair.empty()) continue;
    const std::size_t equals = std::min(pair.find('='), pair.size());
    auto key = decoded(pair.substr(0, equals), true);
    if (!key) return tl::unexpected(key.error());
    auto value = decoded(pair.substr(std::min(equals + 1, pair.size())), true);
    if (!value) return tl::unexpected(value.error());
    if (target.query.size() >= kMostQueryKeys) {
      return bad("more than 50 keys in the query", "leave some out");
    }
    const bool added = target.query.emplace(*std::move(key), *std::move(value)).second;
    if (!added) return bad("a key stands twice in the query", "give each key once");
  }
  return {};
}

}  // namespace

Result<Target> target_of(std::string_view text) {
  if (!text.starts_with('/') || text.starts_with("//")) {
    return bad("the address does not start with one slash", "ask for /api/v1/… or for a page");
  }
  const std::size_t question = std::min(text.find('?'), text.size());
  std::string_view path = text.substr(0, question);
  std::string_view query = text.substr(std::min(question + 1, text.size()));
  query = query.substr(0, query.find('#'));
  path = path.substr(0, path.find('#'));
  Target target;
  for (std::string_view rest = path; !rest.empty();) {
    rest.remove_prefix(1);  // the slash
    const std::size_t end = std::min(rest.find('/'), rest.size());
    auto part = decoded(rest.substr(0, end), false);
    if (!part) return tl::unexpected(part.error());
    if (*part == "." || *part == "..") {
      return bad("the address climbs", "name the page itself, without . or ..");
    }
    target.path += '/' + *part;
    target.parts.push_back(*std::move(part));
    rest.remove_prefix(end);
  }
  if (auto done = read_query(query, target); !done) return tl::unexpected(done.error());
  return target;
}

}  // namespace hw::server
