#pragma once
// A head and a shelf as files.
#include <optional>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/plan/case.h"
#include "huewright/plan/target.h"
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
  std::string look;                  ///< the target in a trade word, or empty
  std::optional<Triple> target_lab;  ///< or as a colour, D65/10°
  std::string shelf_file;
  std::vector<double> ladder_lstar;           ///< the salon's own ten rungs, or empty
  std::vector<process::OwnLimit> own_limits;  ///< rules the salon tightens
};

/// The case, checked as a whole and ready to plan. Errors: two products with one id; no shelf; a
/// lightener without developer parts; zones out of order; a reading without a value; own limits
/// that loosen a rule; a ladder that does not rise.
[[nodiscard]] Result<plan::Case> ready(const CaseFile& file);

/// The target of a case, where it names one. Error: a word that is no look; both look and lab.
[[nodiscard]] Result<std::optional<plan::Target>> target_of(const CaseFile& file);

void describe(Object& object, ShelfFile& file);
void describe(Object& object, CaseFile& file);

}  // namespace hw::wire
