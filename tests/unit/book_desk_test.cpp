// The desk: newcomers from another program, dates for a calendar, what to order. On both databases.
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "huewright/book/agenda.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/newcomers.h"
#include "huewright/book/reorder.h"
#include "huewright/book/visit_facts.h"
#include "huewright/process/moment.h"
#include "support/books.h"
#include "support/reference.h"

namespace hw::book {
namespace {

using test::fact;
using testing::ElementsAre;

PersonFact person(const std::string& name, const std::string& phone = "",
                  const std::string& email = "") {
  PersonFact made;
  made.name = name;
  made.phone = phone;
  made.email = email;
  return made;
}

wire::Contact contact(std::size_t line, const std::string& name, const std::string& phone = "",
                      const std::string& email = "") {
  wire::Contact made;
  made.line = line;
  made.name = name;
  made.phone = phone;
  made.email = email;
  return made;
}

class BookDesk : public testing::TestWithParam<const char*> {
 protected:
  void put(const std::vector<Fact>& facts) {
    const auto done = store_->append(facts);
    ASSERT_TRUE(done) << one_line(done.error());
  }
  void put_visit(const std::string& id, const std::string& client, const std::string& starts,
                 const std::string& end = "") {
    BookedFact booked;
    booked.client = client;
    booked.starts_at = starts;
    booked.minutes = 240;
    booked.wish = "copper, no brass";
    put({fact(id + "b", id, booked)});
    if (end == "finished") put({fact(id + "f", id, FinishedFact{})});
    if (end == "cancelled") put({fact(id + "c", id, CancelledFact{})});
  }
  test::FreshBook book_{GetParam()};
  std::unique_ptr<Store> store_ = book_.open();
};

TEST_P(BookDesk, tells_who_of_a_file_is_new) {
  put({fact("f1", "c1", person("Zoë Bell", "+33 155 50 12 34")),
       fact("f2", "c2", person("Ana Reed", "", "ana@example.com")),
       fact("f3", "c3", person("Ann Reed"))});
  const std::vector<wire::Contact> contacts{
      contact(2, "ZOE BELL", "0155 501234"),            // the same digits without the country
      contact(3, "Bell Zoe", "0155 501235"),            // a namesake with another telephone
      contact(4, "Ana Reed", "", "ANA@example.com"),    //
      contact(5, "Ana Reed", "", "other@example.com"),  // a namesake
      contact(6, "Ann Reed", "0155 7"),                 // the book knows no telephone of hers
      contact(7, "Bell Zoe", "0155-501235"),            // line 3 again
      contact(8, std::string(5000, 'x')),               // no name that fits
      contact(9, "'); DROP TABLE fact;--", "0155 9")};
  const auto all = look_at(*store_, contacts);
  ASSERT_TRUE(all) << one_line(all.error());
  std::vector<std::string> known;
  for (const Newcomer& one : *all) known.push_back(one.known_as);
  EXPECT_THAT(known, ElementsAre("c1", "", "c2", "", "c3", "line 3", "", ""));
  EXPECT_FALSE((*all)[6].wrong.empty());
  const auto added = add_newcomers(*store_, *all, {"Ines", "2025-05-14T10:00Z"});
  ASSERT_TRUE(added) << one_line(added.error());
  EXPECT_EQ(*added, 3U);
  EXPECT_EQ(store_->find_clients("drop", 9)->front().name, "'); DROP TABLE fact;--");
  // Looked at again, everybody is there.
  const auto again = look_at(*store_, contacts);
  ASSERT_TRUE(again);
  for (const Newcomer& one : *again) EXPECT_FALSE(one.can_come());
}

TEST_P(BookDesk, gives_visits_to_come_and_dates_to_come_again) {
  put({fact("p1", "c1", person("Ana Bell")), fact("p2", "c2", person("Zoë Reed"))});
  put_visit("v1", "c1", "2025-03-01T10:00+01:00", "finished");
  AftercareFact older;
  older.words = "cool water";
  older.refresh_on = "2025-06-30";
  put({fact("a1", "v1", older)});
  put_visit("v2", "c1", "2025-05-01T10:00+02:00", "finished");
  AftercareFact care = older;
  care.refresh_on = "2025-06-12";
  care.regrowth_on = "2025-05-31";  // yesterday, though UTC is still there
  put({fact("a2", "v2", care)});
  put_visit("v3", "c2", "2025-06-01T00:30+02:00");  // 31 May 22:30 UTC
  put_visit("v4", "c2", "2025-06-02T10:00+02:00", "cancelled");
  const process::Moment morning = *process::moment_from_iso("2025-06-01T01:00+02:00");
  const auto all = agenda_of(*store_, morning);
  ASSERT_TRUE(all) << one_line(all.error());
  ASSERT_EQ(all->size(), 2U);
  EXPECT_EQ((*all)[0].uid, "v3@huewright");
  EXPECT_EQ((*all)[0].summary, "Hair visit: Zoë Reed");
  EXPECT_EQ((*all)[0].length, std::chrono::minutes(240));
  EXPECT_EQ((*all)[1].summary, "Colour refresh due: Ana Bell");
  EXPECT_EQ(*(*all)[1].day, std::chrono::year(2025) / 6 / 12);
  // Her own calendar names nobody.
  const auto own = agenda_of(*store_, morning, "c2");
  ASSERT_EQ(own->size(), 1U);
  EXPECT_EQ(own->front().summary, "Hair visit");
  EXPECT_EQ(own->front().description, "");
  EXPECT_FALSE(agenda_of(*store_, morning, "c9"));
}

INSTANTIATE_TEST_SUITE_P(On, BookDesk, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

const test::Source kProblems{"inventory_exercises", "worked problems"};

TEST(BookReorder, solves_the_printed_problems) {
  const Table table = test::test_table("inventory/reorder_problems.csv");
  ASSERT_EQ(table.rows(), 3U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string id = *table.text(row, "id");
    const auto given = [&](const char* column) { return table.number(row, column); };
    double safety = *given("safety_stock");
    if (const auto z = given("z")) {
      safety = safety_stock(*z, *given("sd"), *given("lead"));
      EXPECT_PUBLISHED(id + " safety stock [units]", kProblems, *given("safety_stock"), safety,
                       0.5);
    }
    EXPECT_PUBLISHED(id + " reorder point [units]", kProblems, *given("reorder_point"),
                     reorder_point(*given("use"), *given("lead"), safety), 0.05);
    if (const auto order_cost = given("order_cost")) {
      EXPECT_PUBLISHED(id + " economic order [units]", kProblems, *given("economic_order"),
                       economic_order(*given("yearly_use"), *order_cost, *given("keeping_cost")),
                       0.6);  // E4 is printed cut, not rounded: 77.46 as 77
    }
  }
  // 0.95 of a standard normal lies below it (bib E3 prints 1.64).
  EXPECT_PUBLISHED("standard normal below 1.644854", kProblems, 0.95,
                   0.5 * std::erfc(-kNotRunOut / std::numbers::sqrt2), 1e-6);
  EXPECT_PUBLISHED("quantile of 0.95", kProblems, 1.64, kNotRunOut, 0.005);
}

class Ledger {
 public:
  /// grams on a day before now, below 0: out.
  Ledger& moved(int days_ago, double grams, const std::string& why, bool counted = false) {
    LedgerLine line;
    line.at = process::iso_text(
        process::Moment{now_ - std::chrono::days(days_ago), std::chrono::minutes(0)});
    line.why = why;
    line.grams = grams;
    line.counted = counted;
    lines_.push_back(line);
    return *this;
  }
  [[nodiscard]] Advice advise_on(double grams, bool known = true) const {
    OnShelf on;
    on.product.product.id = "developer";
    on.product.size_g = 1000;
    on.product.price = 10;
    on.product.lead_days = 14;
    on.product.order_cost = 5;
    on.grams = grams;
    on.known = known;
    return advise(on, lines_, now_);
  }

 private:
  std::chrono::sys_seconds now_ = std::chrono::sys_days(std::chrono::year(2025) / 5 / 14);
  std::vector<LedgerLine> lines_;
};

TEST(BookReorder, reads_the_use_of_weeks_out_of_the_ledger) {
  Ledger ledger;
  ledger.moved(55, 2000, "bought");
  for (int week = 0; week < 8; ++week) {
    ledger.moved(7 * week + 2, week % 2 == 0 ? -120 : -80, "pour");
    ledger.moved(7 * week + 2, 20, "put back");
  }
  ledger.moved(10, 700, "count", true).moved(3, 500, "returned").moved(1, -20, "spoilt");
  const Advice advice = ledger.advise_on(400);
  ASSERT_TRUE(advice.known);
  EXPECT_EQ(advice.weeks, 8);
  // Weeks: 120, 60, 100, 60, 100, 60, 100, 60.
  EXPECT_NEAR(advice.week_g, 82.5, 1e-9);
  EXPECT_NEAR(advice.week_sd_g, 24.9285, 1e-3);
  EXPECT_NEAR(advice.weeks_left, 400 / 82.5, 1e-9);
  EXPECT_NEAR(advice.order_at_g, 82.5 * 2 + kNotRunOut * 24.9285 * std::sqrt(2.0), 1e-2);
  EXPECT_FALSE(advice.order);
  const Advice low = ledger.advise_on(200);
  EXPECT_TRUE(low.order);
  // √(2 · 82.5 · 52.18 · 5 ÷ (10 ÷ 1000 · 0.2)) g and what is missing up to the point.
  EXPECT_NEAR(low.order_g, std::sqrt(2 * 82.5 * 365.25 / 7 * 5 / 0.002) + low.order_at_g - 200,
              1e-6);
  EXPECT_EQ(low.packs, static_cast<int>(std::ceil(low.order_g / 1000)));
}

TEST(BookReorder, says_when_too_little_is_known) {
  Ledger ledger;
  ledger.moved(20, 500, "bought").moved(10, -100, "pour");
  EXPECT_FALSE(ledger.advise_on(400).known);  // three weeks
  ledger.moved(30, -1, "pour");
  EXPECT_TRUE(ledger.advise_on(400).known);
  EXPECT_FALSE(ledger.advise_on(400, false).known);  // never counted
  Ledger idle;
  idle.moved(300, 500, "bought");
  EXPECT_EQ(idle.advise_on(500).weeks, kWeeksCounted);
  EXPECT_FALSE(idle.advise_on(0).order);  // nobody uses it
}

}  // namespace
}  // namespace hw::book
