#pragma once
// A head and a shelf as files.
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/plan/case.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// {"shelf": [{"id", "kind", …}]}
struct ShelfFile {
  std::vector<process::Product> shelf;
};

/// A case as it stands in its file. The shelf is in it, or in the file that shelf_file names (a
/// path from the case file; only the command line follows it).
struct CaseFile {
  plan::Case head;
  std::string shelf_file;
  std::vector<double> ladder_lstar;           ///< the salon's own ten rungs, or empty
  std::vector<process::OwnLimit> own_limits;  ///< rules the salon tightens
};

/// The case, checked as a whole and ready to plan. Errors: two products with one id; no shelf; a
/// lightener without developer parts; zones out of order; a reading without a value; own limits
/// that loosen a rule; a ladder that does not rise.
[[nodiscard]] Result<plan::Case> ready(const CaseFile& file);

void describe(Object& object, ShelfFile& file);
void describe(Object& object, CaseFile& file);

}  // namespace hw::wire
