// A year of a salon through the command line, then its figures held against books that the test
// kept itself in whole cents and tenths of a gram: stock, money, dates.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "salon_year.h"

namespace hw::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Rows of a table without its heading, by the heading's names. No cell here holds a quote or an
/// end of line, only commas (RFC 4180).
std::vector<std::map<std::string, std::string>> rows_of(const std::string& path) {
  const auto cells = [](const std::string& line) {
    std::vector<std::string> all(1);
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        all.emplace_back();
      } else if (c != '\r') {
        all.back() += c;
      }
    }
    return all;
  };
  std::ifstream in(path);
  std::string line;
  std::getline(in, line);
  const auto names = cells(line);
  std::vector<std::map<std::string, std::string>> rows;
  while (std::getline(in, line)) {
    const auto row = cells(line);
    EXPECT_EQ(row.size(), names.size()) << line;
    for (rows.emplace_back(); rows.back().size() < names.size();) {
      rows.back()[names[rows.back().size()]] = row[rows.back().size()];
    }
  }
  return rows;
}

/// With one space where a page has any, or a new line.
std::string on_one_line(const std::string& page) {
  std::string line;
  for (const char c : page) {
    const bool space = c == ' ' || c == '\n';
    if (!space) line += c;
    if (space && !line.ends_with(' ')) line += ' ';
  }
  return line;
}

/// The bowls of a visit as the book still tells them: of a client who was erased the grams stay,
/// and no bowl has its own name.
std::map<std::string, OwnBowl> told_of(const OwnVisit& visit) {
  if (visit.client != "Bea Lind") return visit.bowls;
  OwnBowl all;
  for (const auto& [name, bowl] : visit.bowls) {
    for (const auto& [product, tenths] : bowl.grams) all.grams[product] += tenths;
    all.thrown_away += bowl.thrown_away;
  }
  return {{"bowl", all}};
}

std::string compact(std::string date) {
  std::erase_if(date, [](char c) { return c == '-' || c == ':'; });
  return date;
}

struct OnSqlite {
  static constexpr const char* kKind = "sqlite";
};
struct OnPostgresql {
  static constexpr const char* kKind = "postgresql";
};

/// One year for all of a database's tests, which only look at it.
template <class On>
class CliYear : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    year_ = std::make_unique<SalonYear>(On::kKind);
    exported_ = year_->folder() + "/all";
    year_->answer("export " + exported_);
  }
  static void TearDownTestSuite() { year_.reset(); }
  static SalonYear& year() { return *year_; }
  static std::string table(const std::string& name) {
    return exported_ + "/tables/" + name + ".csv";
  }
  static std::unique_ptr<SalonYear> year_;
  static std::string exported_;
};
template <class On>
std::unique_ptr<SalonYear> CliYear<On>::year_;
template <class On>
std::string CliYear<On>::exported_;

using Both = testing::Types<OnSqlite, OnPostgresql>;
TYPED_TEST_SUITE(CliYear, Both, );

TEST(OwnBooks, keep_the_calendar_that_everybody_keeps) {
  EXPECT_EQ(julian_day(2000, 1, 1), 2451545);
  EXPECT_EQ(julian_day(1970, 1, 1), 2440588);
  EXPECT_EQ(date_text(julian_day(2024, 2, 28) + 2), "2024-03-01");
  // Clocks changed on 30 March and 26 October 2025.
  EXPECT_EQ(hours_ahead(julian_day(2025, 3, 29)), 1);
  EXPECT_EQ(hours_ahead(julian_day(2025, 3, 30)), 2);
  EXPECT_EQ(hours_ahead(julian_day(2025, 10, 25)), 2);
  EXPECT_EQ(hours_ahead(julian_day(2025, 10, 26)), 1);
  const ClockTime morning{julian_day(2025, 7, 1), 600};
  EXPECT_EQ(morning.iso(), "2025-07-01T10:00:00+02:00");
  EXPECT_EQ(morning.utc(), "2025-07-01T08:00:00Z");
  EXPECT_EQ(decimal(-405, 1), "-40.5");
  EXPECT_EQ(decimal(8405, 2), "84.05");
  EXPECT_EQ(decimal(0, 2), "0");
}

TYPED_TEST(CliYear, leaves_each_product_with_the_grams_that_are_left) {
  SalonYear& year = this->year();
  const json shelf = year.answer("shelf list")["shelf"];
  ASSERT_EQ(shelf.size(), year.own.shelf.size());
  for (const json& on : shelf) {
    const std::string id = on["product"]["id"];
    const OwnProduct& own = year.own.shelf.at(id);
    EXPECT_EQ(on["grams"].dump(), decimal(own.grams(), 1)) << id;
    EXPECT_EQ(on["price"].get<double>(), static_cast<double>(own.price) / 100) << id;
    EXPECT_GE(own.grams(), 0) << id << ": the script pours what it has not";
    const json moved = year.answer("shelf ledger " + id)["movements"];
    ASSERT_EQ(moved.size(), own.moves.size()) << id;
    for (std::size_t i = 0; i < moved.size(); ++i) {
      EXPECT_EQ(moved[i]["why"], own.moves[i].why) << id << ' ' << i;
      EXPECT_EQ(moved[i]["visit"], own.moves[i].visit) << id << ' ' << i;
      EXPECT_EQ(moved[i]["grams"].get<double>(), static_cast<double>(own.moves[i].grams) / 10)
          << id << ' ' << i;
      const std::string at = own.moves[i].at;  // a count is dated by the program's own clock
      EXPECT_TRUE(at.empty() || moved[i]["at"] == at) << id << ' ' << i;
    }
  }
  EXPECT_THAT(year.said_at_count, HasSubstr("12.5 g missing"));
  std::set<std::string> exported;
  for (const auto& row : rows_of(this->table("shelf"))) {
    exported.insert(row.at("product"));
    EXPECT_EQ(row.at("grams"), decimal(year.own.shelf.at(row.at("product")).grams(), 1))
        << row.at("product");
  }
  EXPECT_EQ(exported.size(), year.own.shelf.size());
}

TYPED_TEST(CliYear, knows_what_each_visit_cost_was_paid_and_is_owed) {
  SalonYear& year = this->year();
  for (const auto& [id, own] : year.own.visits) {
    const std::string page = on_one_line(year.run("visit show " + id).out);
    EXPECT_THAT(page, HasSubstr(", " + own.stage + ", client ")) << own.client;
    if (own.price) {
      EXPECT_THAT(page,
                  HasSubstr("price " + decimal(*own.price, 2) + ", paid " + decimal(own.paid, 2) +
                            ", owed " + decimal(*own.price - own.paid, 2) + " "))
          << own.client << ' ' << date_text(own.starts.day);
    }
    for (const auto& [name, bowl] : told_of(own)) {
      std::string grams;
      for (const auto& [product, tenths] : bowl.grams) {
        grams += (grams.empty() ? "" : ", ") + decimal(tenths, 1) + " g " + product;
      }
      EXPECT_THAT(page, HasSubstr("bowl " + name + " " + grams + ";")) << own.client;
      EXPECT_THAT(page, HasSubstr("; " + decimal(bowl.thrown_away, 1) + " g left over"))
          << own.client;
    }
  }
}

TYPED_TEST(CliYear, adds_up_to_the_takings_and_the_cost_of_goods_of_the_year) {
  SalonYear& year = this->year();
  Cents price = year.card_price;
  Cents paid = year.card_price;
  double goods = 0;
  for (const auto& [id, own] : year.own.visits) {
    price += own.price.value_or(0);
    paid += own.paid;
    goods += year.own.cost_of(own);
  }
  ASSERT_GT(price, 500000);
  ASSERT_GT(goods, 30000);
  const auto cents = [](const std::string& text) {
    const double value = text.empty() ? 0 : std::stod(text) * 100;
    EXPECT_EQ(text, text.empty() ? "" : decimal(std::llround(value), 2)) << "more than cents";
    return std::llround(value);
  };
  Cents price_exported = 0;
  Cents paid_exported = 0;
  std::size_t known = 0;
  for (const auto& row : rows_of(this->table("visits"))) {
    price_exported += cents(row.at("price"));
    paid_exported += cents(row.at("paid"));
    const auto own = year.own.visits.find(row.at("id"));
    if (own == year.own.visits.end()) continue;  // the paper card's
    ++known;
    const OwnVisit& visit = own->second;
    EXPECT_EQ(row.at("price"), visit.price ? decimal(*visit.price, 2) : "") << visit.client;
    EXPECT_EQ(row.at("paid"), decimal(visit.paid, 2)) << visit.client;
    EXPECT_EQ(row.at("stage"), visit.stage) << visit.client;
    if (visit.client == "Bea Lind") continue;  // erased: her dates went with her
    EXPECT_EQ(row.at("starts_at"), visit.starts.iso()) << visit.client;
    EXPECT_EQ(row.at("refresh_on"), visit.refresh_on) << visit.client;
    EXPECT_EQ(row.at("regrowth_on"), visit.regrowth_on) << visit.client;
  }
  EXPECT_EQ(known, year.own.visits.size());
  EXPECT_EQ(price_exported, price);
  EXPECT_EQ(paid_exported, paid);
  // Goods: what left the shelf for bowls, at what a gram costs.
  std::map<std::string, double> cents_a_gram;
  for (const auto& row : rows_of(this->table("shelf"))) {
    cents_a_gram[row.at("product")] =
        std::stod(row.at("price")) * 100 / std::stod(row.at("size_g"));
  }
  double goods_exported = 0;
  for (const auto& row : rows_of(this->table("movements"))) {
    if (row.at("visit").empty()) continue;
    goods_exported -= std::stod(row.at("grams")) * cents_a_gram.at(row.at("product"));
  }
  EXPECT_NEAR(goods_exported, goods, 0.01);
}

TYPED_TEST(CliYear, advises_orders_by_the_use_of_half_a_year) {
  SalonYear& year = this->year();
  const json advice = year.answer("shelf reorder")["products"];
  ASSERT_EQ(advice.size(), year.own.shelf.size());
  int to_order = 0;
  for (const json& one : advice) {
    const std::string id = one["product"];
    const OwnAdvice own = advice_of(year.own.shelf.at(id), year.today);
    EXPECT_EQ(one["known"], true) << id;
    EXPECT_NEAR(one["week_g"].get<double>(), own.week_g, 1e-9) << id;
    EXPECT_NEAR(one["week_sd_g"].get<double>(), own.sd_g, 1e-9) << id;
    EXPECT_NEAR(one["order_at_g"].get<double>(), own.order_at_g, 1e-9) << id;
    EXPECT_EQ(one["order"].get<bool>(), own.order) << id;
    EXPECT_NEAR(one["order_g"].get<double>(), own.order_g, 1e-9) << id;
    EXPECT_EQ(one["packs"].get<int>(), own.packs) << id;
    to_order += own.order ? 1 : 0;
  }
  EXPECT_GT(to_order, 0);
  EXPECT_LT(to_order, static_cast<int>(advice.size()));
}

TYPED_TEST(CliYear, puts_what_is_due_into_the_calendar) {
  SalonYear& year = this->year();
  const std::string calendar = year.run("visit calendar").out;
  std::size_t due = 0;
  const auto expect_day = [&](const std::string& date, const std::string& what) {
    if (date < date_text(year.today)) return;
    EXPECT_THAT(calendar, HasSubstr("DTSTART;VALUE=DATE:" + compact(date))) << what;
    EXPECT_THAT(calendar, HasSubstr("SUMMARY:" + what + "\r\n"));
    ++due;
  };
  std::size_t to_come = 0;
  for (const SalonClient& client : year.clients) {
    if (client.name == "Bea Lind") continue;
    const OwnVisit& next = year.own.visits.at(client.visits.back());
    EXPECT_THAT(calendar, HasSubstr("DTSTART:" + compact(next.starts.utc()) + "\r\n"));
    EXPECT_THAT(calendar, HasSubstr("SUMMARY:Hair visit: " + client.name + "\r\n"));
    ++to_come;
    const OwnVisit& last = year.own.visits.at(client.visits[client.visits.size() - 2]);
    expect_day(last.refresh_on, "Colour refresh due: " + client.name);
    expect_day(last.regrowth_on, "Regrowth due: " + client.name);
    const json listed = year.answer("visit list " + client.id)["visits"];
    EXPECT_EQ(listed[0]["starts_at"], next.starts.utc()) << client.name;
    EXPECT_EQ(listed[0]["stage"], "booked");
    EXPECT_EQ(listed[1]["stage"], "finished");
    const json day = year.answer("visit day " + date_text(last.starts.day))["visits"];
    EXPECT_TRUE(std::ranges::any_of(day, [&](const json& one) {
      return one["starts_at"] == last.starts.utc();
    })) << client.name;
  }
  EXPECT_GT(due, 6U);
  std::size_t entries = 0;
  for (std::size_t at = 0; (at = calendar.find("BEGIN:VEVENT", at)) != std::string::npos; ++at) {
    ++entries;
  }
  EXPECT_EQ(entries, due + to_come);
}

TYPED_TEST(CliYear, plans_from_the_book_by_the_dates_and_prices_in_it) {
  SalonYear& year = this->year();
  ASSERT_EQ(year.plans.size(), 4U);
  const auto test_of = [&](const std::string& plan, const std::string& shade) {
    for (const json& test : year.plans.at(plan).answer["tests_to_make"]) {
      if (test["shade"] == shade) return test;
    }
    return json();
  };
  // Six weeks, and twelve weeks to the day: what was tested is still covered.
  EXPECT_EQ(test_of("Ada Mensah 318", "demi-mahogany-walnut"), json());
  EXPECT_EQ(test_of("Zoë Okafor 274", "demi-mahogany-walnut"), json());
  // A day more: a new test is due, on the skin 48 hours before at the latest.
  const SalonYear::Planned& late = year.plans.at("Ana Bell 186");
  const json due = test_of("Ana Bell 186", "demi-mahogany-walnut");
  ASSERT_FALSE(due.is_null()) << late.answer["tests_to_make"].dump(1);
  EXPECT_EQ(late.exit_code, 3);
  EXPECT_THAT(due["why"].get<std::string>(), HasSubstr("85 days"));
  EXPECT_EQ(due["apply_by"], iso_hours_later(late.at, -48, hours_ahead(late.at.day)));
  // Whoever reacted is never coloured again, whatever the plan was.
  const SalonYear::Planned& blocked = year.plans.at("Ama Boateng 60");
  EXPECT_EQ(blocked.exit_code, 3);
  EXPECT_THAT(blocked.answer["refusals"].dump(), HasSubstr("reaction"));
  // A bowl costs what its grams cost by the price of the tube.
  int bowls = 0;
  const SalonYear::Planned& ada = year.plans.at("Ada Mensah 318");
  for (const json& course : ada.answer["courses"]) {
    for (const json& bowl : course["bowls"]) {
      double cents = 0;
      for (const json& item : bowl["items"]) {
        if (item["product"] == "water") continue;
        const OwnProduct& product = ada.shelf.at(item["product"]);
        cents += item["grams"].get<double>() * 10 * static_cast<double>(product.price) /
                 static_cast<double>(product.size);
      }
      EXPECT_NEAR(bowl["cost"].get<double>() * 100, cents, 0.01) << bowl.dump(1);
      ++bowls;
    }
  }
  EXPECT_GT(bowls, 0);
}

TYPED_TEST(CliYear, gives_one_client_what_is_hers_and_forgets_another) {
  SalonYear& year = this->year();
  const SalonClient& rosa = year.client("Rosa Quint");
  const std::string hers = year.folder() + "/hers";
  year.answer("export " + hers + " --client " + rosa.id);
  const auto visits = rows_of(hers + "/tables/visits.csv");
  EXPECT_EQ(visits.size(), rosa.visits.size());
  for (const auto& row : visits) {
    const OwnVisit& own = year.own.visits.at(row.at("id"));
    EXPECT_EQ(row.at("paid"), decimal(own.paid, 2));
    EXPECT_EQ(row.at("starts_at"), own.starts.iso());
  }
  const auto everything = [](const std::string& folder) {
    std::string all;
    for (const auto& file : std::filesystem::recursive_directory_iterator(folder)) {
      if (file.is_regular_file()) all += text_of(file.path());
    }
    return all;
  };
  const std::string own_part = everything(hers);
  EXPECT_THAT(own_part, HasSubstr("Rosa Quint"));
  for (const SalonClient& client : year.clients) {
    EXPECT_EQ(own_part.find(client.name) != std::string::npos, client.name == rosa.name)
        << client.name;
  }
  const std::string all = everything(this->exported_);
  EXPECT_NE(all.find("what Rosa Quint was told"), std::string::npos);
  EXPECT_EQ(all.find("Bea"), std::string::npos);
  EXPECT_TRUE(year.answer("client find lind")["clients"].empty());
}

TYPED_TEST(CliYear, ends_with_a_book_that_is_whole_and_can_be_taken_elsewhere) {
  SalonYear& year = this->year();
  const std::string elsewhere = "HUEWRIGHT_BOOK=" + year.folder() + "/elsewhere HUEWRIGHT_BY=Ines";
  EXPECT_EQ(year.answer("doctor")["findings"], json::array());
  const std::string again = year.folder() + "/again";
  EXPECT_EQ(run_program("import " + this->exported_, "", elsewhere).exit_code, 0);
  EXPECT_EQ(run_program("export " + again, "", elsewhere).exit_code, 0);
  EXPECT_EQ(text_of(again + "/tables/visits.csv"), text_of(this->table("visits")));
  EXPECT_EQ(text_of(again + "/tables/shelf.csv"), text_of(this->table("shelf")));
  EXPECT_EQ(text_of(again + "/tables/movements.csv"), text_of(this->table("movements")));
}

}  // namespace
}  // namespace hw::test
