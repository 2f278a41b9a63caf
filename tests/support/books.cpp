#include "books.h"

#include <stdlib.h>

#include <atomic>
#include <filesystem>
#include <fstream>

namespace hw::test {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

}  // namespace

FreshFolder::FreshFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "book-XXXXXX").string();
  const char* made = mkdtemp(pattern.data());
  EXPECT_NE(made, nullptr);
  path_ = pattern;
}

FreshFolder::~FreshFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string postgresql_connection() {
  std::ifstream file(environment("HW_BINARY_DIR") + "/postgres/connection");
  std::string line;
  std::getline(file, line);
  EXPECT_FALSE(line.empty()) << "no PostgreSQL runs: tests/support/postgres_cluster start";
  return line;
}

FreshBook::FreshBook(const std::string& kind) : kind_(kind) {
  if (kind_ == "sqlite") return;
  static std::atomic<int> count = 0;
  schema_ = "t" + std::to_string(getpid()) + "_" + std::to_string(++count);
  auto sql = book::open_postgresql(postgresql_connection());
  EXPECT_TRUE(sql) << one_line(sql.error());
  EXPECT_TRUE((*sql)->script("CREATE SCHEMA " + schema_));
}

FreshBook::~FreshBook() {
  if (kind_ == "sqlite") return;
  auto sql = book::open_postgresql(postgresql_connection());
  if (sql) {
    EXPECT_TRUE((*sql)->script("DROP SCHEMA " + schema_ + " CASCADE"));
  }
}

std::unique_ptr<book::Sql> FreshBook::connect() const {
  auto sql = kind_ == "sqlite" ? book::open_sqlite(folder() + "/book.db")
                               : book::open_postgresql(postgresql_connection());
  EXPECT_TRUE(sql) << one_line(sql.error());
  if (!sql) std::abort();
  if (kind_ != "sqlite") {
    EXPECT_TRUE((*sql)->script("SET search_path TO " + schema_));
  }
  return *std::move(sql);
}

std::string FreshBook::connection() const {
  return postgresql_connection() + " options='-c search_path=" + schema_ + "'";
}

std::unique_ptr<book::Store> FreshBook::open() const {
  auto store = book::Store::open(connect());
  EXPECT_TRUE(store) << one_line(store.error());
  if (!store) std::abort();
  return *std::move(store);
}

}  // namespace hw::test
