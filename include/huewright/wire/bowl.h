#pragma once
// What `bowl` is asked and what it answers.
#include <vector>

#include "huewright/base/result.h"
#include "huewright/process/bowl.h"
#include "huewright/process/refusal.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

/// {"parts": [{"kind", "grams", "peroxide_percent"?, "for_scalp"?}], "on_scalp"?}
struct BowlRequest {
  process::Bowl bowl;
};

/// What stands against a step, parted as answers print it.
struct Findings {
  std::vector<process::Refusal> refusals;  ///< kind never or not_until
  std::vector<process::Refusal> cautions;
};
[[nodiscard]] Findings parted(const std::vector<process::Refusal>& raised);

/// {"grams", "peroxide_percent", "volume", "powder_percent", "refusals", "cautions"}
struct BowlAnswer {
  double grams = 0;
  double peroxide_percent = 0;  ///< of the ready mix, by mass
  double volume = 0;            ///< per cent × 10/3
  double powder_percent = 0;    ///< of the ready mix, by mass
  Findings found;
};

/// Mass balance and rules of one bowl. where: what errors put before "parts[0]"; may be empty.
/// Errors: those of process::mix_bowl. Worked: 30 g lightener, 60 g of 6 %, 30 g shampoo, 30 g
/// water: 150 g, 2.4 %, volume 8, powder 20 %.
[[nodiscard]] Result<BowlAnswer> answer(const BowlRequest& request, const std::string& where = {});

void describe(Object& object, process::Part& part);
void describe(Object& object, process::Refusal& refusal);
void describe(Object& object, BowlRequest& request);
void describe(Object& object, BowlAnswer& answer);
/// The keys "refusals" and "cautions" of any answer.
void describe_found(Object& object, Findings& found);
/// The keys "parts" and "on_scalp" wherever a bowl stands.
void describe_parts(Object& object, process::Bowl& bowl);
void describe_on_scalp(Object& object, process::Bowl& bowl);

}  // namespace hw::wire
