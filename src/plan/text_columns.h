#pragma once
// A table of words in columns.
#include <string>
#include <vector>

namespace hw::plan {

/// Lines of cells, each column as wide as its widest cell, two blanks between [text]. Lines have
/// as many cells as the first. Ends with a line break.
[[nodiscard]] std::string in_columns(const std::vector<std::vector<std::string>>& table);

}  // namespace hw::plan
