#pragma once
// The stops and cautions of the house. What a rule says, where it stands and at which value it
// begins is data (data/process/rules.csv); how a rule is recognised is code, named by the same id.
// Every list below is in one order: never, not_until, caution, each in the order of the table, and
// holds a rule once.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/process/bowl.h"
#include "huewright/process/person.h"
#include "huewright/process/refusal.h"

namespace hw::process {

/// Where a rule begins. above: value > limit. from: value ≥ limit. below: value < limit.
/// stated: a fact, no number.
enum class RuleEdge { stated, above, from, below };

/// One row of the table.
struct Rule {
  std::string id;
  RefusalKind kind = RefusalKind::caution;
  RuleEdge edge = RuleEdge::stated;
  std::optional<double> limit = {};  ///< in `unit`; empty for stated rules
  std::string unit;
  std::string text;  ///< {limit} and {found} are filled in when the rule is raised
  std::string source;
  std::string grade;  ///< published, common practice, guess, house rule
};

/// All rules in the order of the table. Read once; the same for the life of the program.
[[nodiscard]] std::span<const Rule> rules();

/// What every plan ends with.
[[nodiscard]] const std::string& closing_advice();

/// A salon's own, stricter limit.
struct OwnLimit {
  std::string rule_id;
  double limit = 0;  ///< in the rule's unit, ≥ 0
};

/// The limits in force: those of the table, or tighter ones.
class RuleSettings {
 public:
  RuleSettings() = default;
  /// The limit in force [unit of the rule]. rule: a row of rules() that has a limit.
  [[nodiscard]] double limit(const Rule& rule) const;

 private:
  friend Result<RuleSettings> tightened(const std::vector<OwnLimit>&, const std::string&);
  std::vector<OwnLimit> own_;
};

/// Settings with a salon's own limits. A limit may move to the strict side or stay, never away.
/// where: what errors put before "[0].limit"; may be empty.
/// Errors: an id no rule has (unknown_name); a rule without a limit, or named twice (conflict); a
/// negative or non-finite limit, or one that would loosen the rule (out_of_range).
[[nodiscard]] Result<RuleSettings> tightened(const std::vector<OwnLimit>& own,
                                             const std::string& where = {});

/// What can be said of a bowl alone. mix: mix_bowl(bowl).
[[nodiscard]] std::vector<Refusal> check_bowl(const Bowl& bowl, const Mix& mix,
                                              const RuleSettings& settings = {});

/// What a step does, as the rules about a person see it.
struct StepUse {
  bool lightener = false;
  bool oxidative_colour = false;
  bool oxidises = false;  ///< lightener, oxidative colour, or any peroxide
  bool on_scalp = false;
};

/// Reads a step from its bowl.
[[nodiscard]] StepUse use_of(const ApplicationFacts& application);

/// What can be said of a person for a step. Rules about colour need use.oxidative_colour, rules
/// about lightener need use.lightener; consent is asked for every step.
[[nodiscard]] std::vector<Refusal> check_person(const Person& person, const StepUse& use,
                                                const RuleSettings& settings = {});

/// What can be said of applications one after another on one zone on one day, knowing nothing of
/// the person: bowls, minutes (added up over the lighteners), heat, a second lightener on the
/// scalp.
[[nodiscard]] std::vector<Refusal> check_series(std::span<const ApplicationFacts> applications,
                                                const RuleSettings& settings = {});

/// Everything: bowl, person, hair, minutes, and the cautions about handling.
[[nodiscard]] std::vector<Refusal> check_application(const Person& person, const HairFacts& hair,
                                                     const ApplicationFacts& application,
                                                     const RuleSettings& settings = {});

/// Several lists as one, in the order of this file and without repeats (the first of an id stays).
[[nodiscard]] std::vector<Refusal> merged(std::span<const std::vector<Refusal>> lists);

}  // namespace hw::process
