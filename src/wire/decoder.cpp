// Fills a message from a JSON tree. Only the first fault is kept; after it every call is idle.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numeric>

#include "huewright/base/error_part.h"
#include "huewright/wire/json.h"
#include "json_text.h"

namespace hw::wire {
namespace {

using nlohmann::json;

struct Faults {
  std::optional<Error> first;
  void set(ErrorCode code, std::string message, const Path& path, std::string hint) {
    if (!first) first = Error{code, std::move(message), path.text(), std::move(hint)};
  }
};

/// What stands there, for an error: "a number", "the text "six"".
std::string kind_of(const json& node) {
  switch (node.type()) {
    case json::value_t::null:
      return "null";
    case json::value_t::boolean:
      return node.get<bool>() ? "true" : "false";
    case json::value_t::string:
      return error_part("the text " + shown(node.get_ref<const std::string&>()));
    case json::value_t::array:
      return error_part("a list");
    case json::value_t::object:
      return error_part("an object");
    default:
      return error_part(fmt::format("the number {}", node.dump()));
  }
}

std::string joined(Words words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += words[i];
  }
  return out;
}

/// Fewest single-letter changes from one word to another (Levenshtein).
std::size_t distance(std::string_view one, std::string_view two) {
  std::vector<std::size_t> row(two.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < one.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < two.size(); ++j) {
      const std::size_t changed = diagonal + (one[i] == two[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

/// "did you mean minutes?", or `otherwise` when no known word is near.
std::string suggestion(std::string_view wrong, Words known, std::string otherwise) {
  constexpr std::size_t kLongestTyped = 60;  // bytes; longer than any key of ours
  if (wrong.size() > kLongestTyped) return otherwise;
  std::size_t best = std::max<std::size_t>(2, wrong.size() / 3) + 1;
  std::string_view nearest;
  for (const std::string_view word : known) {
    const std::size_t changes = distance(wrong, word);
    if (changes >= best) continue;
    best = changes;
    nearest = word;
  }
  return nearest.empty() ? otherwise : error_part(fmt::format("did you mean {}?", nearest));
}

std::string range_hint(const NumberRule& rule) {
  const auto with_unit = [&](double limit) {
    return fmt::format("{}{}{}", limit, rule.unit.empty() ? "" : " ", rule.unit);
  };
  const bool low = std::isfinite(rule.low);
  const bool high = std::isfinite(rule.high);
  if (low && high) {
    return rule.above_low
               ? error_part(fmt::format("give more than {} and at most {}", rule.low,
                                        with_unit(rule.high)))
               : error_part(fmt::format("give {} to {}", rule.low, with_unit(rule.high)));
  }
  if (!low) return error_part(fmt::format("give at most {}", with_unit(rule.high)));
  return rule.above_low ? error_part(fmt::format("give more than {}", with_unit(rule.low)))
                        : error_part(fmt::format("give at least {}", with_unit(rule.low)));
}

class DecodeValue final : public Value {
 public:
  DecodeValue(const json* node, const Path& path, Faults& faults)
      : node_(node), path_(path), faults_(faults) {}

  void number(double& value, const NumberRule& rule) override;
  void whole(std::uint64_t& value, std::uint64_t low, std::uint64_t high) override;
  void flag(bool& value) override {
    const bool good = is(node_ != nullptr && node_->is_boolean(), error_part("give true or false"));
    if (good) value = node_->get<bool>();
  }
  void text(std::string& value, std::size_t most) override;
  void formatted(const std::string& value, std::string_view pattern, const Accept& accept,
                 std::size_t most) override;
  void word(std::size_t& index, Words words) override;
  void list(const CountRule& rule, std::size_t size, const std::function<void(std::size_t)>& resize,
            const std::function<void(std::size_t, Value&)>& item) override;
  void object(const Describe& fields) override;
  void word_or_object(bool& is_object, std::size_t& index, Words words,
                      const Describe& fields) override {
    if (node_ == nullptr) return;
    is_object = node_->is_object();
    if (is_object) {
      object(fields);
    } else {
      word(index, words);
    }
  }
  bool wanted(bool) override { return node_ != nullptr; }

 private:
  /// Whether to go on; sets the fault when the value is there but of another type.
  bool is(bool right_type, std::string_view hint) {
    if (node_ == nullptr || faults_.first) return false;
    if (!right_type) {
      faults_.set(ErrorCode::malformed, kind_of(*node_) + " stands here", path_, std::string(hint));
    }
    return right_type;
  }
  const json* node_;  // null: the key is not there
  Path path_;
  Faults& faults_;
};

class DecodeObject final : public Object {
 public:
  DecodeObject(const json& node, const Path& path, Faults& faults)
      : node_(node), path_(path), faults_(faults) {}

  Value& required(std::string_view key, std::string_view what) override {
    if (!node_.contains(key) && !missing_) {
      missing_ = Error{ErrorCode::missing, fmt::format("\"{}\" is missing", key), path_.text(),
                       fmt::format("add it: {}", what)};
    }
    return optional(key, what);
  }
  Value& optional(std::string_view key, std::string_view) override {
    known_.push_back(key);
    const auto found = node_.find(key);
    return current_.emplace(found == node_.end() ? nullptr : &*found, Path{&path_, key}, faults_);
  }
  void exactly_one(std::initializer_list<std::string_view> keys) override {
    const auto given =
        std::count_if(keys.begin(), keys.end(), [&](auto key) { return node_.contains(key); });
    if (given == 1 || missing_) return;
    missing_ =
        Error{given == 0 ? ErrorCode::missing : ErrorCode::conflict,
              given == 0 ? "one key is missing" : fmt::format("{} keys exclude each other", given),
              path_.text(), "give exactly one of " + joined(Words(keys.begin(), keys.size()))};
  }
  void cases(std::string_view key, std::string_view what, Words words, std::size_t& index,
             const std::function<void(std::size_t, Object&)>& fields) override {
    required(key, what).word(index, words);
    undecided_ = missing_.has_value() || faults_.first.has_value();
    if (!undecided_) fields(index, *this);
  }
  /// To be called when every key has been visited. A key nobody knows often explains why another
  /// one is missing, so it is reported first.
  void finish() {
    if (faults_.first) return;
    if (!undecided_) {
      for (const auto& [key, value] : node_.items()) {
        if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
        faults_.set(ErrorCode::unknown_name, shown(key) + " is no key of this object", path_,
                    suggestion_for(key));
        return;
      }
    }
    if (missing_) faults_.first = missing_;
  }

 private:
  [[nodiscard]] std::string suggestion_for(std::string_view unknown) const {
    std::vector<std::string_view> unused;
    for (const auto key : known_) {
      if (!node_.contains(key)) unused.push_back(key);
    }
    return suggestion(unknown, unused,
                      unused.empty() ? error_part(std::string("take it out"))
                                     : error_part("take it out, or give " + joined(unused)));
  }
  const json& node_;
  Path path_;
  Faults& faults_;
  std::vector<std::string_view> known_;
  std::optional<Error> missing_;
  bool undecided_ = false;  // the key that decides about the others is wrong
  std::optional<DecodeValue> current_;
};

void DecodeValue::number(double& value, const NumberRule& rule) {
  const std::string hint = rule.unit.empty()
                               ? error_part("give a number")
                               : error_part(fmt::format("give a number in {}", rule.unit));
  if (!is(node_ != nullptr && node_->is_number(), hint)) return;
  const double given = node_->get<double>();
  if (given < rule.low || given > rule.high || (rule.above_low && given <= rule.low)) {
    faults_.set(ErrorCode::out_of_range, fmt::format("{} is out of range", given), path_,
                range_hint(rule));
    return;
  }
  value = given;
}

void DecodeValue::whole(std::uint64_t& value, std::uint64_t low, std::uint64_t high) {
  if (!is(node_ != nullptr && node_->is_number(), error_part("give a whole number"))) return;
  constexpr double kExact = 9007199254740992.0;  // 2^53: above it a double skips whole numbers
  bool good = node_->is_number_unsigned();
  std::uint64_t given = 0;
  if (good) {
    given = node_->get<std::uint64_t>();
  } else if (node_->is_number_float()) {
    const double real = node_->get<double>();
    good = real >= 0 && real <= kExact && real == std::floor(real);
    if (good) given = static_cast<std::uint64_t>(real);
  }
  if (!good || given < low || given > high) {
    faults_.set(ErrorCode::out_of_range, fmt::format("{} is out of range", node_->dump()), path_,
                fmt::format("give a whole number from {} to {}", low, high));
    return;
  }
  value = given;
}

void DecodeValue::text(std::string& value, std::size_t most) {
  if (!is(node_ != nullptr && node_->is_string(), error_part("give text in quotes"))) return;
  const auto& given = node_->get_ref<const std::string&>();
  if (given.size() > most) {
    faults_.set(ErrorCode::out_of_range, fmt::format("the text has {} bytes", given.size()), path_,
                fmt::format("keep it to {}", most));
    return;
  }
  if (has_control(given)) {
    faults_.set(ErrorCode::malformed, shown(given) + " holds a control character", path_,
                "write it in plain letters; tabs and line ends may stay");
    return;
  }
  value = given;
}

void DecodeValue::formatted(const std::string&, std::string_view, const Accept& accept,
                            std::size_t most) {
  std::string given;
  text(given, most);
  if (node_ == nullptr || faults_.first) return;
  const auto taken = accept(given);
  if (taken) return;
  const Error& error = taken.error();
  faults_.set(error.code, error_part(shown(given) + ": " + error.message), path_, error.hint);
}

void DecodeValue::word(std::size_t& index, Words words) {
  const std::string hint = error_part(fmt::format("give {}, in quotes", joined(words)));
  if (!is(node_ != nullptr && node_->is_string(), hint)) return;
  const auto& given = node_->get_ref<const std::string&>();
  const auto found = std::find(words.begin(), words.end(), given);
  if (found == words.end()) {
    faults_.set(ErrorCode::unknown_name, shown(given) + " is not a word known here", path_,
                suggestion(given, words, error_part("give " + joined(words))));
    return;
  }
  index = static_cast<std::size_t>(found - words.begin());
}

void DecodeValue::list(const CountRule& rule, std::size_t,
                       const std::function<void(std::size_t)>& resize,
                       const std::function<void(std::size_t, Value&)>& item) {
  if (!is(node_ != nullptr && node_->is_array(), error_part("give a list in [ ]"))) return;
  const std::size_t count = node_->size();
  if (count < rule.least || count > rule.most) {
    faults_.set(ErrorCode::out_of_range,
                count == 1 ? "the list has 1 entry" : fmt::format("the list has {} entries", count),
                path_,
                rule.least == rule.most ? fmt::format("give exactly {}", rule.least)
                                        : fmt::format("give {} to {}", rule.least, rule.most));
    return;
  }
  resize(count);
  for (std::size_t i = 0; i < count && !faults_.first; ++i) {
    DecodeValue entry(&(*node_)[i], Path{&path_, {}, i}, faults_);
    item(i, entry);
  }
}

void DecodeValue::object(const Describe& fields) {
  if (!is(node_ != nullptr && node_->is_object(), error_part("give an object in { }"))) return;
  DecodeObject inner(*node_, path_, faults_);
  fields(inner);
  inner.finish();
}

}  // namespace

Result<void> decode_into(std::string_view text, const Describe& fields) {
  const auto tree = parse_json(text);
  if (!tree) return tl::unexpected(tree.error());
  Faults faults;
  DecodeValue(&*tree, Path{}, faults).object(fields);
  if (faults.first) return tl::unexpected(*faults.first);
  return {};
}

}  // namespace hw::wire
