#pragma once
// The only place that opens an input.
#include <string>

#include "huewright/base/result.h"

namespace hw::apps {

/// What errors call an input: the file's name, or "standard input" for "-".
[[nodiscard]] std::string name_of_input(const std::string& file);

/// The bytes of a file, or of standard input for "-". Reading stops one byte past what the decoder
/// takes, so that a huge file costs nothing. Error: io.
[[nodiscard]] Result<std::string> read_input(const std::string& file);

}  // namespace hw::apps
