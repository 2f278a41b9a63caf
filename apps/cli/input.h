#pragma once
// The only place that opens an input.
#include <string>

#include "huewright/base/result.h"
#include "huewright/wire/json.h"

namespace hw::apps {

/// What errors call an input: the file's name, or "standard input" for "-".
[[nodiscard]] std::string name_of_input(const std::string& file);

/// The bytes of a file, or of standard input for "-". Reading stops one byte past `most` [bytes],
/// what its reader takes, so that a huge file costs nothing. Error: io.
[[nodiscard]] Result<std::string> read_input(const std::string& file,
                                             std::size_t most = wire::kMostBytes);

}  // namespace hw::apps
