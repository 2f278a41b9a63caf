// What is said in four languages. Dates and decimal marks: Unicode CLDR, as Intl of Node 20.20
// (ICU) writes "long" dates and plain numbers for en-GB, es, fr and pt.
#include "huewright/base/language.h"

#include <gmock/gmock.h>

namespace hw {
namespace {

using std::chrono::year;

TEST(Language, is_known_by_the_first_part_of_its_tag) {
  EXPECT_EQ(language_of("pt-BR"), Language::pt);
  EXPECT_EQ(language_of("FR_ca"), Language::fr);
  EXPECT_EQ(language_of("en"), Language::en);
  EXPECT_EQ(language_of("de"), std::nullopt);
  EXPECT_EQ(language_of("e"), std::nullopt);
  EXPECT_EQ(language_of("eng"), std::nullopt);
  EXPECT_THAT(one_line(language_named("de", "--language").error()),
              testing::HasSubstr("en, es, fr, pt"));
}

TEST(Language, writes_dates_as_the_cldr_does) {
  const auto first = year(2025) / 5 / 1;
  EXPECT_EQ(day(Language::en, first), "1 May 2025");
  EXPECT_EQ(day(Language::es, first), "1 de mayo de 2025");
  EXPECT_EQ(day(Language::fr, first), "1 mai 2025");
  EXPECT_EQ(day(Language::pt, first), "1 de maio de 2025");
}

TEST(Language, writes_numbers_and_money_with_its_mark) {
  EXPECT_EQ(decimal(Language::en, 1234.5, 1), "1234.5");
  EXPECT_EQ(decimal(Language::es, 1234.5, 1), "1234,5");
  EXPECT_EQ(decimal(Language::fr, 2.0, 2), "2");
  EXPECT_EQ(decimal(Language::pt, -0.001, 2), "0");
  EXPECT_EQ(fixed(Language::fr, 5, 1), "5,0");
  EXPECT_EQ(money(Language::en, 12.5, "EUR"), "12.50 EUR");
  EXPECT_EQ(money(Language::fr, 12.5, "€"), "12,50 €");
  EXPECT_EQ(money(Language::es, 120, "€"), "120 €");
}

TEST(Language, puts_texts_in_their_places) {
  EXPECT_EQ(said(Language::fr, "Bowl {0}: {1}", {"2", "gloss"}), "Bol 2 : gloss");
  EXPECT_EQ(said(Language::fr, "nobody translated {0}", {"this"}), "nobody translated this");
  EXPECT_EQ(said(Language::en, "{0} of {1}", {"1"}), "1 of {1}");
  // What is put in is not looked through again.
  EXPECT_EQ(said(Language::en, "{0} {1} {2}", {"{1}", "b", "c"}), "{1} b c");
}

TEST(Language, tells_again_what_the_program_made) {
  const auto es = [](std::string_view english) { return retold(Language::es, english); };
  EXPECT_EQ(es("The ready mix holds 12.5 % peroxide, and more than 12 % does not go on hair; thin "
               "it or use a weaker developer."),
            "La mezcla lista tiene 12,5 % de peróxido, y más de 12 % no se aplica al cabello; "
            "diluirla o usar un oxidante más débil.");
  EXPECT_EQ(es("soap cap 1 : 2 : 1 with 6 % (cream lightener), then demi colour"),
            "lavado decolorante 1 : 2 : 1 con 6 % (cream lightener), después color demi");
  EXPECT_EQ(es("Expect a slight difference from the target; a close match 6 times in 10 in the "
               "least likely zone; up to 23 % of what the fibre can give is used then. Against the "
               "first: 30 min longer, gentler on the hair."),
            "Se espera una ligera diferencia con el objetivo; muy parecido 6 de cada 10 veces en "
            "la zona menos probable; entonces se ha gastado hasta 23 % de lo que la fibra puede "
            "dar. Frente a la primera: 30 min más larga, más suave con el cabello.");
  EXPECT_EQ(es("words of nobody's"), "words of nobody's");
  EXPECT_EQ(retold(Language::en, "12.5"), "12.5");
}

TEST(Language, has_every_sentence_in_each) {
  EXPECT_GT(all_said().size(), 300U);
  for (const std::string_view english : all_said()) {
    for (const Language language : kLanguages) {
      EXPECT_FALSE(said(language, english).empty()) << english;
    }
  }
}

}  // namespace
}  // namespace hw
