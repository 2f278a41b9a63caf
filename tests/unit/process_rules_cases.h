#pragma once
// One situation that goes through quietly, and for each rule a change that raises it and, where a
// number decides, the nearest change that does not.
#include <functional>
#include <string>
#include <vector>

#include "huewright/process/rules.h"

namespace hw::process::test {

/// A person, one zone and one application.
struct Situation {
  Person person;
  HairFacts hair;
  ApplicationFacts step;
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

/// Every case. Changes start from quiet_lightener(); they may assign quiet_colour() first.
const std::vector<RuleCase>& rule_cases();

/// Refusals of a situation after a change; mixes the bowl anew.
std::vector<Refusal> refusals_after(const Change& change);

}  // namespace hw::process::test
