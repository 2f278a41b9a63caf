#include <gmock/gmock.h>

#include <cmath>

#include "huewright/book/client_facts.h"
#include "huewright/book/evidence.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/visit_facts.h"
#include "huewright/wire/case_file.h"
#include "support/books.h"

namespace hw::book {
namespace {

using test::fact;

Outcome outcome(double low, double mid, double high, double found, double doubt) {
  Outcome one;
  one.zone = "roots";
  one.predicted = {low, mid, high};
  one.found = found;
  one.doubt = doubt;
  return one;
}

TEST(BookEvidence, widens_a_band_by_the_doubt_of_the_reading) {
  // Sds by hand: (6 − 5) / 1.28155 = 0.7803; with 0.583 in squares 0.9741; the edge 1.2483 away.
  const Outcome one = outcome(4.5, 5, 6, 6.2, kEyeDoubt);
  EXPECT_NEAR(one.expected_reading().high, 5 + 1.2483, 1e-3);
  EXPECT_NEAR(one.expected_reading().low, 5 - 0.8992, 1e-3);
  EXPECT_TRUE(one.held());
  EXPECT_FALSE(outcome(4.5, 5, 6, 6.2, 0).held());
}

TEST(BookEvidence, tallies_add_up) {
  std::vector<Outcome> some{outcome(4, 5, 6, 5.5, 0), outcome(4, 5, 6, 7, 0),
                            outcome(5, 6, 8, 5.5, 0)};
  some[2].zone = "ends";
  some[0].shades = {"a", "b"};
  some[1].shades = {"b"};
  const Evidence made = tallied(some);
  EXPECT_EQ(made.all.count, 3);
  EXPECT_NEAR(made.all.held, 2.0 / 3, 1e-12);
  EXPECT_NEAR(made.all.mean_miss, (0.5 + 2 - 0.5) / 3, 1e-12);
  // Sample standard deviation of 0.5, 2, −0.5 about 2/3: √(19/12).
  EXPECT_NEAR(made.all.sd_miss, std::sqrt(19.0 / 12), 1e-12);
  EXPECT_NEAR(made.all.mean_width, 7.0 / 3, 1e-12);
  ASSERT_EQ(made.by_zone.size(), 2U);
  EXPECT_EQ(made.by_zone[0].name, "ends");
  EXPECT_EQ(made.by_zone[0].sd_miss, 0);
  ASSERT_EQ(made.by_shade.size(), 2U);
  EXPECT_EQ(made.by_shade[1].count, 2);
}

class BookEvidenceOn : public testing::TestWithParam<const char*> {};

TEST_P(BookEvidenceOn, reads_finished_visits_beside_their_plans) {
  const test::FreshBook home(GetParam());
  const auto store = home.open();
  wire::CaseFile file;
  file.head.zones.resize(1);
  file.head.zones[0].name = "roots";
  file.head.zones[0].to_cm = 10;
  file.head.zones[0].readings = {{plan::Reader::eye, hair::Moisture::dry, 2.4, {}}};
  file.shelf_file = "shelf.json";
  PersonFact ana;
  ana.name = "Ana Bell";
  ProductFact red;
  red.product.id = "red";
  red.product.kind = process::PartKind::colour;
  red.product.dye_class = process::DyeClass::demi;
  red.product.level = 5;
  red.product.tone = "red";
  std::vector<Fact> facts{fact("c", "c1", ana), fact("p", "red", red)};
  for (const char* id : {"v1", "v2", "v3"}) {
    BookedFact booked;
    booked.client = "c1";
    booked.starts_at = std::string(id) == "v3" ? "2020-01-01T10:00Z" : "2025-05-14T10:00Z";
    PlanFact plan;
    plan.program = plan.constants = "1";
    plan.case_json = wire::encode(file);
    plan.answer_json = "{}";
    plan.zones = {{"roots", 4, 3.5, 4.5, {25, 8, 8}, {}}};
    OutcomeFact found;
    found.zone = "roots";
    found.level = 4.25;
    const std::string name(id);
    facts.push_back(fact(name + "b", name, booked));
    facts.push_back(fact(name + "p", name, plan));
    facts.push_back(fact(name + "g", name, PourFact{"1", "red", {}, 40}));
    facts.push_back(fact(name + "a", name, ApplyFact{"1", "roots"}));
    facts.push_back(fact(name + "o", name, found));
    if (name != "v2") facts.push_back(fact(name + "f", name, FinishedFact{}));
  }
  const auto put = store->append(facts);
  ASSERT_TRUE(put) << one_line(put.error());
  const auto made = evidence_of(*store, "2024-01-01");
  ASSERT_TRUE(made) << one_line(made.error());
  ASSERT_EQ(made->outcomes.size(), 1U);  // v2 goes on, v3 is long past
  const Outcome& one = made->outcomes.front();
  EXPECT_EQ(one.visit, "v1");
  EXPECT_EQ(one.reader, "Ines");  // who wrote it
  EXPECT_EQ(one.start_level, 2);
  EXPECT_EQ(one.shades, std::vector<std::string>{"red"});
  EXPECT_DOUBLE_EQ(one.miss(), 0.25);
  EXPECT_EQ(evidence_of(*store, "2019-01-01")->outcomes.size(), 2U);
}

INSTANTIATE_TEST_SUITE_P(On, BookEvidenceOn, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

}  // namespace
}  // namespace hw::book
