#include "front.h"

#include <fmt/format.h>
#include <sys/statvfs.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <utility>

#include "gate.h"
#include "huewright/book/folder.h"
#include "pages.h"
#include "replies.h"
#include "tell.h"
#include "text.h"

namespace hw::server {
namespace {

constexpr std::size_t kMostKey = 100;  // bytes of an Idempotency-Key
// House rules, no source.
constexpr Rate kPairRate{2, std::chrono::milliseconds(3'000)};
constexpr Rate kStoreRate{20, std::chrono::milliseconds(5'000)};
constexpr Rate kAskRate{300, std::chrono::milliseconds(10'000)};

Reply from_error(const Request& request, const Error& error) {
  const int status = status_of(error.code);
  if (status >= 500) {
    // Names of files stay in the house.
    std::fprintf(stderr, "%s %s: %s\n", request.method.c_str(), request.path.c_str(),
                 one_line(error).c_str());
    return refusal(status, "the server could not do this", "server",
                   "the window in which huewright serve runs says more");
  }
  Reply reply;
  reply.status = status;
  reply.body = error_json(error);
  return reply;
}

Reply with_header(Reply reply, std::string name, std::string value) {
  reply.headers.emplace_back(std::move(name), std::move(value));
  return reply;
}

Reply too_often(std::chrono::milliseconds wait) {
  const auto seconds =
      std::max<std::int64_t>(1, std::chrono::ceil<std::chrono::seconds>(wait).count());
  return with_header(
      refusal(429, "this is asked too often", "server", fmt::format("ask again in {} s", seconds)),
      "Retry-After", std::to_string(seconds));
}

Reply read_only_reply(const std::string& why) {
  return refusal(409, why, "book", "ask whoever looks after the machine it runs on");
}

}  // namespace

Front::Front(Service& service, Workers& workers, Devices& devices, Answers& answers, OwnRoutes& own,
             const Limits& limits, std::string folder)
    : service_(service),
      workers_(workers),
      devices_(devices),
      answers_(answers),
      own_(own),
      limits_(limits),
      folder_(std::move(folder)) {
  for (const OwnRoutes::Entry& entry : OwnRoutes::entries()) own_routes_.push_back(entry.route);
}

void Front::close_for_writing(std::string why) {
  const std::lock_guard lock(read_only_mutex_);
  read_only_ = std::move(why);
}

std::variant<Reply, Front::Passed> Front::look(const Door& door, const Head& head) {
  auto looked_at = looked(door, head);
  if (auto* reply = std::get_if<Reply>(&looked_at)) {
    tell(*reply, language_wanted(head.field("accept-language")));
    dress(*reply);
  }
  return looked_at;
}

std::variant<Reply, Front::Passed> Front::looked(const Door& door, const Head& head) {
  if (auto refused = refused_host(door, head)) return *std::move(refused);
  auto target = target_of(head.target);
  if (!target) return from_error({}, target.error());
  const bool is_api = target->parts.front() == "api" && door.kind != Door::Kind::trust;
  if (is_api) return looked_at_api(door, head, *std::move(target));
  if (head.method != "GET" && head.method != "HEAD") {
    return with_header(refusal(405, "a page can only be looked at", "method", "use GET"), "Allow",
                       "GET, HEAD");
  }
  if (door.kind == Door::Kind::trust) return trust_page_(*target);
  if (first_page_) std::exchange(first_page_, {})();
  return page_at(target->path, head.field("if-none-match"), pages(), head.field("accept-encoding"));
}

std::variant<Reply, Front::Passed> Front::looked_at_api(const Door& door, const Head& head,
                                                        Target target) {
  Passed passed;
  match_in(own_routes_, head.method, target, passed.match);
  match_in(routes(), head.method, target, passed.match);
  if (passed.match.allow.empty()) {
    return refusal(404, "nothing is asked at this address", "address",
                   "docs/openapi.json lists what can be asked");
  }
  if (passed.match.route == nullptr) {
    const std::string& allow = passed.match.allow;
    return with_header(
        refusal(405, "this cannot be done at this address", "method", "use " + allow), "Allow",
        allow);
  }
  const Route& route = *passed.match.route;
  const bool writes = route.method == "POST";
  if (auto refused = refused_crossing(door, head)) return *std::move(refused);
  if (writes) {
    if (auto refused = refused_type(route, head)) return *std::move(refused);
  }
  passed.most_body = writes ? route.most_body : 0;
  passed.caller = {&door, head.peer};
  Request& request = passed.request;
  request.method = route.method;
  request.path = std::move(target.path);
  request.parts = std::move(passed.match.parts);
  request.query = std::move(target.query);
  request.type = route.takes;
  if (auto refused = refused_device(door, head, passed)) return *std::move(refused);
  if (auto refused = refused_rate(passed)) return *std::move(refused);
  if (writes) {
    if (auto refused = refused_write(head, passed)) return *std::move(refused);
  }
  passed.language = language_wanted(head.field("accept-language"));
  passed.listens = route.pattern == "/api/v1/events";
  return passed;
}

std::optional<Reply> Front::refused_device(const Door& door, const Head& head, Passed& passed) {
  Request& request = passed.request;
  for (const std::string& secret : secrets_of(door, head)) {
    const auto device = devices_.of_secret(secret);
    if (!device) continue;
    request.device = device->id;
    request.name = device->name;
    request.role = device->role;
    devices_.saw(device->id, service_.now());
    break;
  }
  const Role least = passed.match.route->least;
  if (request.role >= least) return std::nullopt;
  if (request.role == Role::none) {
    // Asked so often without being let in that it looks like a search.
    const auto wait = wait_of("stranger " + passed.caller.peer, kAskRate);
    if (wait) return too_often(*wait);
    return refusal(401, "this device was not let in", "cookie",
                   "open the link that the owner shows, or type the code");
  }
  return refusal(403, fmt::format("this takes the role of {}", word_of(least)), "role",
                 "ask the owner to let this device in as such");
}

std::optional<std::chrono::milliseconds> Front::wait_of(const std::string& key, Rate rate) {
  rate.most *= limits_.rates_times;
  return rates_.take(key, rate, Clock::now());
}

std::optional<Reply> Front::refused_rate(const Passed& passed) {
  const Request& request = passed.request;
  const Route& route = *passed.match.route;
  const std::string who = request.device.empty() ? passed.caller.peer : request.device;
  std::optional<std::chrono::milliseconds> wait = wait_of("ask " + who, kAskRate);
  if (!wait && route.pattern == "/api/v1/pair") {
    wait = wait_of("pair " + passed.caller.peer, kPairRate);
    if (!wait) wait = own_.must_wait(passed.caller);
  } else if (!wait && route.method == "POST" && route.stores) {
    wait = wait_of("store " + who, kStoreRate);
  }
  if (wait) return too_often(*wait);
  return std::nullopt;
}

std::optional<Reply> Front::refused_write(const Head& head, Passed& passed) {
  if (head.count("idempotency-key") == 1) {
    passed.key = head.field("idempotency-key");
    const bool is_key =
        !passed.key.empty() && passed.key.size() <= kMostKey && printable(passed.key) == passed.key;
    if (!is_key) {
      return refusal(400, "the key is no text of 1 to 100 bytes", "Idempotency-Key",
                     "send a text that nobody else makes");
    }
  }
  if (!passed.match.route->stores) return std::nullopt;
  {
    const std::lock_guard lock(read_only_mutex_);
    if (!read_only_.empty()) return read_only_reply(read_only_);
  }
  struct statvfs disk {};
  const bool is_known = ::statvfs(folder_.c_str(), &disk) == 0;
  if (is_known && std::uint64_t{disk.f_bavail} * disk.f_frsize < limits_.least_free_bytes) {
    return refusal(507, "the disk of the book is nearly full, so nothing more is kept", "disk",
                   "make room on the machine that the server runs on");
  }
  return std::nullopt;
}

Reply Front::ran(const Passed& passed) {
  const Request& request = passed.request;
  try {
    const auto entries = OwnRoutes::entries();
    const auto own = std::ranges::find_if(
        own_routes_, [&](const Route& route) { return &route == passed.match.route; });
    const auto reply =
        own == own_routes_.end()
            ? passed.match.route->run(service_, request)
            : (own_.*entries[static_cast<std::size_t>(own - own_routes_.begin())].run)(
                  passed.caller, request);
    return reply ? *reply : from_error(request, reply.error());
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "%s %s: a fault in the program itself (%s); please report it\n",
                 request.method.c_str(), request.path.c_str(), problem.what());
    return refusal(500, "a fault in the program itself", "server", "please report it");
  }
}

Reply Front::run(const Passed& passed) {
  Reply reply = ran(passed);
  if (reply.status >= 300 || !passed.match.route->pattern.ends_with("/erase")) return reply;
  if (auto done = answers_.forget(); !done) return from_error(passed.request, done.error());
  return reply;
}

/// Runs a request whose sender may send it again.
void Front::run_once(const Passed& passed, const std::function<void(Reply)>& done) {
  const Request& request = passed.request;
  const Keyed keyed{request.device, passed.key,
                    book::sha256_of(request.path + '\n' + request.body)};
  if (!answers_.begin(keyed, done)) return;
  Reply reply = run(passed);
  const auto kept = answers_.finish(keyed, reply, service_.now());
  if (!kept) std::fprintf(stderr, "%s\n", one_line(kept.error()).c_str());
  done(std::move(reply));
}

void Front::answer(Passed passed, std::string body, std::function<void(Reply)> done) {
  passed.request.body = std::move(body);
  const auto give = [done, language = passed.language](Reply reply) {
    tell(reply, language);
    dress(reply);
    done(std::move(reply));
  };
  const bool taken = workers_.take([this, passed = std::move(passed), give] {
    if (passed.key.empty() || passed.request.device.empty()) {
      give(run(passed));
    } else {
      run_once(passed, give);
    }
  });
  if (taken) return;
  give(with_header(refusal(503, "too much is asked at once", "server", "ask again in a second"),
                   "Retry-After", "1"));
}

}  // namespace hw::server
