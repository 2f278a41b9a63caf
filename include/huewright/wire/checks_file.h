#pragma once
// Looks at the hair during a run, or at a strand that was tested, as a file.
#include <cstdint>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/plan/case.h"
#include "huewright/plan/checks.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// {"course"?, "readings": [{"minute", "zone", "level"?, "tone"?, "lab"?, "seen"?, "stretch"?,
/// "reader"?, "strand_test"?}]}
struct ChecksFile {
  std::uint64_t course = 1;  ///< which of the plan's courses is being done, from 1
  std::vector<plan::CheckReading> readings;
};

/// The readings of a head, in the order of the file. A zone may stay empty where the head has one
/// alone. Errors, by their path: a zone that the head does not have, or none said of several; a
/// reading that says nothing.
[[nodiscard]] Result<std::vector<plan::CheckReading>> readings_of(const ChecksFile& file,
                                                                  const plan::Case& head);

void describe(Object& object, ChecksFile& file);

}  // namespace hw::wire
