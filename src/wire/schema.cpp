// Prints what a message's describe() says as a JSON Schema (draft 2020-12).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

using Json = nlohmann::ordered_json;

/// A number as JSON, without ".0" on whole ones.
Json plain(double value) {
  constexpr double kExact = 9007199254740992.0;  // 2^53
  if (std::abs(value) < kExact && value == std::floor(value)) {
    return static_cast<std::int64_t>(value);
  }
  return value;
}

Json words_json(Words words) {
  Json list = Json::array();
  for (const std::string_view word : words) list.push_back(word);
  return {{"enum", std::move(list)}};
}

class SchemaValue final : public Value {
 public:
  /// node: where the keywords go. defaults: whether the message's own value is the default.
  SchemaValue(Json& node, bool defaults) : node_(node), defaults_(defaults) {}

  void number(double& value, const NumberRule& rule) override {
    node_["type"] = "number";
    if (std::isfinite(rule.low)) {
      node_[rule.above_low ? "exclusiveMinimum" : "minimum"] = plain(rule.low);
    }
    if (std::isfinite(rule.high)) node_["maximum"] = plain(rule.high);
    if (!rule.unit.empty() && node_.contains("description")) {
      node_["description"] =
          fmt::format("{} [{}]", node_["description"].get<std::string>(), rule.unit);
    }
    if (defaults_) node_["default"] = plain(value);
  }
  void whole(std::uint64_t& value, std::uint64_t low, std::uint64_t high) override {
    node_["type"] = "integer";
    node_["minimum"] = low;
    node_["maximum"] = high;
    if (defaults_) node_["default"] = value;
  }
  void flag(bool& value) override {
    node_["type"] = "boolean";
    if (defaults_) node_["default"] = value;
  }
  void text(std::string&, std::size_t most) override {
    node_["type"] = "string";
    node_["maxLength"] = most;
  }
  void formatted(const std::string&, std::string_view pattern, const Accept&,
                 std::size_t) override {
    node_["type"] = "string";
    node_["pattern"] = pattern;
  }
  void word(std::size_t& index, Words words) override {
    node_.update(words_json(words));
    if (defaults_) node_["default"] = words[index];
  }
  void list(const CountRule& rule, std::size_t, const std::function<void(std::size_t)>& resize,
            const std::function<void(std::size_t, Value&)>& item) override {
    node_["type"] = "array";
    node_["minItems"] = rule.least;
    node_["maxItems"] = rule.most;
    // A list of one fixed length may hold different things at each place.
    const std::size_t places = rule.least == rule.most ? rule.most : 1;
    resize(places);
    Json entries = Json::array();
    for (std::size_t i = 0; i < places; ++i) {
      SchemaValue entry(entries.emplace_back(), false);
      item(i, entry);
    }
    const bool alike = std::all_of(entries.begin(), entries.end(),
                                   [&](const Json& entry) { return entry == entries[0]; });
    if (alike) {
      node_["items"] = std::move(entries[0]);
    } else {
      node_["prefixItems"] = std::move(entries);
    }
  }
  void object(const Describe& fields) override;
  void word_or_object(bool& is_object, std::size_t& index, Words words,
                      const Describe& fields) override {
    Json object_node;
    SchemaValue(object_node, false).object(fields);
    node_["anyOf"] = Json::array({words_json(words), std::move(object_node)});
    if (defaults_ && !is_object) node_["default"] = words[index];
  }
  bool wanted(bool) override {
    defaults_ = false;
    return true;
  }

 private:
  Json& node_;
  bool defaults_;
};

class SchemaObject final : public Object {
 public:
  explicit SchemaObject(Json& node) : node_(node) {
    node_["type"] = "object";
    node_["properties"] = Json::object();
    node_["required"] = Json::array();
    node_["additionalProperties"] = false;
  }
  Value& required(std::string_view key, std::string_view what) override {
    node_["required"].push_back(key);
    return visit(key, what, false);
  }
  Value& optional(std::string_view key, std::string_view what) override {
    return visit(key, what, true);
  }
  void exactly_one(std::initializer_list<std::string_view> keys) override {
    for (const std::string_view key : keys) {
      node_["oneOf"].push_back({{"required", Json::array({key})}});
    }
  }
  void cases(std::string_view key, std::string_view what, Words words, std::size_t&,
             const std::function<void(std::size_t, Object&)>& fields) override {
    for (std::size_t i = 0; i < words.size(); ++i) {
      Json one;
      SchemaObject inner(one);
      inner.required(key, what);
      one["properties"][std::string(key)]["const"] = words[i];
      fields(i, inner);
      node_["oneOf"].push_back(std::move(one));
    }
    // Each case closes its own set of keys.
    for (const char* keyword : {"type", "properties", "required", "additionalProperties"}) {
      node_.erase(keyword);
    }
  }

 private:
  Value& visit(std::string_view key, std::string_view what, bool defaults) {
    Json& slot = node_["properties"][std::string(key)];
    slot["description"] = what;
    return current_.emplace(slot, defaults);
  }
  Json& node_;
  std::optional<SchemaValue> current_;
};

void SchemaValue::object(const Describe& fields) {
  SchemaObject inner(node_);
  fields(inner);
}

}  // namespace

std::string schema_of(std::string_view name, std::string_view title, const Describe& fields) {
  Json root;
  root["$schema"] = "https://json-schema.org/draft/2020-12/schema";
  root["$id"] = fmt::format("{}.schema.json", name);
  root["title"] = title;
  SchemaValue(root, false).object(fields);
  constexpr int kIndent = 2;  // spaces
  return root.dump(kIndent) + "\n";
}

}  // namespace hw::wire
