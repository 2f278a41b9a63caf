#include "own_routes.h"

#include <fmt/format.h>

#include <array>

#include "gate.h"
#include "huewright/wire/json.h"
#include "qr.h"
#include "replies.h"
#include "text.h"

namespace hw::server {
namespace {

constexpr std::size_t kMostPairBody = 1024;  // bytes
constexpr std::size_t kMostName = 60;        // bytes of a device's name
constexpr std::size_t kMostCode = 20;        // bytes; the right ones have six
constexpr unsigned kFreeFailures = 10;       // of the whole network together

struct PairAsk {
  std::string code, name;
};
void describe(wire::Object& object, PairAsk& ask) {
  object.required("code", "six digits").text(ask.code, kMostCode);
  object.required("name", "of the device").text(ask.name, kMostName);
}

struct LetInAsk {
  Role role = Role::assistant;
};
void describe(wire::Object& object, LetInAsk& ask) {
  constexpr std::array kRoles{Role::assistant, Role::colourist, Role::owner};
  constexpr std::array<std::string_view, 3> kWords{"assistant", "colourist", "owner"};
  wire::word(object.required("role", "of the device to come"), ask.role, kRoles, kWords);
}

struct Nothing {};
void describe(wire::Object&, Nothing&) {}

/// The body of a request. An unknown word in it is no unknown address.
template <class Message>
Result<Message> body_of(const Request& request) {
  auto message = wire::decode<Message>(request.body);
  if (message) return message;
  Error error = message.error();
  if (error.code == ErrorCode::unknown_name) error.code = ErrorCode::malformed;
  return tl::unexpected(error);
}

void describe_short(wire::Object& object, Device device) {
  std::string role(word_of(device.role));
  object.required("id", "").text(device.id, device.id.size());
  object.required("name", "").text(device.name, device.name.size());
  object.required("role", "").text(role, role.size());
}

void describe_whole(wire::Object& object, Device device) {
  describe_short(object, device);
  object.required("paired_at", "").text(device.paired_at, device.paired_at.size());
  object.required("seen_at", "").text(device.seen_at, device.seen_at.size());
}

Reply json(const wire::Describe& fields) {
  Reply reply;
  reply.body = wire::encode_fields(fields);
  return reply;
}

std::string key_of(const Caller& caller) {
  return caller.door->kind == Door::Kind::here ? "here" : caller.peer;
}

}  // namespace

std::span<const OwnRoutes::Entry> OwnRoutes::entries() {
  static const std::array kEntries{
      Entry{{"POST", "/api/v1/pair", Role::none, "lets this device in by a code", nullptr,
             kMostPairBody, "application/json", false},
            &OwnRoutes::pair},
      Entry{{"GET", "/api/v1/devices", Role::owner, "devices that were let in", nullptr},
            &OwnRoutes::list},
      Entry{{"POST", "/api/v1/devices/{id}/revoke", Role::owner, "takes a device out", nullptr,
             kMostPairBody, "application/json", false},
            &OwnRoutes::revoke},
      Entry{{"POST", "/api/v1/pairings", Role::owner, "a code that lets one device in", nullptr,
             kMostPairBody, "application/json", false},
            &OwnRoutes::let_in},
      Entry{{"GET", "/api/v1/events", Role::assistant, "what changes, as server-sent events",
             nullptr},
            nullptr},
  };
  return kEntries;
}

std::optional<std::chrono::milliseconds> OwnRoutes::must_wait(const Caller& caller) {
  const auto now = Clock::now();
  const auto alone = delays_.left(key_of(caller), now);
  // Many addresses of the network together are slowed down too, never this machine.
  if (alone || caller.door->kind == Door::Kind::here) return alone;
  return delays_.left("network", now);
}

std::string OwnRoutes::owner_link() {
  return links().here + "/#code=" + pairing_.issue(Role::owner, true, Clock::now());
}

Result<Reply> OwnRoutes::pair(const Caller& caller, const Request& request) {
  const auto ask = body_of<PairAsk>(request);
  if (!ask) return tl::unexpected(ask.error());
  const std::string name(trimmed(printable(ask->name)));
  if (name.empty()) {
    return fail(ErrorCode::malformed, "the device has no name", "name", "say where it stands");
  }
  const bool is_here = caller.door->kind == Door::Kind::here;
  const auto now = Clock::now();
  const auto role = pairing_.redeem(ask->code, is_here, now);
  if (!role) {
    delays_.failed(key_of(caller), 0, now);
    if (!is_here) delays_.failed("network", kFreeFailures, now);
    say_(fmt::format("A code that lets nobody in was given from {}.", caller.peer));
    if (is_here && !pairing_.waits_here(now)) say_("The owner's page: " + owner_link());
    return refusal(403, "this code lets nobody in: it is wrong, used, or older than 5 minutes",
                   "code",
                   is_here ? "the window in which huewright serve runs shows a new one"
                           : "ask the owner for a new one");
  }
  delays_.succeeded(key_of(caller));
  auto paired = devices_.pair(name, *role, service_.now(), request.device, is_here);
  if (!paired) return tl::unexpected(paired.error());
  Reply reply = json([&](wire::Object& object) {
    object.required("device", "").object([&](wire::Object& inner) {
      describe_short(inner, paired->device);
    });
  });
  reply.headers.emplace_back("Set-Cookie", cookie_of(*caller.door, paired->secret));
  say_(fmt::format("\"{}\" was let in as {}.", name, word_of(*role)));
  return reply;
}

Result<Reply> OwnRoutes::list(const Caller&, const Request&) {
  const std::vector<Device> devices = devices_.all();
  return json([&](wire::Object& object) {
    object.required("devices", "")
        .list(
            {0, kMostDevices}, devices.size(), [](std::size_t) {},
            [&](std::size_t i, wire::Value& entry) {
              entry.object([&](wire::Object& inner) { describe_whole(inner, devices[i]); });
            });
  });
}

Result<Reply> OwnRoutes::revoke(const Caller&, const Request& request) {
  const auto ask = body_of<Nothing>(request);
  if (!ask) return tl::unexpected(ask.error());
  const std::string& id = request.parts.at(0);
  if (auto done = devices_.revoke(id); !done) return tl::unexpected(done.error());
  gone_(id);
  return Reply{};
}

Result<Reply> OwnRoutes::let_in(const Caller&, const Request& request) {
  const auto ask = body_of<LetInAsk>(request);
  if (!ask) return tl::unexpected(ask.error());
  std::string code = pairing_.issue(ask->role, false, Clock::now());
  constexpr double kHours = std::chrono::duration<double, std::ratio<3600>>(kCodeTime).count();
  const auto now = service_.now();
  std::string expires = process::iso_text(process::hours_later(now, kHours, now.offset));
  const Links known = links();
  std::string url = (known.lan.empty() ? known.here : known.lan) + "/#code=" + code;
  auto rows = qr_rows(url);
  if (!rows) return tl::unexpected(rows.error());
  return json([&](wire::Object& object) {
    object.required("code", "").text(code, code.size());
    object.required("expires_at", "").text(expires, expires.size());
    object.required("url", "").text(url, url.size());
    wire::texts(object.required("qr", ""), *rows, {0, rows->size()}, rows->size());
  });
}

std::vector<Route> every_route() {
  std::vector<Route> all;
  for (const OwnRoutes::Entry& entry : OwnRoutes::entries()) all.push_back(entry.route);
  for (const Route& route : routes()) all.push_back(route);
  return all;
}

}  // namespace hw::server
