// A past visit told again, step by step: each figure held against what was stored.
#include <gmock/gmock.h>

#include <cmath>

#include "huewright/base/language.h"
#include "server/asked_book.h"
#include "tell.h"

namespace hw::server {
namespace {

using nlohmann::json;
using testing::HasSubstr;

class Replays : public AskedBook {
 protected:
  /// A whole visit: two bowls, a look that moves the stop, one that was expected, the end.
  std::string whole_visit() {
    const std::string id = visit();
    record(
        id,
        {{{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "cream-scalp"}, {"grams", 45}}}},
         {{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "dev-6"}, {"grams", 91}}}}});
    at("2025-05-14T10:05:00+02:00");
    record(id, {{{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}}});
    at("2025-05-14T10:30:00+02:00");
    record(
        id,
        {{{"kind", "reading"},
          {"body", {{"zone", "lengths"}, {"when", "check"}, {"level", 5.5}, {"seen", "wiped"}}}}});
    at("2025-05-14T10:33:00+02:00");
    record(id, {{{"kind", "rinse"}, {"body", {{"zone", "lengths"}, {"why", "Eva said enough"}}}},
                {{"kind", "leftover"}, {"body", {{"bowl", "1"}, {"grams", 12}}}}});
    at("2025-05-14T11:40:00+02:00");
    record(id, {{{"kind", "outcome"}, {"body", {{"zone", "lengths"}, {"level", 4}}}},
                {{"kind", "outcome"}, {"body", {{"zone", "roots"}, {"level", 9.5}}}}});
    asked(finish_visit, {id}, json::object());
    return id;
  }
  json steps(const std::string& id, bool nameless = false) {
    std::map<std::string, std::string, std::less<>> query;
    if (nameless) query["nameless"] = "1";
    return asked(replay_of_visit, {id}, {}, query);
  }
  static json of_kind(const json& replay, const std::string& kind) {
    for (const json& step : replay["steps"]) {
      if (step["kind"] == kind) return step;
    }
    ADD_FAILURE() << "no step " << kind;
    return {};
  }
  static json zone_of(const json& list, const std::string& name) {
    for (const json& one : list) {
      if (one["zone"] == name) return one;
    }
    ADD_FAILURE() << "no zone " << name;
    return {};
  }
};

TEST_F(Replays, a_visit_that_ends_in_the_second_of_its_plan_teaches_that_plan_nothing) {
  const std::string id = visit();
  record(id,
         {{{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "cream-scalp"}, {"grams", 120}}}},
          {{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "dev-6"}, {"grams", 240}}}},
          {{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}},
          {{"kind", "outcome"}, {"body", {{"zone", "lengths"}, {"level", 4}}}}});
  const json before = of_kind(steps(id), "bowl");
  asked(finish_visit, {id}, json::object());
  EXPECT_EQ(of_kind(steps(id), "bowl"), before);
}

TEST_F(Replays, tells_a_visit_in_the_order_in_which_it_happened) {
  const json replay = steps(whole_visit());
  std::vector<std::string> kinds;
  for (const json& step : replay["steps"]) kinds.push_back(step["kind"]);
  EXPECT_THAT(kinds, testing::ElementsAre("asked", "planned", "bowl", "on", "check", "rinsed",
                                          "result", "finished", "learned"));
  EXPECT_EQ(replay["starts_at"], "2025-05-14T10:00:00+02:00");
}

TEST_F(Replays, says_what_was_asked_and_planned_as_it_was_made) {
  const json replay = steps(whole_visit());
  const json head = of_kind(replay, "asked");
  EXPECT_THAT(head["told"].dump(), HasSubstr("Wish: mahogany"));
  EXPECT_EQ(head["wrote"], "as her sister Eva has it");
  for (const json& zone : plan_["courses"][0]["zones"]) {
    const json shown = zone_of(head["zones"], zone["zone"]);
    EXPECT_NEAR(shown["level"]["likely"].get<double>(), zone["now"]["level"].get<double>(), 0.1);
  }
  const json planned = of_kind(replay, "planned");
  ASSERT_EQ(planned["courses"].size(), plan_["courses"].size());
  EXPECT_EQ(planned["courses"][0]["name"], plan_["courses"][0]["name"]);
  EXPECT_EQ(planned["courses"][0]["sentence"], plan_["courses"][0]["sentence"]);
  EXPECT_EQ(planned["examined"], plan_["examined"]);
  EXPECT_EQ(planned.contains("left_out") ? planned["left_out"].size() : 0,
            plan_["left_out"].size());
  for (const json& zone : plan_["courses"][0]["zones"]) {
    const json shown = zone_of(planned["zones"], zone["zone"]);
    EXPECT_NEAR(shown["level"]["likely"].get<double>(), zone["result"]["level"].get<double>(),
                1e-9);
    EXPECT_NEAR(shown["level"]["low"].get<double>(), zone["result"]["level_low"].get<double>(),
                1e-9);
    EXPECT_TRUE(shown["paint"].contains("srgb"));
  }
}

TEST_F(Replays, puts_what_was_poured_beside_what_was_planned) {
  const json replay = steps(whole_visit());
  const json bowl = of_kind(replay, "bowl");
  EXPECT_EQ(bowl["bowl"], "1");
  EXPECT_EQ(bowl["purpose"], plan_["courses"][0]["bowls"][0]["purpose"]);
  EXPECT_EQ(bowl["left_over_g"], 12);
  std::map<std::string, double> planned, shown, poured;
  for (const json& item : plan_["courses"][0]["bowls"][0]["items"]) {
    planned[item["product"]] = item["grams"];
  }
  for (const json& part : bowl["parts"]) {
    if (part["planned_g"] > 0) shown[part["product"]] = part["planned_g"];
    if (part["poured_g"] > 0) poured[part["product"]] = part["poured_g"];
  }
  EXPECT_EQ(shown, planned);
  EXPECT_EQ(poured, (std::map<std::string, double>{{"cream-scalp", 45}, {"dev-6", 91}}));
}

TEST_F(Replays, a_look_says_what_was_expected_and_what_it_moved) {
  const std::string id = whole_visit();
  const json replay = steps(id);
  const json on = of_kind(replay, "on");
  EXPECT_EQ(on["minute"], 0);
  const json look = of_kind(replay, "check");
  EXPECT_EQ(look["minute"], 25);
  EXPECT_EQ(look["readings"], 1);
  const json zone = zone_of(look["zones"], "lengths");
  EXPECT_EQ(zone["found"], 5.5);
  EXPECT_EQ(zone["seen"], "wiped");
  EXPECT_EQ(zone["reader"], "Ines");
  const double low = zone["level"]["low"], high = zone["level"]["high"];
  EXPECT_LT(low, zone["level"]["likely"].get<double>());
  EXPECT_EQ(zone["held"].get<bool>(), low <= 5.5 && 5.5 <= high);
  // The new stop is the one that was shown on the day, and the one the rinse is held against.
  const json stop = zone_of(look["stops"], "lengths");
  EXPECT_LT(stop["is_min"].get<double>(), stop["was_min"].get<double>());
  for (const json& planned : plan_["courses"][0]["bowls"][0]["zones"]) {
    if (planned["zone"] == "lengths") {
      EXPECT_NEAR(stop["was_min"].get<double>(), planned["stop_at_min"].get<double>(), 0.02);
    }
  }
  const json run = asked(run_of_visit, {id});
  EXPECT_THAT(run["changed"].dump(),
              HasSubstr("stop " +
                        std::to_string(std::lround(stop["was_min"].get<double>() -
                                                   stop["is_min"].get<double>())) +
                        " min earlier"));
  EXPECT_THAT(look["told"].dump(), HasSubstr("faster than was thought before this look"));
  const json rinsed = of_kind(replay, "rinsed");
  EXPECT_EQ(rinsed["minute"], 28);
  EXPECT_EQ(rinsed["planned_min"], stop["is_min"]);
}

TEST_F(Replays, holds_the_end_against_what_was_expected_and_says_what_was_learned) {
  const std::string id = whole_visit();
  const json replay = steps(id);
  const json result = of_kind(replay, "result");
  ASSERT_EQ(result["zones"].size(), 2U);
  const json evidence = asked(server::evidence, {}, {}, {{"from", "2020-01-01"}});
  for (const json& outcome : evidence["outcomes"]) {
    const json zone = zone_of(result["zones"], outcome["zone"]);
    EXPECT_EQ(zone["found"], outcome["found"]);
    EXPECT_EQ(zone["held"], outcome["held"]);
    EXPECT_NEAR(zone["level"]["likely"].get<double>(), outcome["likely"].get<double>(), 1e-9);
  }
  EXPECT_FALSE(zone_of(result["zones"], "roots")["held"].get<bool>());  // far lighter than planned
  const json learned = of_kind(replay, "learned");
  EXPECT_THAT(learned["told"].dump(), HasSubstr("natural hair of lengths holds"));
  // Nobody's id stands in a sentence.
  const std::string client = asked(show_visit, {id})["client"];
  EXPECT_THAT(replay["steps"].dump(), testing::Not(HasSubstr(client)));
}

TEST_F(Replays, is_told_without_names_for_teaching) {
  const std::string id = whole_visit();
  const std::string text = steps(id, true).dump();
  for (const char* name : {"Ana", "Bell", "Eva", "Ines", "2025-05-14"}) {
    EXPECT_THAT(text, testing::Not(HasSubstr(name)));
  }
  EXPECT_THAT(text, HasSubstr("\"2025-05\""));
  const json list = asked(replays, {});
  ASSERT_EQ(list["visits"].size(), 1U);
  EXPECT_EQ(list["visits"][0]["id"], id);
  EXPECT_EQ(list["visits"][0]["checks"], 1);
  EXPECT_EQ(list["visits"][0]["month"], "2025-05");
  EXPECT_THAT(list.dump(), testing::Not(HasSubstr("Ana")));
}

TEST_F(Replays, draws_the_plan_as_it_stood_after_so_many_looks) {
  const std::string id = whole_visit();
  const auto chart = [&](const char* readings) {
    return asked(replay_chart, {id}, {},
                 {{"readings", readings}, {"columns", "40"}, {"rows", "24"}});
  };
  const json before = chart("0"), after = chart("1");
  EXPECT_EQ(before["level"].size(), 40U * 24U);
  const json day = asked(server::chart, {}, {{"visit", id}, {"columns", 40}, {"rows", 24}});
  EXPECT_EQ(before["srgb"], day["srgb"]);
  EXPECT_NE(after["srgb"], before["srgb"]);
  EXPECT_THAT(refused(replay_chart, {id}, {}, {{"columns", "x"}}), HasSubstr("columns"));
  EXPECT_THAT(refused(replay_chart, {id}, {}, {{"section", "tail"}}), HasSubstr("section"));
  EXPECT_THAT(refused(replay_chart, {"nobody"}), HasSubstr("nobody"));
}

TEST_F(Replays, does_not_change_with_what_was_learned_later) {
  const std::string id = whole_visit();
  const json before = steps(id);
  at("2025-06-20T10:00:00+02:00");
  for (int i = 0; i < 8; ++i) {
    asked(answer_drill, {}, {{"seed", 5 + i}, {"answer", 10}, {"reader", "Ines"}});
  }
  EXPECT_EQ(steps(id), before);
}

TEST_F(Replays, of_a_visit_nobody_planned_is_what_was_recorded) {
  const std::string client = asked(add_client, {}, {{"name", "Bo"}})["id"];
  const std::string id =
      asked(book_visit, {}, {{"client", client}, {"starts_at", "2025-05-14T10:00+02:00"}})["id"];
  record(id, {{{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "dev-6"}, {"grams", 20}}}},
              {{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "ends"}}}},
              {{"kind", "outcome"}, {"body", {{"zone", "ends"}, {"level", 4}}}}});
  const json replay = steps(id);
  EXPECT_EQ(replay["steps"].size(), 3U);
  EXPECT_FALSE(zone_of(of_kind(replay, "result")["zones"], "ends").contains("held"));
  EXPECT_THAT(refused(replay_chart, {id}), HasSubstr("no course was chosen"));
}

TEST_F(Replays, reads_in_every_language_as_a_whole) {
  const std::string id = whole_visit();
  for (const Language language : {Language::es, Language::fr, Language::pt}) {
    auto said = ask(replay_of_visit, {id});
    ASSERT_TRUE(said);
    const json english = json::parse(said->body);
    tell(*said, language);
    const json told = json::parse(said->body);
    for (std::size_t i = 0; i < english["steps"].size(); ++i) {
      if (!english["steps"][i].contains("told")) continue;
      for (std::size_t k = 0; k < english["steps"][i]["told"].size(); ++k) {
        EXPECT_NE(english["steps"][i]["told"][k], told["steps"][i]["told"][k]) << tag_of(language);
      }
      if (!english["steps"][i].contains("courses")) continue;
      EXPECT_NE(english["steps"][i]["courses"][0]["name"], told["steps"][i]["courses"][0]["name"]);
    }
    EXPECT_EQ(english["steps"][0]["wrote"], told["steps"][0]["wrote"]);
  }
}

}  // namespace
}  // namespace hw::server
