#include "tell.h"

#include <gmock/gmock.h>

namespace hw::server {
namespace {

std::string told(std::string body, Language language = Language::fr) {
  Reply reply;
  reply.body = std::move(body);
  tell(reply, language);
  return reply.body;
}

TEST(ServerTell, takes_the_language_that_is_wanted_most) {
  // RFC 9110, 12.5.4: its own example, with a language of ours in it.
  EXPECT_EQ(language_wanted("da, fr-ca;q=0.8, en;q=0.7"), Language::fr);
  EXPECT_EQ(language_wanted("en-GB,en;q=0.9,es;q=0.8"), Language::en);
  EXPECT_EQ(language_wanted("de, pt-BR;q=0.1"), Language::pt);
  EXPECT_EQ(language_wanted("es;q=0, fr;q=0.2"), Language::fr);
  EXPECT_EQ(language_wanted(""), Language::en);
  EXPECT_EQ(language_wanted(",;q=9;;,\xff,*"), Language::en);
}

TEST(ServerTell, tells_its_own_sentences_again) {
  EXPECT_EQ(told(R"({"refusals":[{"id":"eyes","text":"Setting foam."}],"level":2.5})"),
            R"({"refusals":[{"id":"eyes","text":"Mousse de mise en forme."}],"level":2.5})");
  EXPECT_EQ(told(R"({"courses":[{"name":"lightener 1 : 2 with 6 %","notes":["red"]}]})"),
            R"({"courses":[{"name":"décolorant 1 : 2 avec 6 %","notes":["rouge"]}]})");
  EXPECT_EQ(told(R"({"paint":{"srgb":"#402020","words":"level 2.5, red"}})"),
            R"({"paint":{"srgb":"#402020","words":"hauteur 2,5, rouge"}})");
}

TEST(ServerTell, tells_an_error_again) {
  EXPECT_EQ(told(R"({"error":{"what":"is not a number","where":"minute","mend":"send it"}})"),
            R"({"error":{"what":"n'est pas un nombre","where":"minute","mend":"l'envoyer"}})");
  // Another object with a "what" is none.
  EXPECT_EQ(told(R"({"what":"send it"})"), R"({"what":"send it"})");
}

TEST(ServerTell, leaves_what_people_wrote) {
  for (const char* body : {R"({"name":"red"})", R"({"facts":[{"body":{"text":"red"}}]})",
                           R"({"case":{"zones":[{"name":"roots"}]}})",
                           R"({"on":{"kind":"lightener","words":"red"}})", R"({"zone":"roots"})"}) {
    EXPECT_EQ(told(body), body);
  }
  EXPECT_EQ(told("no JSON"), "no JSON");
  EXPECT_EQ(told(R"({"text":"red"})", Language::en), R"({"text":"red"})");
}

}  // namespace
}  // namespace hw::server
