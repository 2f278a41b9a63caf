#pragma once
// What the server is asked, what it answers, and the table of everything it can be asked. Nothing
// here knows a socket: handlers are plain functions, tested without a network.
#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::server {

/// What a device may do; each may all that the one before may.
enum class Role { none, assistant, colourist, owner };
/// "none", "assistant", "colourist", "owner".
[[nodiscard]] std::string_view word_of(Role role);
/// Error: unknown_name (lists the words). "none" is no role to give.
[[nodiscard]] Result<Role> role_of(std::string_view word);

/// A request that got through: its device is known, its origin and size are right.
struct Request {
  std::string method;              ///< "GET" or "POST"
  std::string path;                ///< decoded, without the query
  std::vector<std::string> parts;  ///< what stood for each {…} of the pattern, decoded
  std::map<std::string, std::string, std::less<>> query;  ///< decoded
  std::string type;                                       ///< of the body, "application/json"
  std::string body;
  std::string device;  ///< id of the paired device; empty on routes for anybody
  std::string name;    ///< of the device: who writes, where the body does not say
  Role role = Role::none;
};

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body = "{}";
  std::vector<std::pair<std::string, std::string>> headers = {};
};

class Service;

/// One thing the server can be asked.
struct Route {
  std::string_view method;
  std::string_view pattern;  ///< "/api/v1/clients/{id}"
  Role least = Role::assistant;
  std::string_view what;                           ///< one line, for the OpenAPI file
  Result<Reply> (*run)(Service&, const Request&);  ///< an error's code gives the status
  std::size_t most_body = 1U << 20U;               ///< [bytes]
  std::string_view takes = "application/json";     ///< type of the body of a POST
  /// Of a POST: something is kept, so it is refused where the disk is nearly full.
  bool stores = true;
};

/// Every route but those of the network itself (pairing, devices, events), in the order of the
/// OpenAPI file.
[[nodiscard]] std::span<const Route> routes();

/// Status of an error: 404 unknown_name, 409 conflict, 422 out_of_range and unreachable, 500 io,
/// else 400.
[[nodiscard]] int status_of(ErrorCode code);
/// {"error":{"what","where","mend"}}
[[nodiscard]] std::string error_json(const Error& error);

}  // namespace hw::server
