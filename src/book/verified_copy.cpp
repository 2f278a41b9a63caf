#include "verified_copy.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "huewright/base/error_part.h"
#include "huewright/book/files.h"
#include "huewright/book/store.h"
#include "store_copy.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kPart = ".part";

/// "2025-05-14T080000Z": sorts by time and is a file name anywhere.
std::string name_of(const process::Moment& at) {
  std::string text = process::iso_text(process::Moment{at.utc, std::chrono::minutes(0)});
  text = text.substr(0, text.find('+'));
  std::erase(text, ':');
  return text + "Z";
}

Result<std::int64_t> count_facts(Sql& sql) {
  const auto rows = sql.run("SELECT count(*) FROM fact", {});
  if (!rows) return tl::unexpected(rows.error());
  return whole_of(rows->front().front());
}

/// Looks a second copy through, so that the first keeps its schema.
Result<std::int64_t> try_copy(const std::string& file) {
  const std::string tried = file + ".tried";
  std::error_code problem;
  fs::copy_file(file, tried, fs::copy_options::overwrite_existing, problem);
  if (problem) return trouble(tried, problem);
  auto facts = looked_through(tried);
  for (const char* beside : {"", "-wal", "-shm", "-journal"}) fs::remove(tried + beside, problem);
  return facts;
}

}  // namespace

bool is_backup_name(const std::string& text) {
  constexpr std::string_view kForm = "0000-00-00T000000Z";
  return std::ranges::equal(text, kForm, [](char c, char form) {
    return form == '0' ? c >= '0' && c <= '9' : c == form;
  });
}

Result<std::string> backup_in(const std::string& path, const std::string& name) {
  const std::string folder = path + "/backups/" + name;
  if (is_backup_name(name) && fs::is_directory(folder)) return folder;
  return fail(ErrorCode::unknown_name, "no backup is called \"" + name + "\"", path + "/backups",
              "list them with: huewright restore");
}

tl::unexpected<Error> trouble(const std::string& path, const std::error_code& problem) {
  return fail(ErrorCode::io, system_words(problem.value()), path,
              "see that the disk has room and that you may write there");
}

Result<void> share_photos(const std::string& from, const std::string& to) {
  if (auto made = make_folder(to); !made) return made;
  std::error_code problem;
  for (const auto& file : fs::directory_iterator(from, problem)) {
    const fs::path into = fs::path(to) / file.path().filename();
    if (fs::exists(into)) continue;
    fs::create_hard_link(file.path(), into, problem);
    if (problem) {
      const auto bytes = read_file(file.path().string());
      if (!bytes) return tl::unexpected(bytes.error());
      if (auto kept = write_file(into.string(), *bytes); !kept) return kept;
    }
  }
  return {};
}

Result<std::int64_t> looked_through(const std::string& file) {
  // Opening would make an empty book.
  if (!fs::exists(file)) {
    return fail(ErrorCode::io, "is not there", file, "use an older backup; run doctor");
  }
  auto sql = open_sqlite(file);
  if (!sql) return tl::unexpected(sql.error());
  auto store = Store::open(*std::move(sql));
  if (!store) return tl::unexpected(store.error());
  const auto findings = (*store)->examine();
  if (!findings) return tl::unexpected(findings.error());
  if (!findings->empty()) {
    return fail(ErrorCode::io, "is not whole: " + findings->front(), file,
                "use an older backup; run doctor");
  }
  auto facts = (*store)->count_facts();
  if (!facts) return facts;
  // Without a log beside it the file is whole by itself.
  if (auto one = (*store)->sql().script("PRAGMA journal_mode=DELETE"); !one) {
    return tl::unexpected(one.error());
  }
  return facts;
}

Result<std::string> make_copy(Sql& sql, const std::string& path, const process::Moment& at) {
  const std::string name = name_of(at);
  const std::string to = path + "/backups/" + name;
  const std::string part = to + std::string(kPart);
  if (fs::exists(to)) {
    return fail(ErrorCode::conflict, "there is a backup of this second", to, "wait a second");
  }
  std::error_code problem;
  fs::remove_all(part, problem);  // what an interrupted one left
  if (auto made = make_folder(part); !made) return tl::unexpected(made.error());
  const auto held = count_facts(sql);
  if (!held) return tl::unexpected(held.error());
  if (auto copied = copy_book(sql, part + "/book.db"); !copied) {
    return tl::unexpected(copied.error());
  }
  if (auto shared = share_photos(path + "/photos", part + "/photos"); !shared) {
    return tl::unexpected(shared.error());
  }
  const auto facts = try_copy(part + "/book.db");
  if (!facts) return tl::unexpected(facts.error());
  if (*facts < *held) {
    return fail(ErrorCode::io, fmt::format("holds {} facts of {}", *facts, *held), part,
                "see whether the disk is well, then make another");
  }
  for (const std::string& one : {part + "/book.db", part + "/photos", part}) {
    if (auto synced = sync_path(one); !synced) return tl::unexpected(synced.error());
  }
  fs::rename(part, to, problem);
  if (problem) return trouble(to, problem);
  if (auto synced = sync_path(path + "/backups"); !synced) {
    return tl::unexpected(synced.error());
  }
  return name;
}

}  // namespace hw::book
