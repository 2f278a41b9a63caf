// What is said in four languages. Dates and decimal marks: Unicode CLDR, as Intl of Node 20.20
// (ICU) writes "long" dates and plain numbers for en-GB, es, fr and pt.
#include "huewright/base/language.h"

#include <gmock/gmock.h>

#include <cerrno>

#include "huewright/base/error_part.h"

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
  EXPECT_EQ(es("now 2025-06-18 09:30"), "ahora 18 de junio de 2025, 09:30");
  EXPECT_EQ(es("2025-02-30"), "2025-02-30");  // no calendar has it
  EXPECT_EQ(retold(Language::en, "12.5"), "12.5");
}

TEST(Language, tells_an_error_again) {
  const auto es = [](std::string message, std::string hint, std::string where = {}) {
    const Error error{ErrorCode::conflict, std::move(message), std::move(where), std::move(hint)};
    const Error told = retold(Language::es, error);
    EXPECT_EQ(told.code, error.code);
    EXPECT_EQ(one_line(retold(Language::en, error)), one_line(error));
    return one_line(told);
  };
  // Keys, numbers and what was typed stay as a file has them.
  EXPECT_EQ(es("-5 is out of range", "give more than 0 and at most 0.5 g", "parts[0].grams"),
            "parts[0].grams: -5 está fuera de margen; dar más de 0 y como mucho 0.5 g");
  EXPECT_EQ(es("the text \"a list\" stands here", "give a list in [ ]"),
            "aquí está el texto \"a list\"; dar una lista entre [ ]");
  EXPECT_EQ(es("\"try again\" is no key of this object", "did you mean name?"),
            "\"try again\" no es una clave de este objeto; ¿quería decir name?");
  EXPECT_EQ(es("one key is missing", "give exactly one of look, lab or photo_lab"),
            "falta una clave; dar exactamente uno de look, lab o photo_lab");
  EXPECT_EQ(es("\"gold\" is missing", "add it: how warm it is"),
            "falta \"gold\"; añadirlo; schemas/ dice qué es");
  // A library's reason, and where it stands.
  EXPECT_EQ(
      es("not JSON: unexpected ']'; expected end of input",
         "look for a comma, quote or bracket just before", "my visit.json: line 3, column 1"),
      "my visit.json: línea 3, columna 1: no es JSON: no se esperaba ']', sino el final de la "
      "entrada; buscar justo antes una coma, unas comillas o un corchete");
  // A sentence of the rules behind an error's own.
  EXPECT_EQ(
      es("no bowl sheet is made while this stands: The skin test showed a reaction, so this "
         "colour is not used.",
         "meet it, then plan again"),
      "no se hace hoja de boles mientras quede esto: La prueba en la piel mostró una reacción, "
      "así que este color no se usa; cumplirlo y planear de nuevo");
  EXPECT_EQ(es("words of nobody's", ""), "words of nobody's");
  EXPECT_EQ(es(system_words(ENOENT), ""), "el sistema dice: no existe ese archivo o carpeta");
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
