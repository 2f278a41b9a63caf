// One suite, both databases: what a store promises.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "huewright/book/client_facts.h"
#include "huewright/book/ids.h"
#include "huewright/book/planning.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/store.h"
#include "huewright/book/visit_facts.h"
#include "support/books.h"

namespace hw::book {
namespace {

using test::fact;

PersonFact person(const std::string& name, const std::string& phone = {}) {
  PersonFact made;
  made.name = name;
  made.phone = phone;
  return made;
}

BookedFact booked(const std::string& client, const std::string& starts) {
  BookedFact made;
  made.client = client;
  made.starts_at = starts;
  return made;
}

ProductFact product(const std::string& id) {
  ProductFact made;
  made.product.id = id;
  made.product.kind = process::PartKind::treatment;
  return made;
}

class BookStore : public testing::TestWithParam<const char*> {
 protected:
  test::FreshBook book_{GetParam()};
  std::unique_ptr<Store> store_ = book_.open();

  void put(std::initializer_list<Fact> facts) {
    const auto places = store_->append(std::span(facts.begin(), facts.size()));
    ASSERT_TRUE(places) << one_line(places.error());
  }
  std::string refused(const Fact& fact) {
    const auto places = store_->append({&fact, 1});
    return places ? "taken" : one_line(places.error());
  }
  double stock_of(const std::string& product) {
    const auto stock = store_->stock();
    EXPECT_TRUE(stock);
    for (const StockLine& line : *stock) {
      if (line.product == product) return line.grams;
    }
    return -1e9;
  }
  void nothing_is_wrong() {
    const auto findings = store_->examine();
    ASSERT_TRUE(findings) << one_line(findings.error());
    EXPECT_TRUE(findings->empty()) << findings->front();
  }
};

TEST_P(BookStore, gives_facts_back_in_order_after_it_was_closed) {
  put({fact("f1", "c1", person("Ana Bell")),
       fact("f2", "v1", booked("c1", "2025-05-14T10:00+02:00"))});
  put({fact("f3", "v1", EnquiryFact{"c1", "copper, please"})});
  store_ = book_.open();
  const auto facts = store_->facts_of(About::visit, "v1");
  ASSERT_TRUE(facts);
  ASSERT_EQ(facts->size(), 2U);
  EXPECT_EQ((*facts)[0].id, "f2");
  EXPECT_EQ(body_of<EnquiryFact>((*facts)[1]).words, "copper, please");
  EXPECT_LT((*facts)[0].place, (*facts)[1].place);
  nothing_is_wrong();
}

TEST_P(BookStore, counts_a_fact_sent_twice_once) {
  const Fact first = fact("f1", "c1", person("Ana"));
  put({first});
  const auto again = store_->append({&first, 1});
  ASSERT_TRUE(again);
  EXPECT_EQ(again->front(), store_->facts_of(About::client, "c1")->front().place);
  EXPECT_EQ(*store_->count_facts(), 1);
  EXPECT_THAT(refused(fact("f1", "c1", person("Bea"))),
              testing::HasSubstr("another fact has this id"));
}

TEST_P(BookStore, writes_all_facts_of_one_call_or_none) {
  const std::vector<Fact> facts{fact("f1", "c1", person("Ana")),
                                fact("f2", "nobody", AllergyFact{"hair dye", {}, {}, {}})};
  const auto places = store_->append(facts);
  ASSERT_FALSE(places);
  EXPECT_EQ(places.error().where, "facts[1].subject");
  EXPECT_EQ(*store_->count_facts(), 0);
  EXPECT_FALSE(store_->client("c1"));
}

TEST_P(BookStore, says_what_is_missing_or_wrong) {
  put({fact("f1", "c1", person("Ana"))});
  EXPECT_THAT(refused(fact("f2", "v1", FinishedFact{})), testing::HasSubstr("no visit \"v1\""));
  EXPECT_THAT(refused(fact("f2", "v1", booked("c9", "2025-05-14T10:00Z"))),
              testing::HasSubstr("no client \"c9\""));
  EXPECT_THAT(refused(fact("f2", "p1", CountFact{3})), testing::HasSubstr("no product \"p1\""));
  Fact amending = fact("f2", "c1", person("Anna"));
  amending.amends = "f9";
  EXPECT_THAT(refused(amending), testing::HasSubstr("f9"));
  EXPECT_THAT(refused(fact("", "c1", person("Ana"))), testing::HasSubstr("facts[0].id"));
  Fact strange = fact("f2", "c1", person("Ana"));
  strange.kind = "gossip";
  EXPECT_THAT(refused(strange), testing::HasSubstr("no fact is of this kind"));
  strange = fact("f2", "c1", person("Ana"));
  strange.body = R"({"name": "Ana", "shoe": 38})";
  EXPECT_THAT(refused(strange), testing::HasSubstr("facts[0].body: \"shoe\" is no key"));
}

TEST_P(BookStore, amends_without_erasing) {
  put({fact("f1", "c1", person("Anna Bel")),
       fact("f2", "c1", AllergyFact{"other", "latex", {}, {}})});
  Fact right = fact("f3", "c1", person("Ana Bell"));
  right.amends = "f1";
  put({right});
  EXPECT_EQ(store_->client("c1")->name, "Ana Bell");
  const auto all = *store_->facts_of(About::client, "c1");
  EXPECT_EQ(all.size(), 3U);
  const auto now = in_force(all);
  ASSERT_EQ(now.size(), 2U);
  EXPECT_EQ(now[0].id, "f3");
  nothing_is_wrong();
}

TEST_P(BookStore, finds_clients_by_any_part_of_name_or_phone) {
  put({fact("f1", "c1", person("Zoë Müller-Łukasz", "+31 (0)6 55-501 27")),
       fact("f2", "c2", person("Katharina Okafor", "020 7946 0123")),
       fact("f3", "c3", person("Nguyễn Thị Hoa", "555 0199"))});
  const auto names = [&](const char* typed) {
    std::string list;
    const auto found = store_->find_clients(typed, 10);
    for (const ClientLine& line : found.value()) list += line.id + ' ';
    return list;
  };
  EXPECT_EQ(names("mull"), "c1 ");
  EXPECT_EQ(names("ZOE m"), "c1 ");
  EXPECT_EQ(names("thar"), "c2 ");
  EXPECT_EQ(names("nguyen"), "c3 ");
  EXPECT_EQ(names("0123"), "c2 ");
  EXPECT_EQ(names("7946 0123"), "c2 ");
  EXPECT_EQ(names("5550127"), "c1 ");
  EXPECT_EQ(names("hoa okafor"), "");
  EXPECT_EQ(names(""), "c2 c3 c1 ");
  EXPECT_EQ(names("'; DROP TABLE client; --"), "");
  EXPECT_EQ(names("%"), "c2 c3 c1 ");
}

TEST_P(BookStore, keeps_hostile_text_as_plain_text) {
  const std::string name =
      "Robert'); DROP TABLE client;-- <script>alert(1)</script> =1+1 \\ \"q\" ☂";
  put({fact("f1", "c1", person(name))});
  EXPECT_EQ(store_->client("c1")->name, name);
  EXPECT_EQ(body_of<PersonFact>(store_->facts_of(About::client, "c1")->front()).name, name);
}

TEST_P(BookStore, keeps_visits_by_client_and_by_day) {
  put({fact("f1", "c1", person("Ana")), fact("f2", "v1", booked("c1", "2025-05-14T10:00+02:00")),
       fact("f3", "v2", booked("c1", "2025-06-25T09:00+02:00")),
       fact("f4", "v3", EnquiryFact{"c1", "twists"})});
  const auto visits = *store_->visits_of("c1");
  ASSERT_EQ(visits.size(), 3U);
  EXPECT_EQ(visits[0].id, "v2");
  EXPECT_EQ(visits[1].starts_at, "2025-05-14T08:00:00Z");
  EXPECT_EQ(visits[2].stage, VisitStage::asked);
  const auto day = *store_->visits_between("2025-05-14T00:00:00Z", "2025-05-15T00:00:00Z");
  ASSERT_EQ(day.size(), 1U);
  EXPECT_EQ(day[0].id, "v1");

  put({fact("f5", "v1", CancelledFact{}),
       fact("f6", "v1", booked("c1", "2025-05-16T10:00+02:00"))});
  EXPECT_EQ(store_->visit("v1")->stage, VisitStage::booked);
  EXPECT_EQ(store_->visit("v1")->starts_at, "2025-05-16T08:00:00Z");
  put({fact("f7", "v1", ApplyFact{"1", "roots"})});
  EXPECT_EQ(store_->visit("v1")->stage, VisitStage::under_way);
  put({fact("f8", "v1", FinishedFact{}),
       fact("f9", "v1", ReactionFact{{}, "itching next day", {}})});
  EXPECT_EQ(store_->visit("v1")->stage, VisitStage::finished);
  nothing_is_wrong();
}

TEST_P(BookStore, gives_visits_with_and_without_their_plans) {
  put({fact("f1", "c1", person("Ana")), fact("f2", "v1", booked("c1", "2025-05-14T10:00Z"))});
  PlanFact plan;
  plan.program = plan.constants = "1";
  plan.case_json = plan.answer_json = "{}";
  put({fact("f3", "v1", plan), fact("f4", "v1", ApplyFact{"1", "roots"})});
  const auto with = visits_of(*store_, "c1");
  ASSERT_EQ(with->size(), 1U);
  EXPECT_TRUE(with->front().plan);
  const auto without = visits_but_plans(*store_, "c1");
  ASSERT_EQ(without->size(), 1U);
  EXPECT_FALSE(without->front().plan);
  EXPECT_EQ(without->front().stage, VisitStage::under_way);
  EXPECT_EQ(without->front().bowls.size(), 1U);
}

TEST_P(BookStore, keeps_the_shelf_by_the_gram) {
  put({fact("p1", "mask", product("mask")), fact("m1", "mask", MovementFact{500, "bought", "L7"}),
       fact("f1", "c1", person("Ana")), fact("f2", "v1", booked("c1", "2025-05-14T10:00Z"))});
  put({fact("g1", "v1", PourFact{"1", "mask", {}, 40}),
       fact("g2", "v1", LeftoverFact{"1", "mask", 5}), fact("g3", "v1", LeftoverFact{"1", "", 7})});
  EXPECT_DOUBLE_EQ(stock_of("mask"), 500 - 40 + 5);
  put({fact("n1", "mask", CountFact{450}), fact("g4", "v1", PourFact{"2", "mask", {}, 30})});
  EXPECT_DOUBLE_EQ(stock_of("mask"), 420);
  // An amended pour from before the count leaves what was counted alone; a later one does not.
  Fact right = fact("g5", "v1", PourFact{"1", "mask", {}, 44});
  right.amends = "g1";
  put({right});
  EXPECT_DOUBLE_EQ(stock_of("mask"), 420);
  right = fact("g6", "v1", PourFact{"2", "mask", {}, 33});
  right.amends = "g4";
  put({right});
  EXPECT_DOUBLE_EQ(stock_of("mask"), 417);
  right = fact("g7", "v1", PourFact{"2", "mask", {}, 32});
  right.amends = "g6";
  put({right});
  EXPECT_DOUBLE_EQ(stock_of("mask"), 418);
  EXPECT_EQ(store_->ledger("mask")->size(), 5U);
  nothing_is_wrong();
}

TEST_P(BookStore, erases_a_person_and_keeps_the_accounts) {
  PersonFact ana = person("Ana Unusualname", "0155501234");
  PriceFact price;
  price.money = 240;
  price.how = "as Ana Unusualname was told";
  BookedFact visit = booked("c1", "2025-05-14T10:00Z");
  visit.wish = "Unusualname copper";
  put({fact("p1", "mask", product("mask")), fact("f1", "c1", ana), fact("f2", "v1", visit),
       fact("f3", "v1", PourFact{"bowl of Unusualname", "mask", {}, 10}), fact("f4", "v1", price),
       fact("f5", "v1", PaymentFact{240, "visit", "cash"}),
       fact("f6", "v1", AftercareFact{"Ana Unusualname washes cool", {}, {}})});
  const auto done = store_->erase_client("c1", fact("e1", "c1", ErasedFact{"asked for"}));
  ASSERT_TRUE(done) << one_line(done.error());
  EXPECT_TRUE(store_->find_clients("unusual", 5)->empty());
  EXPECT_TRUE(store_->client("c1")->erased);
  EXPECT_DOUBLE_EQ(stock_of("mask"), -10);
  double money = 0;
  const auto facts = store_->facts_after(0, 100);
  for (const Fact& kept : facts.value()) {
    EXPECT_EQ(kept.body.find("Unusualname"), std::string::npos) << kept.body;
    if (kept.kind == "payment") money += body_of<PaymentFact>(kept).money;
  }
  EXPECT_DOUBLE_EQ(money, 240);
  EXPECT_THAT(refused(fact("f1", "c1", ana)), testing::HasSubstr("erased"));
  nothing_is_wrong();
  if (std::string(GetParam()) != "sqlite") return;
  for (const auto& file : std::filesystem::directory_iterator(book_.folder())) {
    std::ifstream stream(file.path(), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
    EXPECT_EQ(bytes.find("nusualname"), std::string::npos) << file.path();
  }
}

TEST_P(BookStore, erases_a_visit_that_was_only_asked_about) {
  put({fact("f1", "c1", person("Ana")), fact("f2", "c2", person("Bea")),
       fact("f3", "v1", EnquiryFact{"c1", "copper, says Ana"}),
       fact("f4", "v1", PaymentFact{20, "deposit", "cash"}),
       fact("f5", "v2", booked("c1", "2025-05-14T10:00Z")),
       fact("f6", "v2", ApplyFact{"1", "roots"})});
  Fact erased = fact("e1", "c1", ErasedFact{});
  erased.amends = "f1";
  EXPECT_THAT(one_line(store_->erase_client("c1", erased).error()), testing::HasSubstr("amends"));
  erased = fact("f2", "c1", ErasedFact{});  // an id that is another's
  EXPECT_THAT(one_line(store_->erase_client("c1", erased).error()),
              testing::HasSubstr("another fact has this id"));
  EXPECT_EQ(store_->find_clients("ana", 5)->size(), 1U);
  ASSERT_TRUE(store_->erase_client("c1", fact("e1", "c1", ErasedFact{})));
  // The deposit still has its visit, and nobody's words.
  EXPECT_EQ(store_->visit("v1")->client, "c1");
  EXPECT_EQ(store_->facts_of(About::visit, "v1")->size(), 2U);
  EXPECT_EQ(body_of<EnquiryFact>(store_->facts_of(About::visit, "v1")->front()).words, "erased");
  EXPECT_EQ(store_->visit("v2")->stage, VisitStage::booked);  // that it was under way is gone
  nothing_is_wrong();
}

TEST_P(BookStore, takes_no_body_that_an_export_could_not_give_back) {
  put({fact("f1", "c1", person("Ana")), fact("f2", "v1", booked("c1", "2025-05-14T10:00Z"))});
  PlanFact plan;
  plan.program = "p";
  plan.constants = "c";
  plan.case_json = std::string(2'500'000, 'x');
  plan.answer_json = std::string(kMostBody - plan.case_json.size(), 'x');
  EXPECT_THAT(refused(fact("f3", "v1", plan)), testing::HasSubstr("facts[0].body: the body has"));
  plan.answer_json.resize(plan.answer_json.size() - 200);
  const Fact longest = fact(std::string(kMostName, '"'), "v1", plan);
  put({longest});
  const auto line = wire::decode<Fact>(wire::encode(longest));
  EXPECT_TRUE(line) << one_line(line.error());
}

TEST_P(BookStore, makes_its_lists_again_from_the_facts_and_sees_when_they_lie) {
  put({fact("f1", "c1", person("Ana"))});
  ASSERT_TRUE(store_->sql().script("UPDATE client SET name = 'Eve'"));
  const auto findings = store_->examine();
  ASSERT_TRUE(findings);
  ASSERT_EQ(findings->size(), 1U);
  EXPECT_THAT(findings->front(), testing::HasSubstr("list client"));
  EXPECT_EQ(store_->client("c1")->name, "Eve");  // looking changed nothing
  ASSERT_TRUE(store_->rebuild());
  EXPECT_EQ(store_->client("c1")->name, "Ana");
  nothing_is_wrong();
}

TEST_P(BookStore, sees_a_fact_that_was_tampered_with) {
  put({fact("f1", "c1", person("Ana"))});
  ASSERT_TRUE(store_->sql().script(R"(UPDATE fact SET body = '{"name":5}')"));
  const auto findings = store_->examine();
  ASSERT_TRUE(findings);
  ASSERT_EQ(findings->size(), 1U);
  EXPECT_THAT(findings->front(), testing::HasSubstr("fact f1"));
}

TEST_P(BookStore, refuses_a_book_of_a_newer_program) {
  const bool sqlite = std::string(GetParam()) == "sqlite";
  ASSERT_TRUE(store_->sql().script(sqlite ? "PRAGMA user_version=999"
                                          : "INSERT INTO book_schema VALUES(999)"));
  store_.reset();
  const auto again = Store::open(book_.connect());
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().code, ErrorCode::conflict);
}

TEST_P(BookStore, loses_and_doubles_nothing_when_two_branches_write_at_once) {
  put({fact("p1", "mask", product("mask")), fact("f1", "c1", person("Ana")),
       fact("f2", "v1", booked("c1", "2025-05-14T10:00Z"))});
  constexpr int kFacts = 60;
  const auto branch = [&](const std::string& name, bool* well) {
    const auto store = book_.open();
    *well = true;
    for (int i = 0; i < kFacts; ++i) {
      // Every third pour is sent by both branches, as a tablet does that lost the first answer.
      const std::string id = i % 3 == 0 ? "both" + std::to_string(i) : name + std::to_string(i);
      const Fact pour = fact(id, "v1", PourFact{"1", "mask", {}, 1});
      *well = store->append({&pour, 1}).has_value() && *well;
    }
  };
  bool first = false;
  bool second = false;
  std::thread other([&] { branch("b", &second); });
  branch("a", &first);
  other.join();
  EXPECT_TRUE(first && second);
  constexpr int kOnce = kFacts / 3;
  EXPECT_DOUBLE_EQ(stock_of("mask"), -(2 * (kFacts - kOnce) + kOnce));
  nothing_is_wrong();
}

PlanFact planned(const std::string& zone, double level_lab) {
  PlanFact made;
  made.program = made.constants = "test";
  made.zones.push_back({.zone = zone, .level = 3, .lab = {level_lab, 10, 12}, .fade = {}});
  made.case_json =
      R"({"person":{"age_years":30},"strand_um":70,"shelf":[{"id":"mask","kind":"treatment"}],)"
      R"("zones":[{"name":"roots","section":"back","from_cm":0,"to_cm":5,)"
      R"("readings":[{"level":2}]},{"name":"ends","section":"back","from_cm":5,"to_cm":20,)"
      R"("readings":[{"level":2}]}],"wished_level":5})";
  made.answer_json = "{}";
  return made;
}

TEST_P(BookStore, keeps_a_strip_of_each_plan) {
  put({fact("f1", "c1", person("Ana")), fact("f2", "v1", booked("c1", "2025-05-14T10:00Z")),
       fact("f3", "v2", booked("c1", "2025-07-14T10:00Z")), fact("f4", "v1", planned("ends", 30))});
  auto strips = store_->strips_of("c1");
  ASSERT_TRUE(strips) << one_line(strips.error());
  ASSERT_EQ(strips->size(), 1U);  // v2 has no plan
  const auto zones = strips->at("v1").zones;
  ASSERT_EQ(zones.size(), 2U);
  EXPECT_EQ(zones[0].zone, "roots");
  EXPECT_EQ(zones[0].lab, std::nullopt);  // nothing was planned for them
  EXPECT_DOUBLE_EQ(zones[0].to, 0.25);
  EXPECT_DOUBLE_EQ(zones[1].lab->front(), 30);
  Fact better = fact("f5", "v1", planned("roots", 40));
  better.amends = "f4";
  put({better});
  EXPECT_DOUBLE_EQ(store_->strips_of("c1")->at("v1").zones[0].lab->front(), 40);
  nothing_is_wrong();
  ASSERT_TRUE(store_->rebuild());
  EXPECT_DOUBLE_EQ(store_->strips_of("c1")->at("v1").zones[0].lab->front(), 40);
  ASSERT_TRUE(store_->erase_client("c1", fact("f6", "c1", ErasedFact{"asked for"})));
  EXPECT_TRUE(store_->strips_of("c1")->empty());
  nothing_is_wrong();
}

INSTANTIATE_TEST_SUITE_P(On, BookStore, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

TEST(BookIds, follow_the_clock_and_the_alphabet) {
  EXPECT_EQ(id_of(0, {}), std::string(26, '0'));
  // bib ulid_spec: 1469918176385 ms is written 01ARYZ6S41.
  EXPECT_EQ(id_of(1469918176385, {}).substr(0, 10), "01ARYZ6S41");
  std::array<std::uint8_t, 10> full{};
  full.fill(0xff);
  EXPECT_EQ(id_of((1ULL << 48U) - 1, full), "7ZZZZZZZZZZZZZZZZZZZZZZZZZ");
  EXPECT_NE(new_id(), new_id());
}

}  // namespace
}  // namespace hw::book
