// A request line and a header: the address is read, the cookies, who may have caused it, and which
// route it names. Lines of the input: target, Host, Cookie, Origin, Sec-Fetch-Site, Content-Type.
#include <string>

#include "fuzz_wire.h"
#include "gate.h"
#include "match.h"
#include "own_routes.h"
#include "text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw::server;
  std::string_view rest(reinterpret_cast<const char*>(data), size);
  const auto line = [&rest] {
    const std::string_view one = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(std::min(one.size() + 1, rest.size()));
    return std::string(one);
  };
  Head head;
  head.method = "POST";
  head.target = line();
  for (const char* name : {"host", "cookie", "origin", "sec-fetch-site", "content-type"}) {
    if (!rest.empty()) head.fields.emplace_back(name, line());
  }
  Door door;
  door.names = {"127.0.0.1", "localhost"};
  door.port = 8463;
  for (const Door::Kind kind : {Door::Kind::here, Door::Kind::lan}) {
    door.kind = kind;
    HW_CHECK(secrets_of(door, head).size() <= 4);
    const bool refused = refused_host(door, head) || refused_crossing(door, head);
    // What gets through names this server, in the header that decides.
    HW_CHECK(refused || head.field("sec-fetch-site") == "same-origin" ||
             head.field("sec-fetch-site") == "none" ||
             head.field("origin").find("8463") != std::string_view::npos);
  }
  const auto target = target_of(head.target);
  if (!target) {
    hw::fuzz::check_error(target.error());
    return 0;
  }
  HW_CHECK(is_utf8(target->path) && target->path.starts_with('/') && !target->parts.empty());
  for (const std::string& part : target->parts) {
    HW_CHECK(part != ".." && part.find('\0') == std::string::npos);
  }
  Match match;
  match_in(routes(), head.method, *target, match);
  if (match.route != nullptr) HW_CHECK(match.route->method == "POST");
  return 0;
}
