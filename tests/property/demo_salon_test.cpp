// The invented salon: the same again, whole, with everything in it that a book can hold; and what
// its plans expected beside what came out. HW_SALON_VISITS: how many for the latter (60).
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>

#include "huewright/book/backup.h"
#include "huewright/book/transfer.h"
#include "salon.h"
#include "support/books.h"

namespace hw::demo {
namespace {

using namespace std::chrono_literals;

SalonWish wish(std::size_t clients, std::size_t visits) {
  SalonWish made;
  made.cases = std::string(std::getenv("HW_SOURCE_DIR")) + "/cases";
  made.clients = clients;
  made.visits = visits;
  made.until = 2025y / 6 / 30;
  return made;
}

std::unique_ptr<book::Folder> open(const std::string& path) {
  auto folder = book::Folder::open(path);
  EXPECT_TRUE(folder) << one_line(folder.error());
  if (!folder) std::abort();
  return *std::move(folder);
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  EXPECT_TRUE(in) << path;
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A salon in a folder, and its export as bytes.
std::string made_once(const std::string& path, const SalonWish& wanted, unsigned threads) {
  const auto folder = open(path + "/salon");
  const auto executor = make_thread_pool(threads);
  const auto made = make_salon(*folder, wanted, *executor);
  EXPECT_TRUE(made) << one_line(made.error());
  if (!made) return {};
  EXPECT_THAT(made->faults, testing::IsEmpty());
  const auto out = book::export_book(*folder, path + "/out");
  EXPECT_TRUE(out) << one_line(out.error());
  return bytes_of(path + "/out/book.jsonl");
}

TEST(DemoSalon, is_the_same_again_whatever_the_threads) {
  const SalonWish small = wish(6, 20);
  const test::FreshFolder one, other, another;
  const std::string first = made_once(one.path(), small, 1);
  ASSERT_FALSE(first.empty());
  EXPECT_TRUE(first == made_once(other.path(), small, 3));
  SalonWish seeded = small;
  seeded.seed = 2;
  EXPECT_FALSE(first == made_once(another.path(), seeded, 3));

  // Whole, and told in the order in which it happened.
  const auto folder = open(one.path() + "/salon");
  const process::Moment at = *process::moment_from_iso("2025-07-01T08:00Z");
  ASSERT_TRUE(book::make_backup(*folder, at));
  const auto findings = book::examine_folder(*folder, at);
  ASSERT_TRUE(findings);
  EXPECT_THAT(*findings, testing::IsEmpty());
  const auto facts = folder->store().facts_after(0, 100'000);
  ASSERT_TRUE(facts);
  std::set<std::string> kinds, people;
  process::Moment before{};
  for (const book::Fact& fact : *facts) {
    const process::Moment when = *process::moment_from_iso(fact.at);
    EXPECT_LE(before.utc, when.utc) << fact.id << " " << fact.kind;
    before = when;
    kinds.insert(fact.kind);
    people.insert(fact.by);
  }
  for (const book::Kind& kind : book::kinds()) {
    EXPECT_EQ(kinds.contains(std::string(kind.word)), kind.word != "photo") << kind.word;
  }
  EXPECT_EQ(people.size(), 4U);  // three chairs and the desk
}

TEST(DemoSalon, goes_by_the_clock_of_its_town) {
  // The last Sundays of March and October 2025 are the 30th and the 26th.
  EXPECT_EQ(process::iso_text(town_time(2025y / 3 / 29, 600)), "2025-03-29T10:00:00+01:00");
  EXPECT_EQ(process::iso_text(town_time(2025y / 3 / 30, 600)), "2025-03-30T10:00:00+02:00");
  EXPECT_EQ(process::iso_text(town_time(2025y / 10 / 25, 600)), "2025-10-25T10:00:00+02:00");
  EXPECT_EQ(process::iso_text(town_time(2025y / 10 / 26, 180)), "2025-10-26T03:00:00+01:00");
  EXPECT_EQ(process::iso_text(later(town_time(2025y / 3 / 29, 600), 24 * 60)),
            "2025-03-30T11:00:00+02:00");
}

TEST(DemoSalon, keeps_its_chairs_apart) {
  const auto slots = schedule(60, 400, 2025y / 6 / 30, 1);
  ASSERT_EQ(slots.size(), 400U);
  std::set<std::pair<std::chrono::sys_days, std::size_t>> chairs;
  std::map<std::size_t, std::chrono::sys_days> last;
  for (const Slot& slot : slots) {
    const std::chrono::sys_days day{slot.date};
    EXPECT_TRUE(chairs.insert({day, slot.chair}).second);
    if (last.contains(slot.client)) {
      EXPECT_GE((day - last[slot.client]).count(), 21);
    }
    last[slot.client] = day;
    EXPECT_LE(day, std::chrono::sys_days{2025y / 6 / 30});
    EXPECT_GT(day, std::chrono::sys_days{2023y / 6 / 30});
  }
  EXPECT_EQ(last.size(), 60U);
}

TEST(DemoSalon, no_two_of_a_thousand_have_one_name) {
  std::set<std::string> names;
  for (std::size_t i = 0; i < 1000; ++i) names.insert(person(1, i).name);
  EXPECT_EQ(names.size(), 1000U);
}

TEST(DemoSalon, says_what_it_cannot_make) {
  const test::FreshFolder home;
  const auto folder = open(home.path() + "/salon");
  InlineExecutor executor;
  EXPECT_EQ(make_salon(*folder, wish(6, 5), executor).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(make_salon(*folder, wish(6, 121), executor).error().code, ErrorCode::out_of_range);
  SalonWish nowhere = wish(1, 1);
  nowhere.cases = home.path() + "/none";
  EXPECT_EQ(make_salon(*folder, nowhere, executor).error().code, ErrorCode::io);
  ASSERT_TRUE(make_salon(*folder, wish(1, 1), executor));
  EXPECT_EQ(make_salon(*folder, wish(1, 1), executor).error().code, ErrorCode::conflict);
}

TEST(DemoSalon, what_was_expected_is_found_eight_times_in_ten) {
  const char* asked = std::getenv("HW_SALON_VISITS");
  const std::size_t visits = asked != nullptr ? static_cast<std::size_t>(std::atoi(asked)) : 60;
  const test::FreshFolder home;
  const auto folder = open(home.path() + "/salon");
  const auto executor = make_thread_pool(2);
  const auto made = make_salon(*folder, wish(1 + visits * 3 / 20, visits), *executor);
  ASSERT_TRUE(made) << one_line(made.error());
  double hits = 0, first_hits = 0, first = 0, read = 0, read_hits = 0;
  for (const TrueEnd& end : made->ends) {
    constexpr double kSame = 1e-9;  // both ends of the ladder are held
    const auto in_band = [&](double level) {
      return level >= end.expected.low - kSame && level <= end.expected.high + kSame;
    };
    const bool hit = in_band(end.level);
    hits += hit;
    read += end.found > 0;
    read_hits += end.found > 0 && in_band(end.found);
    first += end.first;
    first_hits += end.first && hit;
  }
  const double count = static_cast<double>(made->ends.size());
  fmt::print("{} zones, {:.1f} % in their band; {} of first visits, {:.1f} %; as read {:.1f} %\n",
             count, 100 * hits / count, first, 100 * first_hits / first, 100 * read_hits / read);
  ASSERT_GT(count, static_cast<double>(visits));
  // Zones of a visit stand and fall together: as many draws as visits, three sds of them.
  const double sd = std::sqrt(0.8 * 0.2 / static_cast<double>(visits));
  EXPECT_NEAR(hits / count, 0.8, 3 * sd);
}

}  // namespace
}  // namespace hw::demo
