#include "tell.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <nlohmann/json.hpp>

namespace hw::server {
namespace {

using Json = nlohmann::ordered_json;

/// Fields that hold a sentence of the program, or a list of them, wherever they stand.
constexpr std::array<std::string_view, 10> kSentences{
    "text", "sentence", "quote", "notes", "told", "advice", "closing", "whys", "label", "cautions"};
/// What people wrote, or what a page sends back.
constexpr std::array<std::string_view, 8> kTheirs{"facts",    "case",    "person",    "shelf",
                                                  "products", "clients", "movements", "salon"};

bool holds(const auto& list, std::string_view key) {
  return std::ranges::find(list, key) != list.end();
}

/// The words on a tube are the salon's; those of a colour are ours.
bool is_product(const Json& object) {
  return object.contains("kind") || object.contains("size_g") || object.contains("class");
}

void tell_text(Json& value, Language language) {
  if (value.is_string()) {
    value = retold(language, value.get_ref<const std::string&>());
  } else if (value.is_array()) {
    for (Json& one : value) {
      if (one.is_string()) tell_text(one, language);
    }
  }
}

/// {"what", "where", "mend"}, as error_json (route.h) makes it.
void tell_error(Json& value, Language language) {
  const auto text = [&](const char* key) {
    return value[key].is_string() ? std::string(value[key]) : "";
  };
  const Error told =
      retold(language, Error{ErrorCode::malformed, text("what"), text("where"), text("mend")});
  value["what"] = told.message;
  value["where"] = told.where;
  value["mend"] = told.hint;
}

// NOLINTNEXTLINE(misc-no-recursion): as deep as our own answers are.
void tell_in(Json& value, Language language, bool of_courses) {
  if (value.is_array()) {
    for (Json& one : value) tell_in(one, language, of_courses);
  }
  if (!value.is_object()) return;
  if (value.size() == 3 && value.contains("what") && value.contains("where") &&
      value.contains("mend")) {
    tell_error(value, language);
    return;
  }
  const bool product = is_product(value);
  for (auto& [key, member] : value.items()) {
    if (holds(kTheirs, key)) continue;
    const bool ours =
        holds(kSentences, key) || (key == "words" && !product) || (key == "name" && of_courses);
    if (ours) tell_text(member, language);
    tell_in(member, language, key == "courses" || key == "left_out");
  }
}

/// "q=0.8" as 0.8; 1 where nothing is said; 0 where it is no weight.
double weight_of(std::string_view parameter) {
  const std::size_t at = parameter.find("q=");
  if (at == std::string_view::npos) return 1;
  double weight = 0;
  const char* const end = parameter.data() + parameter.size();
  std::from_chars(parameter.data() + at + 2, end, weight);
  return weight >= 0 && weight <= 1 ? weight : 0;
}

}  // namespace

Language language_wanted(std::string_view field) {
  Language best = Language::en;
  double most = 0;
  for (std::size_t from = 0; from < field.size();) {
    const std::size_t end = std::min(field.find(',', from), field.size());
    std::string_view one = field.substr(from, end - from);
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    const std::size_t semicolon = std::min(one.find(';'), one.size());
    const auto language = language_of(one.substr(0, semicolon));
    const double weight = weight_of(one.substr(semicolon));
    if (language && weight > most) {
      best = *language;
      most = weight;
    }
    from = end + 1;
  }
  return best;
}

void tell(Reply& reply, Language language) {
  if (language == Language::en || reply.type != "application/json") return;
  Json body = Json::parse(reply.body, nullptr, false);
  if (body.is_discarded()) return;
  tell_in(body, language, false);
  reply.body = body.dump();
}

}  // namespace hw::server
