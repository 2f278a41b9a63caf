// Long texts inside JSON, which are read at once: the same comes out as from a parser that reads
// letter by letter, whatever stands in them and however the bytes around them are broken.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "huewright/base/control.h"
#include "huewright/base/random.h"
#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMost = 20000;

/// {"a": text, "b": [texts], "c": number}
struct Message {
  std::string a;
  std::vector<std::string> b;
  double c = 0;
};

void describe(Object& object, Message& message) {
  object.required("a", "a text").text(message.a, kMost);
  texts(object.required("b", "texts"), message.b, {0, 10}, kMost);
  number(object.required("c", "a number"), message.c);
}

/// JSON of a text of about so many pieces, some of them escaped, some of more bytes than one.
std::string quoted(const Draws& draws, std::uint64_t stream, std::size_t pieces) {
  constexpr std::array<const char*, 13> kPieces{"lift ",
                                                "x",
                                                R"(\")",
                                                R"(\\)",
                                                R"(\n)",
                                                R"(\u00e9)",
                                                "é",
                                                "☂",
                                                R"(\/)",
                                                "{}[],:",
                                                R"(\ud83d\ude00)",
                                                R"(\t)",
                                                R"({\"zone\":\"ends\"})"};
  // Half of all texts have only pieces that need no closer look.
  const std::size_t kinds = draws.below(2, stream, 0) == 0 ? 5 : kPieces.size();
  std::string text = "\"";
  for (std::size_t i = 0; i < pieces; ++i) text += kPieces[draws.below(kinds, stream, i + 1)];
  return text + '"';
}

/// Whether a text may be read: control characters may not, but for tabs and line ends.
bool plain(const nlohmann::json& text) {
  const auto bytes = text.get<std::string>();
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    const bool stays = bytes[at] == '\t' || bytes[at] == '\n' || bytes[at] == '\r';
    if (control_at(bytes, at) > 0 && !stays) return false;
  }
  return true;
}

/// Holds what is read against the other parser; gives whether it was read.
bool same_as_letter_by_letter(const std::string& text) {
  const auto got = decode<Message>(text);
  const auto wanted = nlohmann::json::parse(text, nullptr, false);
  const bool right_types =
      wanted.is_object() && wanted.size() == 3 && wanted.contains("a") && wanted["a"].is_string() &&
      wanted.contains("b") && wanted["b"].is_array() && wanted.contains("c") &&
      wanted["c"].is_number() && plain(wanted["a"]) &&
      std::ranges::all_of(wanted["b"],
                          [](const auto& one) { return one.is_string() && plain(one); });
  EXPECT_EQ(got.has_value(), right_types) << text;
  if (!got || !right_types) return false;
  EXPECT_EQ(got->a, wanted["a"].get<std::string>());
  EXPECT_EQ(got->b, wanted["b"].get<std::vector<std::string>>());
  EXPECT_EQ(got->c, wanted["c"].get<double>());
  return true;
}

TEST(WireLongTexts, are_read_as_short_ones_are) {
  const Draws draws(20260112);
  for (std::uint64_t k = 0; k < 400; ++k) {
    const auto text = [&](std::uint64_t which) {
      const std::uint64_t most = draws.below(2, 10 + which, k) == 0 ? 20 : 900;
      return quoted(draws, 1000 + 10 * k + which, draws.below(most, 20 + which, k));
    };
    const std::string json =
        "{\"b\": [" + text(0) + ", " + text(1) + "],\n \"c\": 7.5, \"a\":" + text(2) + "}";
    EXPECT_TRUE(same_as_letter_by_letter(json)) << json;
  }
}

TEST(WireLongTexts, hide_no_fault) {
  const Draws draws(20260113);
  std::size_t refused = 0;
  constexpr std::string_view kBytes = "\"\\{}[],:x\x01\xff u";
  for (std::uint64_t k = 0; k < 4000; ++k) {
    std::string json = "{\"a\": " + quoted(draws, 1000 + k, 300) + ", \"b\": [" +
                       quoted(draws, 9000 + k, 200) + "], \"c\": 1}";
    for (std::uint64_t i = 0; i <= draws.below(3, 1, k); ++i) {
      json[draws.below(json.size(), 2 + i, k)] = kBytes[draws.below(kBytes.size(), 5 + i, k)];
    }
    if (!same_as_letter_by_letter(json)) ++refused;
  }
  EXPECT_GT(refused, 1000U);
  EXPECT_LT(refused, 3900U);
}

TEST(WireLongTexts, keep_the_place_of_a_fault_behind_them) {
  const std::string text = '"' + std::string(2000, 'x') + '"';
  const auto broken = decode<Message>("{\"a\": " + text + ",\n \"b\": [}");
  ASSERT_FALSE(broken);
  EXPECT_EQ(broken.error().where, "line 2, column 8");
  const auto twice = decode<Message>("{\"a\": 1, " + text + ": 1, " + text + ": 2}");
  ASSERT_FALSE(twice);
  EXPECT_NE(one_line(twice.error()).find("stands here twice"), std::string::npos);
  const auto late = decode<Message>("{\"a\": " + text + ", \"b\": [\"\", 3], \"c\": 1}");
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().where, "b[1]");
}

}  // namespace
}  // namespace hw::wire
