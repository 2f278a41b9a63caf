// What the server can be asked about the book.
#include <array>

#include "huewright/wire/json.h"
#include "route.h"
#include "service.h"

namespace hw::server {
namespace {

Result<Reply> health(Service& service, const Request&) {
  std::string program = HW_VERSION;
  std::string now = process::iso_text(service.now());
  Reply reply;
  reply.body = wire::encode_fields([&](wire::Object& object) {
    object.required("program", "").text(program, program.size());
    object.required("now", "").text(now, now.size());
  });
  return reply;
}

}  // namespace

std::span<const Route> routes() {
  static constexpr std::array kRoutes{
      Route{"GET", "/api/v1/health", Role::none, "whether the server is there", health},
  };
  return kRoutes;
}

}  // namespace hw::server
