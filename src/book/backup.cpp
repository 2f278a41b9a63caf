#include "huewright/book/backup.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>  // renameat2
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <set>
#include <system_error>

#include "huewright/book/files.h"
#include "store_copy.h"
#include "verified_copy.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

/// Changes two files' places in one step, so that there is no moment without either.
Result<void> change_places(const std::string& a, const std::string& b) {
  if (renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) != 0) {
    return trouble(a, {errno, std::system_category()});
  }
  return sync_path(fs::path(a).parent_path().string());
}

/// Ends a book's log so that book.db alone is the book. A book too damaged for that is put aside as
/// it is, its log with it.
void settle(const std::string& file) {
  if (auto sql = open_sqlite(file); sql && (*sql)->script("PRAGMA journal_mode=DELETE")) return;
  std::error_code ignored;
  for (const char* beside : {"-wal", "-shm"}) {
    fs::rename(file + beside, file + ".damaged" + beside, ignored);
  }
}

Result<void> restore_file(const std::string& path, const std::string& backup) {
  const std::string file = path + "/book.db";
  const std::string beside = path + "/book.db.restoring";
  const auto bytes = read_file(backup + "/book.db");
  if (!bytes) return tl::unexpected(bytes.error());
  if (auto kept = write_file(beside, *bytes); !kept) return kept;
  std::error_code problem;
  if (fs::exists(file)) {
    settle(file);
    if (auto changed = change_places(file, beside); !changed) return changed;
    fs::rename(beside, file + ".before", problem);
  } else {
    fs::rename(beside, file, problem);
  }
  if (problem) return trouble(file, problem);
  return sync_path(path);
}

}  // namespace

Result<std::string> make_backup(Folder& folder, const process::Moment& at) {
  return make_copy(folder.store().sql(), folder.path(), at);
}

Result<std::vector<std::string>> backups_of(const std::string& path) {
  std::vector<std::string> names;
  std::error_code problem;
  for (const auto& entry : fs::directory_iterator(path + "/backups", problem)) {
    if (is_backup_name(entry.path().filename().string()))
      names.push_back(entry.path().filename().string());
  }
  if (problem) return trouble(path + "/backups", problem);
  std::ranges::sort(names);
  return names;
}

Result<std::string> restore_backup(const std::string& path, const std::string& name,
                                   const process::Moment& at) {
  auto backup = backup_in(path, name);
  if (!backup) return backup;
  if (const auto facts = looked_through(*backup + "/book.db"); !facts) {
    return tl::unexpected(facts.error());
  }
  if (auto shared = share_photos(*backup + "/photos", path + "/photos"); !shared) {
    return tl::unexpected(shared.error());
  }
  if (!fs::exists(path + "/connection")) {
    if (auto put = restore_file(path, *backup); !put) return tl::unexpected(put.error());
    return std::string("book.db.before");
  }
  auto folder = Folder::open(path);
  if (!folder) return tl::unexpected(folder.error());
  auto before = make_backup(**folder, at);
  if (!before) return before;
  auto sql = open_sqlite(*backup + "/book.db");
  if (!sql) return tl::unexpected(sql.error());
  auto from = Store::open(*std::move(sql));
  if (!from) return tl::unexpected(from.error());
  if (auto put = replace_store((*folder)->store(), (*from)->sql()); !put) {
    return tl::unexpected(put.error());
  }
  return before;
}

Result<void> undo_restore(const std::string& path) {
  const std::string file = path + "/book.db";
  if (!fs::exists(file + ".before")) {
    return fail(ErrorCode::missing, "no restore is there to take back", path,
                "a restore on PostgreSQL is taken back by restoring the backup it named");
  }
  settle(file);
  return change_places(file, file + ".before");
}

std::vector<std::string> backups_to_drop(const std::vector<std::string>& names) {
  constexpr std::size_t kDays = 7;
  constexpr std::size_t kWeeks = 4;
  constexpr std::size_t kMonths = 12;
  std::set<std::string> kept, days, months;
  std::set<int> weeks;
  for (auto name = names.rbegin(); name != names.rend(); ++name) {
    const auto date = process::date_from_iso(name->substr(0, 10));
    if (!date) {
      kept.insert(*name);  // not one of ours
      continue;
    }
    constexpr int kDaysPerWeek = 7;
    constexpr int kThursday = 3;  // 1970-01-01 was one; weeks from Monday on
    const int day = std::chrono::sys_days(*date).time_since_epoch().count();
    const bool new_day = days.size() < kDays && days.insert(name->substr(0, 10)).second;
    const bool new_week =
        weeks.size() < kWeeks && weeks.insert((day + kThursday) / kDaysPerWeek).second;
    const bool new_month = months.size() < kMonths && months.insert(name->substr(0, 7)).second;
    if (new_day || new_week || new_month) kept.insert(*name);
  }
  std::vector<std::string> drop;
  std::ranges::copy_if(names, std::back_inserter(drop),
                       [&](const std::string& name) { return !kept.contains(name); });
  return drop;
}

Result<Findings> examine_folder(Folder& folder, const process::Moment& at) {
  auto findings = folder.store().examine();
  if (!findings) return findings;
  auto photos = folder.examine_photos();
  if (!photos) return photos;
  findings->insert(findings->end(), photos->begin(), photos->end());
  const auto names = backups_of(folder.path());
  if (!names) return tl::unexpected(names.error());
  if (names->empty()) {
    findings->push_back("backups: none yet; make one with huewright backup");
    return findings;
  }
  constexpr int kStale = 7;  // days; house rule
  const auto date = process::date_from_iso(names->back().substr(0, 10));
  if (date && process::days_between(*date, process::local_date(at)) > kStale) {
    findings->push_back("backups: the newest is " + names->back() + ", more than a week old");
  }
  return findings;
}

}  // namespace hw::book
