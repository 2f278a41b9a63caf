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

/// A colour wished for, as a file says it.
/// {"look"} | {"lab"} | {"swatch_lab"} | {"photo_lab"} | {"last_time_lab"}
struct TargetGiven {
  plan::TargetSource source = plan::TargetSource::look;
  std::string look;  ///< a trade word
  Triple lab{};      ///< of the other four, D65/10°
};

/// A case as it stands in its file. The shelf is in it, or in the file that shelf_file names, and
/// the salon's own looks in looks_file (paths from the case file; only the command line follows
/// them).
struct CaseFile {
  plan::Case head;
  std::optional<TargetGiven> target = {};                ///< the finished colour
  std::vector<std::optional<TargetGiven>> zone_targets;  ///< one per zone, or none at all
  std::string shelf_file;
  std::string looks_file;
  std::vector<plan::Look> looks;              ///< of looks_file; empty: plan::default_looks()
  std::vector<double> ladder_lstar;           ///< the salon's own ten rungs, or empty
  std::vector<process::OwnLimit> own_limits;  ///< rules the salon tightens
};

/// The case, checked as a whole and ready to plan: targets worked out, ladder and rules the
/// salon's own, the paid hands those at work, a colour's level from its swatch where it has no
/// other, days since the last relaxer from its date.
/// Errors, by their path: no shelf, two products with one id, a product that lacks what its kind
/// needs or has what it cannot have; zones of one section that overlap, two of one name; a reading
/// without a value; neither target nor wished_level; a word that is no look; own limits that loosen
/// a rule; a ladder that does not rise; dated tests without visit_at, times out of order.
[[nodiscard]] Result<plan::Case> ready(const CaseFile& file);

/// That a product says what its kind needs, and nothing that belongs to another. where: its path.
[[nodiscard]] Result<void> check_product(const process::Product& product, const std::string& where);

void describe(Object& object, TargetGiven& target);
void describe(Object& object, ShelfFile& file);
void describe(Object& object, CaseFile& file);

}  // namespace hw::wire

// A product as a shelf file has it, found by its type.
namespace hw::process {
void describe(wire::Object& object, Product& product);
}  // namespace hw::process

// The salon of a case, found by its type.
namespace hw::plan {
void describe(wire::Object& object, Salon& salon);
}  // namespace hw::plan
