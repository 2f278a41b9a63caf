#pragma once
// One situation that goes through quietly, and for each rule a change that raises it and, where a
// number decides, the nearest change that does not.
#include <functional>
#include <string>
#include <vector>

#include "huewright/process/care.h"
#include "huewright/process/rules.h"
#include "huewright/process/tests_record.h"

namespace hw::process::test {

/// A person, one zone and one application; and, where a case puts them there, what a record says of
/// skin tests, what is blended and the zones before a colour bowl.
struct Situation {
  Person person;
  HairFacts hair;
  ApplicationFacts step;
  TestsRecord record = {};
  std::vector<ColourMeant> meant = {};
  Moment at = {};
  std::vector<Ingredient> blend = {};
  std::vector<Canvas> canvas = {};
  ColourReach reach = {};
  DyeClass deposit = DyeClass::permanent;
};

using Change = std::function<void(Situation&)>;

struct RuleCase {
  std::string id;
  std::string name;
  Change raises;
  Change stays_quiet;
};

/// Grown-up, agreed and tested; 1:2 with 6 % off the scalp for 30 minutes.
Situation quiet_lightener();

/// The same person; colour 1:1 with 6 %, skin test clear.
Situation quiet_colour();

Part part(PartKind kind, double grams);
Part developer(double grams, double percent);

/// Cases of skin tests by their dates, of blends and of the canvas before a colour bowl.
std::vector<RuleCase> dated_cases();
std::vector<RuleCase> care_cases();

/// Every case. Changes start from quiet_lightener(); they may assign quiet_colour() first.
const std::vector<RuleCase>& rule_cases();

/// Refusals of a situation after a change; mixes the bowl anew.
std::vector<Refusal> refusals_after(const Change& change);

}  // namespace hw::process::test
