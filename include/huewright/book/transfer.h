#pragma once
// The whole book, or one client's part of it, as text that any program can read, and back.
// A folder: book.jsonl (one JSON object a line), photos/ beside, and tables/ with the same for a
// spreadsheet, which import does not read. The first line of book.jsonl is
// {"format": "huewright book", "version": 1}; each other line is a fact (schema fact). Facts that
// make a client or a product come first, then all others, each in the order of the book.
#include <cstdint>
#include <string>

#include "huewright/base/result.h"
#include "huewright/book/folder.h"

namespace hw::book {

/// Version of the format above.
inline constexpr int kExportVersion = 1;

/// Writes everything, or what is about one client and their visits, into a new folder. Gives how
/// many facts. Memory does not grow with the book. Errors: a folder that is there and not empty
/// (conflict); a client that is not (unknown_name); io.
[[nodiscard]] Result<std::int64_t> export_book(Folder& folder, const std::string& to,
                                               const std::string& client = {});

/// Takes an exported folder in. Facts that are there already are left as they are, so that taking
/// in twice is harmless; a batch of 500 is in or out as a whole. Gives how many facts were read.
/// Errors, by line: text that is no fact, another format or version, facts that name what is not
/// there.
[[nodiscard]] Result<std::int64_t> import_book(Folder& folder, const std::string& from);

/// Erases a client (Store::erase_client) and their photos that nobody else's fact names. Errors: as
/// there.
[[nodiscard]] Result<void> erase_with_photos(Folder& folder, const std::string& client,
                                             const Fact& erased);

}  // namespace hw::book
