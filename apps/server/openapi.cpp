#include "openapi.h"

#include <nlohmann/json.hpp>

#include "own_routes.h"

namespace hw::server {
namespace {

using Json = nlohmann::ordered_json;

/// The names in braces of a pattern.
Json parameters_of(std::string_view pattern) {
  Json list = Json::array();
  for (std::size_t at = pattern.find('{'); at != std::string_view::npos;
       at = pattern.find('{', at + 1)) {
    const std::string name(pattern.substr(at + 1, pattern.find('}', at) - at - 1));
    list.push_back(
        {{"name", name}, {"in", "path"}, {"required", true}, {"schema", {{"type", "string"}}}});
  }
  return list;
}

Json operation_of(const Route& route) {
  Json operation;
  operation["summary"] = route.what;
  operation["x-least-role"] = word_of(route.least);
  if (route.least == Role::none) operation["security"] = Json::array();
  Json parameters = parameters_of(route.pattern);
  if (route.method == "POST") {
    parameters.push_back({{"name", "Idempotency-Key"},
                          {"in", "header"},
                          {"description", "sent again, the first answer is given again"},
                          {"schema", {{"type", "string"}, {"minLength", 1}, {"maxLength", 100}}}});
    operation["x-most-bytes"] = route.most_body;
    operation["requestBody"] = {{"required", true},
                                {"content", {{std::string(route.takes), Json::object()}}}};
  }
  if (!parameters.empty()) operation["parameters"] = parameters;
  operation["responses"] = {{"200", {{"description", "done"}}},
                            {"default", {{"$ref", "#/components/responses/Error"}}}};
  return operation;
}

Json error_schema() {
  const Json text = {{"type", "string"}};
  const Json inner = {{"type", "object"},
                      {"required", {"what", "where", "mend"}},
                      {"properties", {{"what", text}, {"where", text}, {"mend", text}}}};
  return {{"type", "object"}, {"required", {"error"}}, {"properties", {{"error", inner}}}};
}

}  // namespace

std::string openapi_text() {
  Json paths = Json::object();
  for (const Route& route : every_route()) {
    const std::string method = route.method == "POST" ? "post" : "get";
    paths[std::string(route.pattern)][method] = operation_of(route);
  }
  const Json error = {
      {"description", "what is wrong, where, and how to mend it"},
      {"content", {{"application/json", {{"schema", {{"$ref", "#/components/schemas/Error"}}}}}}}};
  const Json device = {{"type", "apiKey"},
                       {"in", "cookie"},
                       {"name", "__Host-huewright"},
                       {"description", "set by /api/v1/pair; plain \"huewright\" on 127.0.0.1"}};
  const Json file = {{"openapi", "3.1.0"},
                     {"info",
                      {{"title", "Huewright"},
                       {"version", HW_VERSION},
                       {"description",
                        "Made by huewright schema openapi from the routes of the server. Roles: "
                        "assistant < colourist < owner; each may all that the one before may."}}},
                     {"security", Json::array({{{"device", Json::array()}}})},
                     {"paths", paths},
                     {"components",
                      {{"schemas", {{"Error", error_schema()}}},
                       {"responses", {{"Error", error}}},
                       {"securitySchemes", {{"device", device}}}}}};
  return file.dump(2) + '\n';
}

}  // namespace hw::server
