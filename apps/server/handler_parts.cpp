#include "handler_parts.h"

#include <algorithm>
#include <array>

#include "huewright/book/drills.h"
#include "huewright/book/ids.h"

namespace hw::server {
namespace {

template <class T>
Result<T> wrong(const std::string& key, const char* what) {
  return fail(ErrorCode::malformed, std::string("is not ") + what, key,
              "see the OpenAPI file for what is asked");
}

}  // namespace

Reply reply(const Json& body) {
  Reply made;
  made.body = body.dump();
  return made;
}

Result<Json> body_of(const Request& request, std::initializer_list<std::string_view> keys) {
  Json body = Json::parse(request.body, nullptr, false);
  if (body.is_discarded() || !body.is_object()) {
    return fail(ErrorCode::malformed, "is not a JSON object", "body", "send one object in UTF-8");
  }
  for (const auto& [key, value] : body.items()) {
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
    std::string known;
    for (const std::string_view one : keys) known += (known.empty() ? "" : ", ") + std::string(one);
    return fail(ErrorCode::malformed, "is no key here", key.substr(0, book::kMostName),
                known.empty() ? "send {}" : "send of these: " + known);
  }
  return body;
}

Result<std::string> object_text(const Json& body, const std::string& key) {
  const auto at = body.find(key);
  if (at == body.end()) return fail(ErrorCode::missing, "is missing", key, "send it");
  if (!at->is_object()) return wrong<std::string>(key, "an object");
  return at->dump();
}

Result<long> whole_of(const Json& body, const std::string& key, long usual, long low, long high) {
  const auto at = body.find(key);
  if (at == body.end()) return usual;
  if (!at->is_number()) return wrong<long>(key, "a number");
  const double number = *at;
  if (number >= static_cast<double>(low) && number <= static_cast<double>(high)) {
    return static_cast<long>(number);
  }
  return fail(ErrorCode::out_of_range,
              "must lie between " + std::to_string(low) + " and " + std::to_string(high), key,
              "send another number");
}

Result<bool> flag_of(const Json& body, const std::string& key, bool usual) {
  const auto at = body.find(key);
  if (at == body.end()) return usual;
  if (!at->is_boolean()) return wrong<bool>(key, "true or false");
  return at->get<bool>();
}

Result<std::string> text_of(const Json& body, const std::string& key, const std::string& usual) {
  const auto at = body.find(key);
  if (at == body.end()) return usual;
  if (!at->is_string()) return wrong<std::string>(key, "a text");
  return at->get<std::string>();
}

Json facts_json(std::span<const book::Fact> facts) {
  Json list = Json::array();
  for (const book::Fact& fact : facts) list.push_back(Json::parse(wire::encode(fact)));
  return list;
}

Json eyes_json(std::span<const plan::ReaderEye> eyes) {
  Json list = Json::array();
  for (const plan::ReaderEye& eye : eyes) {
    list.push_back(Json::parse(
        wire::encode_fields([&](wire::Object& object) { book::put_eye(object, eye); })));
  }
  return list;
}

Json refusal_json(const process::Refusal& refusal) {
  return Json::parse(wire::encode(refusal));
}

Result<Reply> stored(Service& service, std::span<const book::Fact> facts, book::About about,
                     const std::string& subject, bool name_subject) {
  {
    const auto book = service.book();
    const auto places = book.store().append(facts);
    if (!places) return tl::unexpected(places.error());
  }
  service.tell({std::string(word_of(about)), subject});
  Json body;
  if (name_subject) body["id"] = subject;
  body["facts"] = Json::array();
  for (const book::Fact& fact : facts) body["facts"].push_back(fact.id);
  return reply(body);
}

bool may_be_recorded(const std::string& kind) {
  constexpr std::array<std::string_view, 4> kOwnWay{"erased", "lesson", "learned", "product"};
  return std::ranges::find(kOwnWay, kind) == kOwnWay.end();
}

Result<Reply> record(Service& service, const Request& request, book::About about) {
  const auto file = wire::decode<book::RecordFile>(request.body);
  if (!file) return tl::unexpected(file.error());
  const std::string& subject = request.parts.at(0);
  const auto facts = book::filled(file->facts, subject, service.hand(request.name));
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const std::string where = "facts[" + std::to_string(i) + "].kind";
    if (book::about(facts[i]) != about) {
      return fail(ErrorCode::conflict,
                  "a " + facts[i].kind + " is not about a " + std::string(word_of(about)), where,
                  "send it to what it is about");
    }
    if (!may_be_recorded(facts[i].kind)) {
      return fail(ErrorCode::conflict, "a " + facts[i].kind + " is not written this way", where,
                  "leave it out");
    }
  }
  return stored(service, facts, about, subject);
}

}  // namespace hw::server
