#pragma once
// Copies of a data folder that can be trusted: made while the book is in use, looked through before
// they count, and put back so that the book of before can be had again. A backup is always a folder
// with a SQLite book and its photos, whichever database the salon works on.
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/book/folder.h"
#include "huewright/process/moment.h"

namespace hw::book {

/// Makes backups/NAME, NAME the UTC moment: "2025-05-14T080000Z". What it holds is what the book
/// held at one instant. It is written beside, synced, opened and looked through, and only then
/// named. Errors: io; a book that is damaged itself (io, names the finding); a backup of that very
/// second.
[[nodiscard]] Result<std::string> make_backup(Folder& folder, const process::Moment& at);

/// Names of the finished backups of a data folder, oldest first.
[[nodiscard]] Result<std::vector<std::string>> backups_of(const std::string& path);

/// Puts a backup in the place of the book, after looking it through. The book of before stays as
/// book.db.before until the next restore, for undo_restore; on PostgreSQL a backup of it is made
/// first, and its name is given. The folder must not be open. Errors: an unknown name; a backup
/// that is damaged; io. Whenever it stops, the old book or the new one opens, never half of each.
[[nodiscard]] Result<std::string> restore_backup(const std::string& path, const std::string& name,
                                                 const process::Moment& at);
/// Takes the last restore back. Error: none to take back (missing), io.
[[nodiscard]] Result<void> undo_restore(const std::string& path);

/// Which backups to drop: all but the newest of each of the last 7 days, 4 weeks and 12 months that
/// have any. names: as backups_of. What an erased person left in backups goes with the last of
/// these, after a year at most. Source: house rule.
[[nodiscard]] std::vector<std::string> backups_to_drop(const std::vector<std::string>& names);

/// Everything that doctor looks at: facts, lists, photos, the last stop, the newest backup.
/// at: now. Errors: io.
[[nodiscard]] Result<Findings> examine_folder(Folder& folder, const process::Moment& at);

}  // namespace hw::book
