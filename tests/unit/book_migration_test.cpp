// Data folders of every schema there was, frozen, opened by this program; and a change of schema
// that is cut short. tests/data/book: one fact of each kind, an amended one, an erased client, a
// photo.
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
#include "huewright/book/transfer.h"
#include "support/books.h"
#include "support/lossy_disk.h"
#include "support/reference.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

std::string frozen(const std::string& name) {
  return std::string(std::getenv("HW_SOURCE_DIR")) + "/tests/data/book/" + name;
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::int64_t schema_number(const std::string& file) {
  const auto sql = open_sqlite(file);
  EXPECT_TRUE(sql) << one_line(sql.error());
  return whole_of((*sql)->run("PRAGMA user_version", {})->front().front());
}

/// Opens a folder and holds it against what was frozen.
void expect_the_frozen_book(const std::string& path) {
  const auto folder = Folder::open(path);
  ASSERT_TRUE(folder) << one_line(folder.error());
  const auto findings = (*folder)->store().examine();
  ASSERT_TRUE(findings) << one_line(findings.error());
  EXPECT_TRUE(findings->empty()) << findings->front();
  EXPECT_TRUE((*folder)->examine_photos()->empty());
  const test::FreshFolder out;
  const auto facts = export_book(**folder, out.path() + "/out");
  ASSERT_TRUE(facts) << one_line(facts.error());
  EXPECT_EQ(bytes_of(out.path() + "/out/book.jsonl"), bytes_of(frozen("frozen.jsonl")));
  // What was erased then stays erased now.
  const Fact again = test::fact("f-late", "c1", AllergyFact{"other", {}, {}, {}});
  EXPECT_FALSE((*folder)->store().append({&again, 1}));
}

class BookFrozen : public testing::TestWithParam<int> {
 protected:
  [[nodiscard]] std::string name() const { return "schema-" + std::to_string(GetParam()); }
  test::FreshFolder home_;
};

TEST_P(BookFrozen, opens_in_sqlite) {
  const std::string path = home_.path() + "/salon";
  fs::copy(frozen(name()), path, fs::copy_options::recursive);
  expect_the_frozen_book(path);
  const auto backups = backups_of(path);
  ASSERT_TRUE(backups) << one_line(backups.error());
  const bool older = schema_number(frozen(name()) + "/book.db") < schema_number(path + "/book.db");
  ASSERT_EQ(backups->size(), older ? 1U : 0U);  // a copy first, in the schema of before
  if (older) {
    EXPECT_EQ(schema_number(path + "/backups/" + backups->front() + "/book.db"), GetParam());
  }
}

TEST_P(BookFrozen, opens_in_postgresql) {
  const std::string schema = "frozen" + std::to_string(getpid());
  const std::string path = home_.path() + "/salon";
  const std::string connection =
      test::postgresql_connection() + " options='-csearch_path=" + schema + "'";
  fs::create_directory(path);
  fs::copy(frozen(name()) + "/photos", path + "/photos");
  std::ofstream(path + "/connection") << connection << '\n';
  {
    auto sql = open_postgresql(connection);
    ASSERT_TRUE(sql) << one_line(sql.error());
    ASSERT_TRUE(
        (*sql)->script("DROP SCHEMA IF EXISTS " + schema + " CASCADE; CREATE SCHEMA " + schema));
    const auto made = (*sql)->script(bytes_of(frozen(name() + ".sql")));
    ASSERT_TRUE(made) << one_line(made.error());
  }
  expect_the_frozen_book(path);
  EXPECT_TRUE((*open_postgresql(connection))->script("DROP SCHEMA " + schema + " CASCADE"));
}

INSTANTIATE_TEST_SUITE_P(Schema, BookFrozen, testing::Values(1, 2, 3),
                         [](const auto& one) { return std::to_string(one.param); });

TEST(BookFrozenFolders, there_is_one_of_every_schema) {
  const test::FreshFolder home;
  { ASSERT_TRUE(Folder::open(home.path())); }
  const auto newest = schema_number(home.path() + "/book.db");
  for (std::int64_t number = 1; number <= newest; ++number) {
    EXPECT_TRUE(fs::exists(frozen("schema-" + std::to_string(number)) + "/book.db"))
        << "freeze a data folder of schema " << number;
  }
}

TEST(BookMigrationCutShort, by_a_kill_leaves_a_book_that_opens) {
  const Draws draws(20251127);
  const char* said = std::getenv("HW_CRASHES");
  const int runs = said == nullptr ? 25 : std::atoi(said);
  for (int run = 0; run < runs; ++run) {
    const test::FreshFolder home;
    const std::string path = home.path() + "/salon";
    fs::copy(frozen("schema-1"), path, fs::copy_options::recursive);
    const pid_t child = fork();
    if (child == 0) {
      (void)Folder::open(path);
      _exit(0);
    }
    constexpr double kMost = 30000;  // µs; a whole opening takes about 20 ms
    std::this_thread::sleep_for(std::chrono::microseconds(
        static_cast<int>(draws.uniform(1, static_cast<std::uint64_t>(run)) * kMost)));
    ::kill(child, SIGKILL);
    int state = 0;
    ::waitpid(child, &state, 0);
    expect_the_frozen_book(path);
    if (testing::Test::HasFailure()) return;
  }
}

class BookMigrationOnAFailingDisk : public testing::TestWithParam<test::Fault> {};

TEST_P(BookMigrationOnAFailingDisk, leaves_a_book_that_opens) {
  constexpr int kMost = 500;
  int k = 1;
  for (; k < kMost; ++k) {
    const test::FreshFolder home;
    const std::string path = home.path() + "/salon";
    fs::copy(frozen("schema-1"), path, fs::copy_options::recursive);
    test::LossyDisk disk;
    disk.fail(GetParam(), k, true);
    SqliteSettings settings;
    settings.vfs = disk.name();
    {
      const auto opened = Folder::open(path, settings);
      if (!opened) {
        EXPECT_EQ(one_line(opened.error()).find('\n'), std::string::npos);
      }
      EXPECT_TRUE(opened || disk.struck());
    }
    const bool struck = disk.struck();
    disk.mend();
    expect_the_frozen_book(path);
    ASSERT_FALSE(HasFailure()) << "fault " << k;
    if (!struck) break;
  }
  EXPECT_GT(k, 1);
  EXPECT_LT(k, kMost);
}

INSTANTIATE_TEST_SUITE_P(When, BookMigrationOnAFailingDisk,
                         testing::Values(test::Fault::write, test::Fault::sync, test::Fault::open,
                                         test::Fault::full));

TEST(BookOfANewerProgram, is_left_alone) {
  const test::FreshFolder home;
  const std::string path = home.path() + "/salon";
  fs::copy(frozen("schema-3"), path, fs::copy_options::recursive);
  ASSERT_TRUE((*open_sqlite(path + "/book.db"))->script("PRAGMA user_version=999"));
  const auto opened = Folder::open(path);
  ASSERT_FALSE(opened);
  EXPECT_THAT(one_line(opened.error()), testing::HasSubstr("newer version"));
}

}  // namespace
}  // namespace hw::book
