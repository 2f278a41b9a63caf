#include "front.h"

#include <cstdio>
#include <exception>

#include "pages.h"
#include "replies.h"

namespace hw::server {
namespace {

Reply run_handler(Service& service, const Route& route, const Request& request) {
  try {
    auto reply = route.run(service, request);
    if (reply) return *std::move(reply);
    const int status = status_of(reply.error().code);
    if (status < 500) {
      Reply refused;
      refused.status = status;
      refused.body = error_json(reply.error());
      return refused;
    }
    // Names of files stay in the house.
    std::fprintf(stderr, "%s %s: %s\n", request.method.c_str(), request.path.c_str(),
                 one_line(reply.error()).c_str());
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "%s %s: a fault in the program itself (%s); please report it\n",
                 request.method.c_str(), request.path.c_str(), problem.what());
  }
  return refusal(500, "the server could not do this", "server",
                 "the machine it runs on says more on its screen");
}

}  // namespace

Front::Front(Service& service, Workers& workers, const Limits& limits)
    : service_(service), workers_(workers), limits_(limits) {}

std::variant<Reply, Front::Passed> Front::look(const Door& door, const Head& head) {
  auto looked_at = looked(door, head);
  if (auto* reply = std::get_if<Reply>(&looked_at)) dress(*reply);
  return looked_at;
}

std::variant<Reply, Front::Passed> Front::looked(const Door& door, const Head& head) {
  if (head.count("host") != 1) {
    return refusal(400, "one Host is needed", "Host", "send the address that you ask");
  }
  if (!door.knows(head.field("host"))) {
    return refusal(421, "this is not the address of the server", "Host",
                   "use the address that huewright serve printed");
  }
  auto target = target_of(head.target);
  if (!target)
    return refusal(400, target.error().message, target.error().where, target.error().hint);
  const bool is_api = target->path.starts_with("/api/");
  if (!is_api) {
    if (head.method != "GET" && head.method != "HEAD") {
      Reply reply = refusal(405, "a page can only be looked at", "method", "use GET");
      reply.headers.emplace_back("Allow", "GET, HEAD");
      return reply;
    }
    return page_at(target->path, head.field("if-none-match"));
  }
  Match match = match_of(routes(), head.method, *target);
  if (match.allow.empty()) {
    return refusal(404, "nothing is asked at this address", "address",
                   "docs/openapi.json lists what can be asked");
  }
  if (match.route == nullptr) {
    Reply reply =
        refusal(405, "this cannot be done at this address", "method", "use " + match.allow);
    reply.headers.emplace_back("Allow", match.allow);
    return reply;
  }
  Passed passed;
  passed.route = match.route;
  passed.most_body = head.method == "POST" ? match.route->most_body : 0;
  passed.request.method = head.method;
  passed.request.path = std::move(target->path);
  passed.request.parts = std::move(match.parts);
  passed.request.query = std::move(target->query);
  passed.request.type = head.field("content-type");
  return passed;
}

void Front::answer(Passed passed, std::string body, std::function<void(Reply)> done) {
  passed.request.body = std::move(body);
  const bool taken = workers_.take([this, passed = std::move(passed), done] {
    Reply reply = run_handler(service_, *passed.route, passed.request);
    dress(reply);
    done(std::move(reply));
  });
  if (taken) return;
  Reply reply = refusal(503, "too much is asked at once", "server", "ask again in a second");
  reply.headers.emplace_back("Retry-After", "1");
  dress(reply);
  done(std::move(reply));
}

}  // namespace hw::server
