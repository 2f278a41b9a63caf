// The decoder and encoder under every message: types, ranges, faults, exact numbers.
#include <gmock/gmock.h>

#include <limits>

#include "huewright/base/random.h"
#include "huewright/wire/json.h"

namespace hw::wire {
namespace {

enum class Fruit { apple, pear, plum };

struct Basket {
  double weight = 2.5;
  std::optional<double> price;
  Grams sugar{1};
  std::uint64_t count = 1;
  bool ripe = false;
  std::string words = "none";
  Fruit fruit = Fruit::pear;
  std::vector<double> values;
  Triple colour{1, 2, 3};
};

void describe(Object& object, Basket& basket) {
  number(object.required("weight_g", "mass"), basket.weight,
         {.low = 0, .high = 100, .unit = "g", .above_low = true});
  number(object.optional("price", "what it costs"), basket.price, {.low = 0});
  number(object.optional("sugar_g", "in it"), basket.sugar, {.high = 5, .unit = "g"});
  object.optional("count", "how many").whole(basket.count, 1, std::uint64_t(-1));
  object.optional("ripe", "ready").flag(basket.ripe);
  object.optional("words", "free").text(basket.words, 8);
  static constexpr std::array kFruits{Fruit::apple, Fruit::pear, Fruit::plum};
  static constexpr std::array<std::string_view, 3> kWords{"apple", "pear", "plum"};
  word(object.optional("fruit", "which"), basket.fruit, kFruits, kWords);
  numbers(object.optional("values", "any"), basket.values, {0, 3}, {.low = 1, .above_low = true});
  triple(object.optional("colour", "three"), basket.colour, {.low = 0}, {});
}

std::string fault(const std::string& json) {
  const auto basket = decode<Basket>(json);
  return basket ? "decoded" : one_line(basket.error());
}

TEST(WireDecode, fills_every_kind_of_value) {
  const auto basket = decode<Basket>(
      R"({"weight_g": 3, "price": 0, "sugar_g": -2.5e0, "count": 4.0, "ripe": true,
          "words": "a\u00e9", "fruit": "plum", "values": [2, 3.5], "colour": [9, -8, 7]})");
  ASSERT_TRUE(basket) << one_line(basket.error());
  EXPECT_EQ(basket->weight, 3);
  EXPECT_EQ(basket->price, 0);
  EXPECT_EQ(basket->sugar, Grams(-2.5));
  EXPECT_EQ(basket->count, 4u);
  EXPECT_TRUE(basket->ripe);
  EXPECT_EQ(basket->words, "aé");
  EXPECT_EQ(basket->fruit, Fruit::plum);
  EXPECT_THAT(basket->values, testing::ElementsAre(2, 3.5));
  EXPECT_THAT(basket->colour, testing::ElementsAre(9, -8, 7));
}

TEST(WireDecode, keys_left_out_keep_their_defaults) {
  const auto basket = decode<Basket>(R"({"weight_g": 3})");
  ASSERT_TRUE(basket);
  EXPECT_FALSE(basket->price);
  EXPECT_EQ(basket->sugar, Grams(1));
  EXPECT_EQ(basket->words, "none");
  EXPECT_EQ(basket->fruit, Fruit::pear);
}

TEST(WireDecode, faults_name_place_limit_and_remedy) {
  EXPECT_EQ(fault(R"({"weight_g": 0})"),
            "weight_g: 0 is out of range; give more than 0 and at most 100 g");
  EXPECT_EQ(fault(R"({"weight_g": 1, "price": -1})"), "price: -1 is out of range; give at least 0");
  EXPECT_EQ(fault(R"({"weight_g": 1, "sugar_g": 6})"),
            "sugar_g: 6 is out of range; give at most 5 g");
  EXPECT_EQ(fault(R"({"weight_g": 1, "values": [2, 1]})"),
            "values[1]: 1 is out of range; give more than 1");
  EXPECT_EQ(fault(R"({"weight_g": 1, "values": [2, 2, 2, 2]})"),
            "values: the list has 4 entries; give 0 to 3");
  EXPECT_EQ(fault(R"({"weight_g": 1, "words": "ninebytes"})"),
            "words: the text has 9 bytes; keep it to 8");
  EXPECT_EQ(fault(R"({"weight_g": 1, "ripe": 1})"),
            "ripe: the number 1 stands here; give true or false");
  EXPECT_EQ(fault(R"({"weight_g": 1, "words": false})"),
            "words: false stands here; give text in quotes");
  EXPECT_EQ(fault(R"({"weight_g": 1, "fruit": "paer"})"),
            "fruit: \"paer\" is not a word known here; did you mean pear?");
  EXPECT_EQ(fault(R"({"weight_g": 1, "fruit": []})"),
            "fruit: a list stands here; give apple, pear or plum, in quotes");
  EXPECT_EQ(fault(R"({"weight_g": true})"), "weight_g: true stands here; give a number in g");
}

TEST(WireDecode, a_slip_in_a_key_is_told_before_the_key_it_leaves_missing) {
  EXPECT_EQ(fault(R"({"wieght_g": 1})"),
            "\"wieght_g\" is no key of this object; did you mean weight_g?");
  EXPECT_EQ(fault("{}"), "\"weight_g\" is missing; add it: mass");
}

TEST(WireDecode, whole_numbers_are_exact_or_refused) {
  const auto most = decode<Basket>(R"({"weight_g": 1, "count": 18446744073709551615})");
  ASSERT_TRUE(most);
  EXPECT_EQ(most->count, std::numeric_limits<std::uint64_t>::max());
  for (const char* count : {"0", "-1", "1.5", "1e17", "18446744073709551616"}) {
    EXPECT_THAT(fault(R"({"weight_g": 1, "count": )" + std::string(count) + "}"),
                testing::HasSubstr("give a whole number from 1"))
        << count;
  }
}

TEST(WireDecode, only_the_shortest_utf8_of_a_character_is_taken) {
  const auto with = [](const std::string& bytes) {
    return fault("{\"weight_g\": 1, \"words\": \"" + bytes + "\"}");
  };
  // The four lengths, at their first and last characters (RFC 3629 section 3); the first of two
  // bytes is a character, though no text may hold it.
  EXPECT_THAT(with("\xc2\x80"), testing::HasSubstr("control character"));
  for (const char* good : {"\xc2\xa0", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xef\xbf\xbf",
                           "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf"}) {
    EXPECT_EQ(with(good), "decoded");
  }
  for (const char* bad : {"\x80", "\xc1\x81", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xf0\x8f\xbf\xbf",
                          "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xe2\x82", "\xff"}) {
    EXPECT_THAT(with(bad), testing::HasSubstr("is not UTF-8"));
  }
}

TEST(WireDecode, texts_hold_no_control_character_but_tabs_and_line_ends) {
  const auto with = [](const std::string& text) {
    return fault(R"({"weight_g": 1, "words": ")" + text + "\"}");
  };
  EXPECT_EQ(with(R"(a\tb\r\n)"), "decoded");
  EXPECT_EQ(with(R"(a\u0000b)"),
            "words: \"a?b\" holds a control character; write it in plain letters; tabs and line "
            "ends may stay");
  for (const char* hidden :
       {R"(\u001b[2J)", R"(\u000b)", R"(\u007f)", R"(\u0080)", "\x7f", R"(\u009b)"}) {
    EXPECT_THAT(with(hidden), testing::HasSubstr("control character")) << hidden;
  }
}

TEST(WireDecode, nesting_is_read_to_64_and_no_deeper) {
  const auto nested = [](std::size_t depth) {
    return fault(std::string(depth, '[') + std::string(depth, ']'));
  };
  EXPECT_EQ(nested(kMostDepth), "a list stands here; give an object in { }");
  EXPECT_THAT(nested(kMostDepth + 1), testing::HasSubstr("nested more than 64 deep"));
  EXPECT_THAT(nested(1000000), testing::HasSubstr("nested more than 64 deep"));
}

TEST(WireDecode, a_key_twice_is_told_by_its_place) {
  EXPECT_EQ(fault(R"({"a": [0, {"b": {"c": 1, "c": 2}}]})"),
            "a[1].b: \"c\" stands here twice; keep one of the two");
}

TEST(WireEncode, writes_keys_in_order_and_leaves_out_what_is_not_there) {
  Basket basket;
  EXPECT_EQ(encode(basket), R"({"weight_g":2.5,"sugar_g":1,"count":1,"ripe":false,"words":"none",)"
                            R"("fruit":"pear","values":[],"colour":[1,2,3]})");
  basket.price = -0.0;
  basket.words = "\"\\\n\x01é";
  EXPECT_THAT(encode(basket), testing::HasSubstr(R"("price":0,)"));
  EXPECT_THAT(encode(basket), testing::HasSubstr(R"("words":"\"\\\u000a\u0001é")"));
}

TEST(WireEncode, every_double_reads_back_as_itself) {
  const Draws draws(3);
  constexpr int kTries = 20000;
  for (int i = 0; i < kTries; ++i) {
    Basket basket;
    // Over the whole range of exponents, and dense among ordinary amounts.
    const double mantissa = draws.uniform(0, static_cast<std::uint64_t>(i));
    const int exponent = static_cast<int>(draws.below(1000, 1, static_cast<std::uint64_t>(i)));
    basket.price = i % 2 == 0 ? mantissa * 100 : std::ldexp(mantissa, exponent - 500);
    const auto back = decode<Basket>(encode(basket));
    ASSERT_TRUE(back) << one_line(back.error());
    ASSERT_EQ(*back->price, *basket.price);
  }
}

}  // namespace
}  // namespace hw::wire
