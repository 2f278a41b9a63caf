#pragma once
// A copy of a book that counts only once it was opened and looked through.
#include <cstdint>
#include <string>
#include <system_error>

#include "huewright/base/result.h"
#include "huewright/book/sql.h"
#include "huewright/process/moment.h"

namespace hw::book {

/// Copies a book of this or an older schema, with its photos, into backups/NAME of its data folder;
/// gives the name. It is written beside, synced, opened and looked through, and only then named.
/// A copy keeps the schema that the book has. Errors: as make_backup.
[[nodiscard]] Result<std::string> make_copy(Sql& sql, const std::string& path,
                                            const process::Moment& at);

/// Opens a book that is not in use, looks it through and gives how many facts it holds. It ends in
/// the schema of this program. Errors: io.
[[nodiscard]] Result<std::int64_t> looked_through(const std::string& file);

/// Puts photos of one folder into another. A photo's bytes never change, so the two share them
/// where the disk lets them. Errors: io.
[[nodiscard]] Result<void> share_photos(const std::string& from, const std::string& to);

/// Whether a text is a backup's name: "2025-05-14T080000Z".
[[nodiscard]] bool is_backup_name(const std::string& text);
/// The folder of a finished backup. Error: unknown_name.
[[nodiscard]] Result<std::string> backup_in(const std::string& path, const std::string& name);

/// What the file system said, as an error.
[[nodiscard]] tl::unexpected<Error> trouble(const std::string& path,
                                            const std::error_code& problem);

}  // namespace hw::book
