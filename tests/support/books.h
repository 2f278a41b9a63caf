#pragma once
// A book of each kind for a test: a file in a fresh folder, or a schema of the test's own cluster.
#include <gtest/gtest.h>

#include <memory>
#include <string>

#include "huewright/book/store.h"

namespace hw::test {

/// A folder that goes when the test ends.
class FreshFolder {
 public:
  FreshFolder();
  ~FreshFolder();
  FreshFolder(const FreshFolder&) = delete;
  FreshFolder& operator=(const FreshFolder&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// One empty database that can be opened more than once; "sqlite" or "postgresql".
class FreshBook {
 public:
  explicit FreshBook(const std::string& kind);
  ~FreshBook();
  FreshBook(const FreshBook&) = delete;
  FreshBook& operator=(const FreshBook&) = delete;
  /// A connection of one's own. The test fails where there is none.
  [[nodiscard]] std::unique_ptr<book::Sql> connect() const;
  [[nodiscard]] std::unique_ptr<book::Store> open() const;
  [[nodiscard]] std::string folder() const { return folder_.path(); }
  /// Of a "postgresql" one: the line by which a data folder's `connection` names it.
  [[nodiscard]] std::string connection() const;

 private:
  std::string kind_, schema_;
  FreshFolder folder_;
};

/// The connection string of the tests' cluster; the test fails where none runs.
[[nodiscard]] std::string postgresql_connection();

/// Facts as tests need them, at one moment, by one person.
template <class Body>
book::Fact fact(const std::string& id, const std::string& subject, const Body& body) {
  return book::make_fact(id, subject, "2025-05-14T10:00:00+02:00", "Ines", body);
}

}  // namespace hw::test
