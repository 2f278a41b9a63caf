#pragma once
// Files that survive a power cut: written beside, synced, and put in place by name.
#include <string>
#include <string_view>

#include "huewright/base/result.h"

namespace hw::book {

/// The bytes of a file. Error: io.
[[nodiscard]] Result<std::string> read_file(const std::string& path);
/// Writes a whole file or none: the old one, if any, stands until the new one is on disk. Error:
/// io.
[[nodiscard]] Result<void> write_file(const std::string& path, std::string_view bytes);
/// Puts a file or folder name on disk. Error: io.
[[nodiscard]] Result<void> sync_path(const std::string& path);
/// Makes a folder, and those above it, that only its owner may enter. Error: io.
[[nodiscard]] Result<void> make_folder(const std::string& path);

}  // namespace hw::book
