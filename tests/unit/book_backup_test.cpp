#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "huewright/base/random.h"
#include "huewright/book/backup.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/sealed.h"
#include "support/books.h"

namespace hw::book {
namespace {

using test::fact;

PersonFact person(const std::string& name) {
  PersonFact made;
  made.name = name;
  return made;
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

process::Moment at(const char* text) {
  return *process::moment_from_iso(text);
}

/// A data folder on either database, with as many clients as asked for.
class BookBackup : public testing::TestWithParam<const char*> {
 protected:
  BookBackup() {
    if (std::string(GetParam()) == "sqlite") return;
    // A schema of the test's own, named in the connection string.
    std::ofstream(home_.path() + "/connection")
        << test::postgresql_connection() << " options='-csearch_path=" << schema_ << "'\n";
    auto sql = open_postgresql(test::postgresql_connection());
    EXPECT_TRUE(
        (*sql)->script("DROP SCHEMA IF EXISTS " + schema_ + " CASCADE; CREATE SCHEMA " + schema_));
  }
  void add(Folder& folder, const std::string& id) {
    const Fact one = fact("f" + id, "c" + id, person("Client " + id));
    ASSERT_TRUE(folder.store().append({&one, 1}));
  }
  std::unique_ptr<Folder> open() {
    auto folder = Folder::open(home_.path());
    EXPECT_TRUE(folder) << one_line(folder.error());
    return *std::move(folder);
  }
  std::size_t clients() { return open()->store().find_clients("", 1000)->size(); }

  test::FreshFolder home_;
  std::string schema_ = "backup" + std::to_string(getpid());
};

TEST_P(BookBackup, is_put_back_and_taken_back) {
  {
    const auto folder = open();
    add(*folder, "1");
    ASSERT_TRUE(folder->keep_photo("photo"));
    const auto name = make_backup(*folder, at("2025-05-14T10:00:00+02:00"));
    ASSERT_TRUE(name) << one_line(name.error());
    EXPECT_EQ(*name, "2025-05-14T080000Z");
    EXPECT_FALSE(make_backup(*folder, at("2025-05-14T10:00:00+02:00")));
    add(*folder, "2");
  }
  std::filesystem::remove_all(home_.path() + "/photos");
  const auto before = restore_backup(home_.path(), "2025-05-14T080000Z", at("2025-05-15T10:00Z"));
  ASSERT_TRUE(before) << one_line(before.error());
  EXPECT_EQ(clients(), 1U);
  EXPECT_FALSE(std::filesystem::is_empty(home_.path() + "/photos"));
  if (std::string(GetParam()) == "sqlite") {
    ASSERT_TRUE(undo_restore(home_.path()));
  } else {
    ASSERT_TRUE(restore_backup(home_.path(), *before, at("2025-05-15T11:00Z")));
  }
  EXPECT_EQ(clients(), 2U);
  EXPECT_TRUE(open()->store().examine()->empty());
}

TEST_P(BookBackup, that_is_damaged_or_unknown_replaces_nothing) {
  {
    const auto folder = open();
    add(*folder, "1");
    ASSERT_TRUE(make_backup(*folder, at("2025-05-14T08:00:00Z")));
  }
  EXPECT_FALSE(restore_backup(home_.path(), "2025-05-14T080001Z", at("2025-05-15T08:00Z")));
  EXPECT_FALSE(restore_backup(home_.path(), "../../etc", at("2025-05-15T08:00Z")));
  const std::string file = home_.path() + "/backups/2025-05-14T080000Z/book.db";
  std::string bytes;
  {
    std::ifstream in(file, std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(in), {});
  }
  const std::size_t word = bytes.find("Client 1");
  ASSERT_NE(word, std::string::npos);
  for (std::size_t i = word; i != std::string::npos; i = bytes.find("Client 1", i + 1)) {
    bytes[i] = 'K';
  }
  std::ofstream(file, std::ios::binary) << bytes;
  const auto put = restore_backup(home_.path(), "2025-05-14T080000Z", at("2025-05-15T08:00Z"));
  ASSERT_FALSE(put);
  EXPECT_EQ(clients(), 1U);
}

TEST_P(BookBackup, without_its_book_is_none) {
  {
    const auto folder = open();
    add(*folder, "1");
    ASSERT_TRUE(make_backup(*folder, at("2025-05-14T08:00:00Z")));
  }
  const std::string backups = home_.path() + "/backups";
  std::filesystem::remove(backups + "/2025-05-14T080000Z/book.db");
  std::filesystem::create_directory(backups + "/..........T000000Z");
  EXPECT_EQ(backups_of(home_.path())->size(), 1U);
  const auto put = restore_backup(home_.path(), "2025-05-14T080000Z", at("2025-05-15T08:00Z"));
  ASSERT_FALSE(put);
  EXPECT_THAT(one_line(put.error()), testing::HasSubstr("book.db: is not there"));
  EXPECT_EQ(clients(), 1U);
}

TEST_P(BookBackup, is_made_while_others_write) {
  const auto folder = open();
  add(*folder, "0");
  std::thread writer([&] {
    const auto other = open();
    for (int i = 1; i <= 40; ++i) add(*other, std::to_string(i));
  });
  const auto name = make_backup(*folder, at("2025-05-14T08:00:00Z"));
  writer.join();
  ASSERT_TRUE(name) << one_line(name.error());
  EXPECT_EQ(folder->store().find_clients("", 100)->size(), 41U);
}

constexpr std::string_view kPassphrase = "four words or even more";
constexpr SealCost kCheap{1, 8};  // so that a test takes no second for each try

TEST_P(BookBackup, leaves_the_house_sealed_and_comes_back_elsewhere) {
  const std::string sealed = home_.path() + "/away.sealed";
  std::string name;
  {
    const auto folder = open();
    add(*folder, "1");
    ASSERT_TRUE(folder->keep_photo(std::string(200000, 'p')));
    name = *make_backup(*folder, at("2025-05-14T10:00:00+02:00"));
  }
  EXPECT_FALSE(seal_backup(home_.path(), name, sealed, "too short", kCheap));
  EXPECT_FALSE(seal_backup(home_.path(), "2025-05-14T080001Z", sealed, kPassphrase, kCheap));
  ASSERT_TRUE(seal_backup(home_.path(), name, sealed, kPassphrase, kCheap));
  EXPECT_FALSE(seal_backup(home_.path(), name, sealed, kPassphrase, kCheap));  // never over one
  EXPECT_EQ(bytes_of(sealed).find("Client"), std::string::npos);
  const test::FreshFolder elsewhere;
  { ASSERT_TRUE(Folder::open(elsewhere.path())); }
  const auto wrong = open_sealed(elsewhere.path(), sealed, "four words or even less");
  ASSERT_FALSE(wrong);
  EXPECT_THAT(one_line(wrong.error()), testing::HasSubstr("passphrase"));
  const auto back = open_sealed(elsewhere.path(), sealed, kPassphrase);
  ASSERT_TRUE(back) << one_line(back.error());
  EXPECT_EQ(*back, name);
  ASSERT_TRUE(restore_backup(elsewhere.path(), *back, at("2025-05-15T10:00Z")));
  const auto folder = Folder::open(elsewhere.path());
  EXPECT_EQ((*folder)->store().find_clients("", 10)->size(), 1U);
  EXPECT_TRUE((*folder)->photo(sha256_of(std::string(200000, 'p'))));
}

TEST_P(BookBackup, sealed_and_changed_or_cut_is_said_and_leaves_nothing) {
  const std::string sealed = home_.path() + "/away.sealed";
  std::string name;
  {
    const auto folder = open();
    add(*folder, "1");
    name = *make_backup(*folder, at("2025-05-14T10:00:00+02:00"));
  }
  ASSERT_TRUE(seal_backup(home_.path(), name, sealed, kPassphrase, kCheap));
  const std::string whole = bytes_of(sealed);
  const test::FreshFolder elsewhere;
  { ASSERT_TRUE(Folder::open(elsewhere.path())); }
  const Draws draws(12);
  const auto opened = [&](const std::string& bytes) {
    std::ofstream(sealed, std::ios::binary) << bytes;
    const auto back = open_sealed(elsewhere.path(), sealed, kPassphrase);
    if (!back) {
      EXPECT_EQ(one_line(back.error()).find('\n'), std::string::npos);
      EXPECT_TRUE(std::filesystem::is_empty(elsewhere.path() + "/backups"));
    }
    return back.has_value();
  };
  constexpr std::size_t kHead = 67;  // letters, costs, salt and stream header: a slow guess each
  for (std::uint64_t i = 0; i < 60; ++i) {
    std::string bytes = whole;
    const std::size_t where = i < 10 ? 27 + i * 4 : kHead + draws.below(whole.size() - kHead, 1, i);
    bytes[where] ^= static_cast<char>(1U << draws.below(8, 2, i));
    EXPECT_FALSE(opened(bytes)) << where;
    EXPECT_FALSE(opened(whole.substr(0, draws.below(whole.size(), 3, i))));
  }
  EXPECT_FALSE(opened(whole + "x"));
  EXPECT_FALSE(opened(""));
  EXPECT_TRUE(opened(whole));
}

INSTANTIATE_TEST_SUITE_P(On, BookBackup, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

TEST(BookBackupKilled, at_any_moment_the_old_book_or_the_new_one_opens) {
  const Draws draws(20251127);
  const test::FreshFolder home;
  const auto now = at("2025-05-14T08:00:00Z");
  {
    const auto folder = Folder::open(home.path());
    for (int i = 0; i < 30; ++i) {
      const std::string id = std::to_string(i);
      const Fact one = fact("f" + id, "c" + id, person("Client " + id));
      ASSERT_TRUE((*folder)->store().append({&one, 1}));
    }
    ASSERT_TRUE(make_backup(**folder, now));
    const Fact more = fact("more", "more", person("Later"));
    ASSERT_TRUE((*folder)->store().append({&more, 1}));
  }
  constexpr int kRuns = 25;
  for (int run = 0; run < kRuns; ++run) {
    const pid_t child = fork();
    if (child == 0) {
      for (int i = 0;; ++i) {
        {
          const auto folder = Folder::open(home.path());
          if (folder) (void)make_backup(**folder, process::hours_later(now, 1 + i, {}));
        }
        (void)restore_backup(home.path(), "2025-05-14T080000Z", now);
        (void)undo_restore(home.path());
      }
    }
    const auto index = static_cast<std::uint64_t>(run);
    std::this_thread::sleep_for(
        std::chrono::microseconds(static_cast<int>(draws.uniform(1, index) * 80000)));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    const auto folder = Folder::open(home.path());
    ASSERT_TRUE(folder) << one_line(folder.error());
    const auto findings = (*folder)->store().examine();
    ASSERT_TRUE(findings) << one_line(findings.error());
    EXPECT_TRUE(findings->empty()) << findings->front();
    EXPECT_THAT((*folder)->store().find_clients("", 100)->size(), testing::AnyOf(30U, 31U));
  }
}

TEST(BookBackups, are_dropped_by_day_week_and_month) {
  std::vector<std::string> names;
  const auto first = std::chrono::sys_days(std::chrono::year{2024} / 1 / 1);
  constexpr int kDays = 500;
  for (int day = 0; day < kDays; ++day) {
    const std::string date =
        process::iso_text(std::chrono::year_month_day(first + std::chrono::days(day)));
    names.push_back(date + "T080000Z");
    names.push_back(date + "T200000Z");
  }
  const auto drop = backups_to_drop(names);
  EXPECT_LE(names.size() - drop.size(), 7U + 4U + 12U);
  EXPECT_GE(names.size() - drop.size(), 7U + 12U);
  EXPECT_FALSE(std::ranges::count(drop, names.back()));
  // What an erased person left in backups is gone after a year and a month at most.
  std::string oldest = names.back();
  for (const std::string& name : names) {
    if (!std::ranges::count(drop, name)) oldest = std::min(oldest, name);
  }
  const auto newest_date = *process::date_from_iso(names.back().substr(0, 10));
  EXPECT_LE(process::days_between(*process::date_from_iso(oldest.substr(0, 10)), newest_date), 366);
  EXPECT_TRUE(backups_to_drop({"2025-05-14T080000Z"}).empty());
}

}  // namespace
}  // namespace hw::book
