// The drill for the eye: shown without its number, kept as a fact, and told of each reader.
#include "huewright/book/drills.h"

#include <gmock/gmock.h>

#include "huewright/base/language.h"
#include "huewright/book/lessons.h"
#include "server/asked_book.h"
#include "tell.h"

namespace hw::server {
namespace {

using nlohmann::json;
using testing::HasSubstr;

class Drills : public AskedBook {
 protected:
  json answer(int seed, double level, const std::string& reader = "Ines") {
    return asked(answer_drill, {}, {{"seed", seed}, {"answer", level}, {"reader", reader}});
  }
  static double shown(int seed) {
    return plan::drill_strand(static_cast<std::uint64_t>(seed), hair::default_ladder()).level;
  }
};

TEST_F(Drills, shows_a_strand_without_saying_what_it_is) {
  const json strand = asked(drill_strand, {"7"});
  EXPECT_EQ(strand["seed"], 7);
  EXPECT_THAT(strand["paint"]["srgb"].get<std::string>(), testing::MatchesRegex("#[0-9a-f]{6}"));
  EXPECT_THAT(strand.dump(), testing::Not(HasSubstr("level")));
  EXPECT_EQ(asked(drill_strand, {"7"}), strand);
  EXPECT_THAT(refused(drill_strand, {"x"}), HasSubstr("seed"));
  EXPECT_THAT(refused(drill_strand, {"-1"}), HasSubstr("seed"));
  EXPECT_THAT(refused(drill_strand, {"9007199254740992"}), HasSubstr("seed"));
}

TEST_F(Drills, keeps_an_answer_as_a_fact_of_the_book) {
  const json said =
      asked(answer_drill, {}, {{"seed", 7}, {"answer", 5.5}, {"answer_warmth", "warm"}});
  EXPECT_EQ(said["shown"]["level"], shown(7));
  const auto facts = service_.book().store().facts_of(book::About::salon, book::kDrillSubject);
  ASSERT_TRUE(facts);
  ASSERT_EQ(facts->size(), 1U);
  const auto kept = book::body_of<book::DrillFact>(facts->front());
  EXPECT_EQ(kept.reader, "Ines");  // the device, where nobody is named
  EXPECT_EQ(kept.seed, 7U);
  EXPECT_EQ(kept.level, shown(7));
  EXPECT_EQ(kept.answer, 5.5);
  EXPECT_EQ(kept.answer_warmth, "warm");
  EXPECT_EQ(facts->front().at, "2025-05-14T10:00:00+02:00");
  EXPECT_EQ(said["facts"][0], facts->front().id);
}

TEST_F(Drills, tells_each_readers_eye_after_some_answers) {
  EXPECT_THAT(answer(1, shown(1) + 1)["eyes"][0]["told"].dump(), HasSubstr("1 of 5 strands read"));
  for (int seed = 2; seed <= 12; ++seed) answer(seed, std::min(10.0, shown(seed) + 0.5));
  answer(13, 4, "Noor");
  const json all = asked(drills, {});
  ASSERT_EQ(all["eyes"].size(), 2U);
  EXPECT_EQ(all["eyes"][0]["reader"], "Ines");
  EXPECT_EQ(all["eyes"][0]["count"], 12);
  EXPECT_NEAR(all["eyes"][0]["offset"]["likely"].get<double>(), 0.5, 0.1);
  EXPECT_THAT(all["eyes"][0]["told"].dump(),
              HasSubstr("On this screen the eye reads 0.5 level lighter"));
  EXPECT_THAT(all["advice"].get<std::string>(), HasSubstr("nobody calibrated"));
  const json mine = asked(drills, {}, {}, {{"reader", "Noor"}});
  ASSERT_EQ(mine["eyes"].size(), 1U);
  EXPECT_EQ(mine["eyes"][0]["count"], 1);
  EXPECT_TRUE(asked(drills, {}, {}, {{"reader", "nobody"}})["eyes"].empty());
}

TEST_F(Drills, enters_what_is_learned_and_evidence_says_so) {
  EXPECT_TRUE(book::learned_for(service_.book().store(), "")->factors.empty());
  for (int seed = 1; seed <= 10; ++seed) answer(seed, std::min(10.0, shown(seed) + 1));
  const auto learned = book::learned_for(service_.book().store(), "");
  const plan::Factor* bias = learned->find(plan::FactorKind::reader_bias, "Ines");
  ASSERT_NE(bias, nullptr);
  EXPECT_GT(bias->learned.mean, 0.05);
  EXPECT_EQ(bias->practice, 10U);
  const json evidence = asked(server::evidence, {});
  ASSERT_EQ(evidence["moved"].size(), 1U);
  EXPECT_EQ(evidence["moved"][0]["practice"], 10);
  EXPECT_THAT(evidence["moved"][0]["sentence"].get<std::string>(),
              HasSubstr("from 10 answers in drills on a screen"));
  EXPECT_EQ(evidence["eyes"].size(), 1U);
  // What was not yet answered at a moment does not count then.
  const auto then = book::learned_for(service_.book().store(), "", "2025-05-13T10:00:00+02:00");
  EXPECT_TRUE(then->factors.empty());
}

TEST_F(Drills, names_what_is_wrong) {
  const auto said = [&](const json& body) { return refused(answer_drill, {}, body); };
  EXPECT_THAT(said(json::object()), HasSubstr("seed"));
  EXPECT_THAT(said({{"seed", 1}}), HasSubstr("answer"));
  EXPECT_THAT(said({{"seed", 1.5}, {"answer", 3}}), HasSubstr("seed"));
  EXPECT_THAT(said({{"seed", 1}, {"answer", 11}}), HasSubstr("answer"));
  EXPECT_THAT(said({{"seed", 1}, {"answer", "dark"}}), HasSubstr("answer"));
  EXPECT_THAT(said({{"seed", 1}, {"answer", 3}, {"answer_warmth", "hot"}}),
              HasSubstr("answer_warmth"));
  EXPECT_THAT(said({{"seed", 1}, {"answer", 3}, {"level", 3}}), HasSubstr("level"));
  EXPECT_THAT(said({{"seed", 1}, {"answer", 3}, {"reader", std::string(200, 'x')}}),
              HasSubstr("reader"));
}

TEST_F(Drills, speaks_the_language_of_who_asks) {
  for (int seed = 1; seed <= 9; ++seed) {
    // Dark strands far off, so that depths differ.
    answer(seed, shown(seed) < 4 ? shown(seed) + 2 : shown(seed));
  }
  for (int seed = 10; seed <= 40; ++seed) {
    answer(seed, shown(seed) < 4 ? shown(seed) + 2 : shown(seed));
  }
  auto said = ask(drills, {});
  const json english = json::parse(said->body);
  ASSERT_EQ(english["eyes"][0]["told"].size(), 2U);
  EXPECT_THAT(english["eyes"][0]["told"][1].get<std::string>(),
              HasSubstr("dark hair 2.0 level lighter"));
  for (const Language language : {Language::es, Language::fr, Language::pt}) {
    Reply reply = *said;
    tell(reply, language);
    const std::string told = json::parse(reply.body)["eyes"][0]["told"].dump();
    for (const char* word : {"lighter", "hair", "screen", "depth"}) {
      EXPECT_THAT(told, testing::Not(HasSubstr(word))) << tag_of(language);
    }
  }
}

}  // namespace
}  // namespace hw::server
