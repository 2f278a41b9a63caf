#pragma once
// The data folder: everything a salon has in one place.
//   book.db       the facts (or `connection`: one line that names a PostgreSQL database instead)
//   photos/       each photo once, named by the SHA-256 of its bytes
//   backups/      verified copies (backup.h)
//   open          stands there while a program has the book open; left behind by an unclean stop
#include <memory>
#include <string>
#include <string_view>

#include "huewright/base/result.h"
#include "huewright/book/store.h"

namespace hw::book {

/// An open data folder; closing it (destroying this) marks a clean stop.
class Folder {
 public:
  /// Opens a folder, or makes an empty one where there is none. A book of an older schema is copied
  /// into backups/ and then brought up to this program's. settings: of SQLite, for fault tests.
  /// Errors: io; no folder but a file; whatever Store::open says.
  [[nodiscard]] static Result<std::unique_ptr<Folder>> open(const std::string& path,
                                                            const SqliteSettings& settings = {});
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] Store& store() { return *store_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  /// The last program that had it open did not close it: look it through before use.
  [[nodiscard]] bool was_unclean() const { return was_unclean_; }

  /// Keeps a photo's bytes on disk and gives its name, 64 hex digits. Error: io.
  Result<std::string> keep_photo(std::string_view bytes);
  /// Its bytes. Errors: malformed name, io.
  [[nodiscard]] Result<std::string> photo(std::string_view sha256) const;
  /// Photos that facts name and the folder lacks or holds changed, and files that no fact names.
  Result<Findings> examine_photos();
  /// Looks the facts through on a connection of its own, so that any thread may, while another
  /// reads and writes; empty too where it was stopped. Errors: io.
  [[nodiscard]] Result<Findings> examine_beside(const std::stop_token& stop) const;

 private:
  Folder(std::string path, std::unique_ptr<Store> store, bool was_unclean);
  std::string path_;
  std::unique_ptr<Store> store_;
  bool was_unclean_;
};

/// SHA-256 of some bytes, 64 small hex digits (FIPS 180-4).
[[nodiscard]] std::string sha256_of(std::string_view bytes);

}  // namespace hw::book
