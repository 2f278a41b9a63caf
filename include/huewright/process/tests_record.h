#pragma once
// Dated rules: what a person was tested with and coloured with, and when; which colours that still
// covers, which must be tested first, and what stands against a colour at a given moment.
//
// A test covers a colour while an unbroken chain leads from its reading to the moment asked about:
//   1. read clear 48 h or more after it was put on (hours that passed, whatever the clocks did);
//   2. no step of the chain over 12 weeks (84 days by date) from the reading over each oxidative
//      colour since to the moment;
//   3. no oxidative colour in between without this very product and shade;
//   4. none at all in between when the maker asks for a test before each use,
// so that of the reasons for a new test the strictest wins. One positive test stands against every
// oxidative colour. A test that covers promises nothing: it misses some people (rule
// skin_test_can_miss).
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/base/result.h"
#include "huewright/process/moment.h"
#include "huewright/process/person.h"
#include "huewright/process/refusal.h"
#include "huewright/process/rules.h"

namespace hw::process {

/// An oxidative colour as a skin test knows it: the product and the shade of it.
struct ColourName {
  std::string product;  ///< the salon's word for the product, compared letter by letter
  std::string shade;    ///< id of the shade on the shelf, compared letter by letter
  auto operator<=>(const ColourName&) const = default;
};

/// An oxidative colour somebody means to use.
struct ColourMeant {
  ColourName colour;
  bool test_each_use = false;  ///< its maker asks for a test before each use
};

/// One skin test. Times after the moment asked about have not happened yet and do not count.
struct SkinTestRecord {
  ColourName colour;
  Moment applied;
  std::optional<Moment> read = {};       ///< when somebody looked; not before `applied`
  SkinTest result = SkinTest::not_done;  ///< what was seen then
};

/// Oxidative colours of one visit, with whatever stood in its bowls.
struct ColourVisit {
  Moment when;
  std::vector<ColourName> colours;
};

/// All that the dated rules ask for. Order does not matter.
struct TestsRecord {
  std::vector<SkinTestRecord> skin_tests = {};
  std::vector<ColourVisit> visits = {};
  std::optional<std::chrono::year_month_day> last_relaxer_or_smoothing = {};
};

/// The record, if it can be one: names given, each reading after its test was put on, a result with
/// each reading and none without, dates that exist. where: what errors call it.
/// Errors: a name that is empty or a result without its reading (missing), a reading before its
/// test (conflict), a date that no calendar has (malformed); paths such as
/// record.skin_tests[0].read.
[[nodiscard]] Result<TestsRecord> checked(const TestsRecord& record,
                                          const std::string& where = "record");

/// What stands against these colours at a moment, as to skin tests: at most one reason per colour,
/// the one that the test nearest to covering it gives, besides skin_test_positive. Only the caution
/// skin_test_read_late, or nothing, when every colour is covered. at: when the first of them would
/// go on. record: as checked() passes it. Limits: rules skin_test_read_early, _read_late and
/// _lapsed.
[[nodiscard]] std::vector<Refusal> check_skin_tests(const TestsRecord& record,
                                                    std::span<const ColourMeant> meant,
                                                    const Moment& at,
                                                    const RuleSettings& settings = {});

/// The same as one word for Person::skin_test: positive, clear (all covered) or not_done.
[[nodiscard]] SkinTest skin_test_for(const TestsRecord& record, std::span<const ColourMeant> meant,
                                     const Moment& at, const RuleSettings& settings = {});

/// The colours that a planner may offer for a bowl at that moment; empty after a positive test.
[[nodiscard]] std::vector<ColourMeant> covered_by_tests(const TestsRecord& record,
                                                        std::span<const ColourMeant> shelf,
                                                        const Moment& at,
                                                        const RuleSettings& settings = {});

/// One test to make before a visit.
struct TestToMake {
  ColourName colour;
  std::string why;         ///< the rule's sentence
  std::string rule_id;     ///< why, as an id of data/process/rules.csv
  bool only_read = false;  ///< it is on the skin already and waits to be read
  Moment apply_by;         ///< latest moment to put it on so that it can be read before the visit
  Moment read_from;        ///< earliest moment at which a reading counts
  bool too_late = false;   ///< apply_by has passed: the visit must wait until read_from
};

/// What must be tested, and until when, so that the colours meant may be used at the visit.
/// Each colour once, in the order meant; empty when all are covered or a test was positive (nothing
/// oxidative is used then, and no test changes that).
/// now: moment of asking; visit: when the first colour would go on, not before now. Times are given
/// on the clock of the visit. A test that already waits on the skin is only to be read.
[[nodiscard]] std::vector<TestToMake> what_to_test(const TestsRecord& record,
                                                   std::span<const ColourMeant> meant,
                                                   const Moment& now, const Moment& visit,
                                                   const RuleSettings& settings = {});

/// Days by date since the last relaxer or smoothing service [d, ≥ 0], for TextureServices; empty
/// when none is dated or it lies after the moment.
[[nodiscard]] std::optional<double> days_since_relaxer_or_smoothing(const TestsRecord& record,
                                                                    const Moment& at);

/// First date on which lightener may follow that service by the rule recent_relaxer_or_smoothing
/// (14 days or a salon's longer wait); empty when none is dated.
/// Source: common practice, no source.
[[nodiscard]] std::optional<std::chrono::year_month_day> lightener_from(
    const TestsRecord& record, const RuleSettings& settings = {});

}  // namespace hw::process
