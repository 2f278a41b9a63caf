#include "huewright/book/folder.h"

#include <sodium.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <set>

#include "huewright/book/files.h"
#include "huewright/book/visit_facts.h"
#include "migrations.h"
#include "verified_copy.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kHexDigits = 64;

bool is_name(std::string_view text) {
  return text.size() == kHexDigits &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// The database of a folder: its own file, or the server its `connection` names.
Result<std::unique_ptr<Sql>> database(const std::string& path, const SqliteSettings& settings) {
  const std::string connection = path + "/connection";
  if (!fs::exists(connection)) return open_sqlite(path + "/book.db", settings);
  auto line = read_file(connection);
  if (!line) return tl::unexpected(line.error());
  while (line->ends_with('\n') || line->ends_with('\r')) line->pop_back();
  return open_postgresql(*line);
}

/// A book of an older schema is copied before it is changed. The copy is opened with this program
/// first, so a step that fails leaves the book as it was.
Result<void> copy_before_change(Sql& sql, const std::string& path) {
  const auto number = schema_of(sql);
  if (!number) return tl::unexpected(number.error());
  if (*number == 0 || *number >= migrations().back().number) return {};
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const auto copied = make_copy(sql, path, process::Moment{now, std::chrono::minutes(0)});
  // One of this very second was made by an opening that came no further.
  if (copied || copied.error().code == ErrorCode::conflict) return {};
  return tl::unexpected(copied.error());
}

/// Every photo that facts name.
Result<std::set<std::string>> named_photos(Store& store) {
  constexpr std::size_t kPage = 5000;
  std::set<std::string> names;
  std::int64_t place = 0;
  for (;;) {
    const auto facts = store.facts_after(place, kPage);
    if (!facts) return tl::unexpected(facts.error());
    if (facts->empty()) return names;
    for (const Fact& fact : *facts) {
      if (fact.kind == PhotoFact::kKind) names.insert(body_of<PhotoFact>(fact).sha256);
    }
    place = facts->back().place;
  }
}

}  // namespace

std::string sha256_of(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                     bytes.size());
  std::array<char, kHexDigits + 1> hex{};
  sodium_bin2hex(hex.data(), hex.size(), hash.data(), hash.size());
  return {hex.data(), kHexDigits};
}

Folder::Folder(std::string path, std::unique_ptr<Store> store, bool was_unclean)
    : path_(std::move(path)), store_(std::move(store)), was_unclean_(was_unclean) {}

Folder::~Folder() {
  store_.reset();
  std::error_code ignored;
  fs::remove(path_ + "/open", ignored);
}

Result<std::unique_ptr<Folder>> Folder::open(const std::string& path,
                                             const SqliteSettings& settings) {
  std::error_code ignored;
  if (fs::exists(path, ignored) && !fs::is_directory(path, ignored)) {
    return fail(ErrorCode::io, "is a file, not a data folder", path, "name a folder");
  }
  for (const char* part : {"", "/photos", "/backups"}) {
    if (auto made = make_folder(path + part); !made) return tl::unexpected(made.error());
  }
  const std::string mark = path + "/open";
  const bool unclean = fs::exists(mark, ignored);
  auto sql = database(path, settings);
  if (!sql) return tl::unexpected(sql.error());
  if (auto copied = copy_before_change(**sql, path); !copied) {
    return tl::unexpected(copied.error());
  }
  auto store = Store::open(*std::move(sql));
  if (!store) return tl::unexpected(store.error());
  if (auto marked = write_file(mark, std::to_string(getpid()) + "\n"); !marked) {
    return tl::unexpected(marked.error());
  }
  return std::unique_ptr<Folder>(new Folder(path, *std::move(store), unclean));
}

Result<std::string> Folder::keep_photo(std::string_view bytes) {
  const std::string name = sha256_of(bytes);
  const std::string file = path_ + "/photos/" + name;
  if (fs::exists(file)) return name;
  if (auto kept = write_file(file, bytes); !kept) return tl::unexpected(kept.error());
  return name;
}

Result<std::string> Folder::photo(std::string_view sha256) const {
  if (!is_name(sha256)) {
    return fail(ErrorCode::malformed, "is no name of a photo", "photo", "give 64 hex digits");
  }
  return read_file(path_ + "/photos/" + std::string(sha256));
}

Result<Findings> Folder::examine_photos() {
  const auto names = named_photos(*store_);
  if (!names) return tl::unexpected(names.error());
  Findings findings;
  for (const std::string& name : *names) {
    const auto bytes = photo(name);
    if (!bytes) {
      findings.push_back("photo " + name + ": missing");
    } else if (sha256_of(*bytes) != name) {
      findings.push_back("photo " + name + ": not the bytes that were kept");
    }
  }
  std::error_code problem;
  for (const auto& file : fs::directory_iterator(path_ + "/photos", problem)) {
    const std::string name = file.path().filename().string();
    if (!names->contains(name)) findings.push_back("photos/" + name + ": no fact names it");
  }
  return findings;
}

Result<Findings> Folder::examine_beside(const std::stop_token& stop) const {
  SqliteSettings settings;
  settings.read_only = true;
  settings.stop = stop;
  const auto sql = database(path_, settings);
  if (!sql) return tl::unexpected(sql.error());
  return examine_reading(**sql, stop);
}

}  // namespace hw::book
