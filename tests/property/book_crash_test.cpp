// The book against kills, power cuts, failing disks and flipped bytes: every acknowledged fact is
// there afterwards, none is half written, and what is wrong is said.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <thread>

#include "huewright/base/random.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/visit_facts.h"
#include "support/books.h"
#include "support/lossy_disk.h"

namespace hw::book {
namespace {

using test::fact;
using test::Fault;

int runs_of(const char* variable, int usual) {
  const char* said = std::getenv(variable);
  return said == nullptr ? usual : std::atoi(said);
}

/// A client and a visit to write to.
std::vector<Fact> beginning() {
  PersonFact ana;
  ana.name = "Ana Bell";
  BookedFact visit;
  visit.client = "c1";
  visit.starts_at = "2025-05-14T10:00Z";
  return {fact("f1", "c1", ana), fact("f2", "v1", visit)};
}

/// The i-th pair that is written together: both or none.
std::vector<Fact> pair(int i) {
  const std::string id = std::to_string(i);
  return {fact("a" + id, "v1", ApplyFact{"1", "roots of round " + id}),
          fact("b" + id, "v1", AftercareFact{"words of round " + id, {}, {}})};
}

/// Opens what is left and looks it through. acknowledged: pairs 0 … acknowledged − 1 were.
void expect_whole(std::unique_ptr<Sql> sql, int acknowledged) {
  auto store = Store::open(std::move(sql));
  ASSERT_TRUE(store) << one_line(store.error());
  const auto findings = (*store)->examine();
  ASSERT_TRUE(findings) << one_line(findings.error());
  EXPECT_TRUE(findings->empty()) << findings->front();
  if (acknowledged < 0) return;  // not even the beginning was
  const auto facts = (*store)->facts_of(About::visit, "v1");
  ASSERT_TRUE(facts) << one_line(facts.error());
  int first = 0;
  int second = 0;
  for (const Fact& one : *facts) {
    if (one.kind == "apply") {
      EXPECT_EQ(one.id, "a" + std::to_string(first++));
    } else if (one.kind == "aftercare") {
      EXPECT_EQ(one.id, "b" + std::to_string(second++));
    }
  }
  EXPECT_EQ(first, second) << "half of a pair";
  EXPECT_GE(first, acknowledged) << "an acknowledged fact is gone";
}

class BookKilled : public testing::TestWithParam<const char*> {};

TEST_P(BookKilled, loses_nothing_that_was_acknowledged) {
  const Draws draws(20251126);
  const int runs = runs_of("HW_CRASHES", 25);
  for (int run = 0; run < runs; ++run) {
    const test::FreshBook book(GetParam());
    ASSERT_TRUE(book.open()->append(beginning()));
    int line[2];
    ASSERT_EQ(pipe(line), 0);
    const pid_t child = fork();
    if (child == 0) {
      ::close(line[0]);
      const auto store = book.open();
      for (int i = 0;; ++i) {
        if (!store->append(pair(i))) _exit(1);
        if (::write(line[1], "x", 1) != 1) _exit(1);
      }
    }
    ::close(line[1]);
    const auto wait = std::chrono::microseconds(
        static_cast<int>(draws.uniform(1, static_cast<std::uint64_t>(run)) * 60000));
    std::this_thread::sleep_for(wait);
    ::kill(child, SIGKILL);
    int state = 0;
    ::waitpid(child, &state, 0);
    EXPECT_TRUE(WIFSIGNALED(state));
    int acknowledged = 0;
    char sign = 0;
    while (::read(line[0], &sign, 1) == 1) ++acknowledged;
    ::close(line[0]);
    expect_whole(book.connect(), acknowledged);
    if (HasFatalFailure()) return;
  }
}

INSTANTIATE_TEST_SUITE_P(On, BookKilled, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

/// Writes pairs while the power goes at random points; each find is looked through. Gives how many
/// finds had lost an acknowledged pair.
int lost_by_cuts(bool full_sync, int points) {
  const test::FreshFolder home;
  const test::FreshFolder finds;
  test::LossyDisk disk;
  constexpr int kPairs = 120;
  SqliteSettings settings;
  settings.vfs = disk.name();
  settings.full_sync = full_sync;
  std::vector<int> acknowledged_at;
  {
    auto sql = open_sqlite(home.path() + "/book.db", settings);
    EXPECT_TRUE(sql) << one_line(sql.error());
    auto store = Store::open(*std::move(sql));
    EXPECT_TRUE(store && (*store)->append(beginning()));
    // A cut may come before the disk ever had the file's name; the folder itself is on it.
    const Draws draws(7);
    int acknowledged = 0;
    disk.before_each([&](std::int64_t operation) {
      const bool cut = draws.uniform(2, static_cast<std::uint64_t>(operation)) < 0.5;
      if (!cut || static_cast<int>(acknowledged_at.size()) >= points) return;
      disk.copy_as_after_a_cut(home.path(),
                               finds.path() + "/" + std::to_string(acknowledged_at.size()));
      acknowledged_at.push_back(acknowledged);
    });
    for (int i = 0; i < kPairs; ++i) {
      EXPECT_TRUE((*store)->append(pair(i)));
      acknowledged = i + 1;
    }
    disk.before_each({});
  }
  EXPECT_EQ(static_cast<int>(acknowledged_at.size()), points);
  int lost = 0;
  for (std::size_t i = 0; i < acknowledged_at.size(); ++i) {
    auto sql = open_sqlite(finds.path() + "/" + std::to_string(i) + "/book.db");
    EXPECT_TRUE(sql) << one_line(sql.error());
    if (full_sync) {
      expect_whole(*std::move(sql), acknowledged_at[i]);
      continue;
    }
    auto store = Store::open(*std::move(sql));
    const auto facts = store ? (*store)->facts_of(About::visit, "v1") : Result<std::vector<Fact>>();
    const auto pairs = facts ? (static_cast<int>(facts->size()) - 1) / 2 : 0;
    lost += pairs < acknowledged_at[i] ? 1 : 0;
  }
  return lost;
}

TEST(BookPowerCut, loses_nothing_that_was_acknowledged) {
  lost_by_cuts(true, 200);
}

TEST(BookPowerCut, without_full_sync_the_same_cuts_lose_facts) {
  EXPECT_GT(lost_by_cuts(false, 60), 0);
}

/// One short life of a book on a disk that fails; what was acknowledged.
int short_life(const std::string& file, const test::LossyDisk& disk, std::string& error) {
  SqliteSettings settings;
  settings.vfs = disk.name();
  int acknowledged = -1;
  const auto note = [&](const Error& what) {
    if (error.empty()) error = one_line(what);
  };
  auto sql = open_sqlite(file, settings);
  if (!sql) {
    note(sql.error());
    return acknowledged;
  }
  auto store = Store::open(*std::move(sql));
  if (!store) {
    note(store.error());
    return acknowledged;
  }
  if (const auto begun = (*store)->append(beginning()); !begun) {
    note(begun.error());
    return acknowledged;
  }
  acknowledged = 0;
  for (int i = 0; i < 3; ++i) {
    const auto put = (*store)->append(pair(i));
    if (!put) {
      note(put.error());
      return acknowledged;
    }
    ++acknowledged;
  }
  return acknowledged;
}

class BookOnAFailingDisk : public testing::TestWithParam<Fault> {};

TEST_P(BookOnAFailingDisk, says_so_and_keeps_what_was_acknowledged) {
  for (const bool for_ever : {false, true}) {
    constexpr int kMost = 2000;
    int k = 1;
    for (; k < kMost; ++k) {
      const test::FreshFolder home;
      const std::string file = home.path() + "/book.db";
      test::LossyDisk disk;
      disk.fail(GetParam(), k, for_ever);
      std::string error;
      const int acknowledged = short_life(file, disk, error);
      const bool struck = disk.struck();
      disk.mend();
      auto sql = open_sqlite(file);
      ASSERT_TRUE(sql) << one_line(sql.error());
      expect_whole(*std::move(sql), acknowledged);
      ASSERT_FALSE(HasFailure()) << "fault " << k << (for_ever ? " for ever" : " once");
      if (acknowledged < 3) {
        EXPECT_FALSE(error.empty());
        EXPECT_EQ(error.find('\n'), std::string::npos) << error;
      }
      if (!struck) break;
    }
    EXPECT_GT(k, 1);
    EXPECT_LT(k, kMost);
  }
}

std::string name_of_fault(const testing::TestParamInfo<Fault>& one) {
  constexpr std::array kFaults{"none", "writing", "syncing", "opening", "full"};
  return kFaults[static_cast<std::size_t>(one.param)];
}

INSTANTIATE_TEST_SUITE_P(When, BookOnAFailingDisk,
                         testing::Values(Fault::write, Fault::sync, Fault::open, Fault::full),
                         name_of_fault);

TEST(BookDamaged, a_flipped_byte_is_said_and_crashes_nothing) {
  const test::FreshFolder home;
  const std::string file = home.path() + "/book.db";
  std::vector<Fact> before;
  {
    auto store = Store::open(*open_sqlite(file));
    ASSERT_TRUE((*store)->append(beginning()));
    for (int i = 0; i < 40; ++i) ASSERT_TRUE((*store)->append(pair(i)));
    before = (*store)->facts_of(About::visit, "v1").value();
  }
  std::ifstream in(file, std::ios::binary);
  const std::string whole{std::istreambuf_iterator<char>(in), {}};
  ASSERT_GT(whole.size(), 10000U);
  const Draws draws(11);
  int told = 0;
  const int runs = runs_of("HW_CRASHES", 150);
  for (int run = 0; run < runs; ++run) {
    std::string bytes = whole;
    const auto index = static_cast<std::uint64_t>(run);
    bytes[draws.below(bytes.size(), 1, index)] ^= static_cast<char>(1U << draws.below(8, 2, index));
    const std::string damaged = home.path() + "/damaged.db";
    for (const char* beside : {"-wal", "-shm"}) std::filesystem::remove(damaged + beside);
    std::ofstream(damaged, std::ios::binary) << bytes;
    auto sql = open_sqlite(damaged);
    if (!sql) {
      ++told;
      continue;
    }
    auto store = Store::open(*std::move(sql));
    if (!store) {
      ++told;
      continue;
    }
    const auto findings = (*store)->examine();
    const bool said = !findings || !findings->empty();
    told += said ? 1 : 0;
    // Whatever is left can be asked without harm; what nobody complains of is as it was.
    (void)(*store)->find_clients("ana", 5);
    const auto facts = (*store)->facts_of(About::visit, "v1");
    if (!said) {
      ASSERT_TRUE(facts) << one_line(facts.error());
      EXPECT_TRUE(*facts == before) << "a byte changed and nothing was said";
    }
    (void)(*store)->visits_of("c1");
    (void)(*store)->append(pair(900));
  }
  // Bytes of free space change nothing.
  EXPECT_GT(told, runs / 20);
}

/// Runs a check in a process that has no rights over other people's files. Gives its exit code.
int without_rights(const std::string& folder, const std::function<bool()>& check) {
  constexpr uid_t kNobody = 65534;
  const pid_t child = fork();
  if (child == 0) {
    if (getuid() == 0) {
      if (chown(folder.c_str(), kNobody, kNobody) != 0) _exit(2);
      for (const auto& file : std::filesystem::directory_iterator(folder)) {
        if (chown(file.path().c_str(), kNobody, kNobody) != 0) _exit(2);
      }
      if (setgid(kNobody) != 0 || setuid(kNobody) != 0) _exit(2);
    }
    _exit(check() ? 0 : 1);
  }
  int state = 0;
  ::waitpid(child, &state, 0);
  return WIFEXITED(state) ? WEXITSTATUS(state) : -1;
}

TEST(BookWithoutPermission, says_so_and_keeps_what_was_acknowledged) {
  using std::filesystem::perms;
  const test::FreshFolder home;
  const std::string file = home.path() + "/book.db";
  ASSERT_TRUE((*Store::open(*open_sqlite(file)))->append(beginning()));
  const int ended = without_rights(home.path(), [&] {
    std::filesystem::permissions(home.path(), perms::owner_read | perms::owner_exec);
    std::filesystem::permissions(file, perms::owner_read);
    auto sql = open_sqlite(file);
    auto store = sql ? Store::open(*std::move(sql)) : tl::unexpected(sql.error());
    const auto put = store ? (*store)->append(pair(0)) : tl::unexpected(store.error());
    std::filesystem::permissions(home.path(), perms::owner_all);
    std::filesystem::permissions(file, perms::owner_all);
    return !put && put.error().code == ErrorCode::io &&
           one_line(put.error()).find('\n') == std::string::npos;
  });
  EXPECT_EQ(ended, 0);
  expect_whole(*open_sqlite(file), 0);
}

TEST(BookWithoutPermission, cannot_be_made_where_one_may_not_write) {
  const test::FreshFolder home;
  const int ended = without_rights(home.path(), [&] {
    using std::filesystem::perms;
    std::filesystem::permissions(home.path(), perms::owner_read | perms::owner_exec);
    const bool made = open_sqlite(home.path() + "/book.db").has_value();
    std::filesystem::permissions(home.path(), perms::owner_all);
    return !made;
  });
  EXPECT_EQ(ended, 0);
}

/// The whole server goes at once, as with a power cut, while facts are written; then it is back.
TEST(BookOnAServerThatDies, loses_nothing_that_was_acknowledged) {
  const std::string cluster =
      std::string(std::getenv("HW_SOURCE_DIR")) + "/tests/support/postgres_cluster";
  const test::FreshFolder home;
  const std::string place = home.path() + "/server";
  ASSERT_EQ(std::system((cluster + " start " + place).c_str()), 0);
  std::string connection;
  std::getline(std::ifstream(place + "/connection"), connection);
  ASSERT_TRUE((*Store::open(*open_postgresql(connection)))->append(beginning()));
  std::atomic<int> acknowledged = 0;
  const Draws draws(20251128);
  constexpr int kDeaths = 4;
  for (int death = 0; death < kDeaths; ++death) {
    std::atomic<bool> over = false;  // nothing more is written
    std::thread killer([&, before = acknowledged.load()] {
      // Writing is under way, however busy the machine is.
      while (!over && acknowledged < before + 3) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
      }
      std::this_thread::sleep_for(std::chrono::milliseconds(
          static_cast<int>(draws.uniform(1, static_cast<std::uint64_t>(death)) * 150)));
      EXPECT_EQ(std::system((cluster + " kill " + place).c_str()), 0);
    });
    std::string error;
    {
      auto store = Store::open(*open_postgresql(connection));
      ASSERT_TRUE(store) << one_line(store.error());
      while (error.empty()) {
        const auto put = (*store)->append(pair(acknowledged));
        if (put) {
          ++acknowledged;
        } else {
          error = one_line(put.error());
        }
      }
    }
    over = true;
    killer.join();
    EXPECT_EQ(error.find('\n'), std::string::npos) << error;
    ASSERT_EQ(std::system((cluster + " again " + place).c_str()), 0);
    expect_whole(*open_postgresql(connection), acknowledged);
    // A pair may have been written and its answer lost: sent again, it counts once.
    ASSERT_TRUE((*Store::open(*open_postgresql(connection)))->append(pair(acknowledged)));
    ++acknowledged;
  }
  EXPECT_GT(acknowledged, kDeaths);
  EXPECT_EQ(std::system((cluster + " stop " + place).c_str()), 0);
}

}  // namespace
}  // namespace hw::book
