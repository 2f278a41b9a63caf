#pragma once
// A case with the files that it names.
#include "command.h"
#include "huewright/wire/case_file.h"

namespace hw::apps {

/// The case of an input, its shelf and its looks fetched from the files it names (paths from the
/// folder of the input); the option --shelf stands before its shelf_file. Errors: those of decoding
/// and of plan::parse_looks, under the name of the file; io.
[[nodiscard]] Result<wire::CaseFile> read_case(const Asked& asked);

}  // namespace hw::apps
