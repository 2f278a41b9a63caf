// Skin tests and services by their dates. Ids are those of data/process/rules.csv.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "findings.h"
#include "huewright/process/tests_record.h"

namespace hw::process {
namespace {

constexpr std::string_view kMissing = "skin_test_missing";
constexpr std::string_view kAnother = "skin_test_of_another_colour";
constexpr std::string_view kUnread = "skin_test_unread";
constexpr std::string_view kEarly = "skin_test_read_early";
constexpr std::string_view kLate = "skin_test_read_late";
constexpr std::string_view kEachUse = "skin_test_each_use";
constexpr std::string_view kChanged = "skin_test_colour_changed";
constexpr std::string_view kLapsed = "skin_test_lapsed";

/// Why a colour is not covered, farthest from being covered first.
constexpr std::string_view kFarthestFirst[] = {kMissing, kAnother, kLapsed, kChanged,
                                               kEachUse, kEarly,   kUnread};

/// A rule that stands against a colour, with the number it was found at.
struct Reason {
  std::string_view id;
  double found = 0;
};

std::size_t nearness(std::string_view id) {
  return static_cast<std::size_t>(
      std::find(std::begin(kFarthestFirst), std::end(kFarthestFirst), id) -
      std::begin(kFarthestFirst));
}

double limit_of(std::string_view id, const RuleSettings& settings) {
  return settings.limit(rules()[row_of(id)]);
}

int days_apart(const Moment& from, const Moment& to) {
  return days_between(local_date(from), local_date(to));
}

/// Hours as a person is told them: cut, not rounded, so that just under 48 never reads 48.
double told_hours(double hours) {
  constexpr double kSteps = 10;  // to a tenth of an hour
  return std::floor(hours * kSteps) / kSteps;
}

bool uses(const ColourVisit& visit, const ColourName& colour) {
  return std::find(visit.colours.begin(), visit.colours.end(), colour) != visit.colours.end();
}

/// Visits with oxidative colour after one moment and before another, first to last.
std::vector<const ColourVisit*> visits_between(const TestsRecord& record, const Moment& from,
                                               const Moment& to) {
  std::vector<const ColourVisit*> found;
  for (const ColourVisit& visit : record.visits) {
    if (!visit.colours.empty() && visit.when > from && visit.when < to) found.push_back(&visit);
  }
  std::sort(found.begin(), found.end(),
            [](const auto* one, const auto* other) { return one->when < other->when; });
  return found;
}

/// Follows the chain from a clear reading; what breaks it first, if anything does.
std::optional<Reason> break_of_chain(const TestsRecord& record, const ColourMeant& meant,
                                     const Moment& read, const Moment& at,
                                     const RuleSettings& settings) {
  const double most_days = limit_of(kLapsed, settings);
  Moment last = read;
  for (const ColourVisit* visit : visits_between(record, read, at)) {
    if (meant.test_each_use && uses(*visit, meant.colour)) return Reason{kEachUse};
    if (!uses(*visit, meant.colour)) return Reason{kChanged};
    if (days_apart(last, visit->when) > most_days) break;
    last = visit->when;
  }
  const int gap = days_apart(last, at);
  if (gap > most_days) return Reason{kLapsed, static_cast<double>(gap)};
  return std::nullopt;
}

/// What keeps one test from covering a colour at a moment; empty when it covers it.
std::optional<Reason> fault_of(const SkinTestRecord& test, const TestsRecord& record,
                               const ColourMeant& meant, const Moment& at,
                               const RuleSettings& settings) {
  if (test.applied > at) return Reason{kMissing};
  if (test.colour != meant.colour) return Reason{kAnother};
  if (!test.read || *test.read > at) return Reason{kUnread};
  if (test.result != SkinTest::clear) return Reason{kMissing};
  const double hours = hours_between(test.applied, *test.read);
  if (hours < limit_of(kEarly, settings)) return Reason{kEarly, told_hours(hours)};
  return break_of_chain(record, meant, *test.read, at, settings);
}

/// How a colour stands: the test that covers it (the one read last), or what is against it (the
/// reason of the test nearest to covering it, the later one of two equally near).
struct Standing {
  const SkinTestRecord* covering = nullptr;
  Reason against{kMissing};
};

Standing standing_of(const TestsRecord& record, const ColourMeant& meant, const Moment& at,
                     const RuleSettings& settings) {
  Standing standing;
  const SkinTestRecord* nearest = nullptr;
  for (const SkinTestRecord& test : record.skin_tests) {
    const auto fault = fault_of(test, record, meant, at, settings);
    if (!fault) {
      const bool later = !standing.covering || *test.read > *standing.covering->read;
      if (later) standing.covering = &test;
      continue;
    }
    const auto rank = std::pair(nearness(fault->id), test.applied);
    if (!nearest || rank > std::pair(nearness(standing.against.id), nearest->applied)) {
      standing.against = *fault;
      nearest = &test;
    }
  }
  return standing;
}

bool reacted(const TestsRecord& record, const Moment& at) {
  return std::any_of(record.skin_tests.begin(), record.skin_tests.end(), [&](const auto& test) {
    return test.result == SkinTest::positive && test.read && *test.read <= at;
  });
}

/// When a test of this colour was put on that still waits to be read in time; the earliest.
std::optional<Moment> waiting_since(const TestsRecord& record, const ColourName& colour,
                                    const Moment& now, const RuleSettings& settings) {
  std::optional<Moment> since;
  for (const SkinTestRecord& test : record.skin_tests) {
    const double hours = hours_between(test.applied, now);
    if (test.colour != colour || test.read || hours < 0) continue;
    if (hours <= limit_of(kLate, settings) && (!since || test.applied < *since)) {
      since = test.applied;
    }
  }
  return since;
}

void raise(Findings& found, const Reason& reason) {
  if (rules()[row_of(reason.id)].limit) {
    found.raise_anyway(reason.id, reason.found);
  } else {
    found.raise_if(reason.id, true);
  }
}

Result<void> check_test(const SkinTestRecord& test, const std::string& where) {
  if (test.colour.product.empty() || test.colour.shade.empty()) {
    return fail(ErrorCode::missing, "a skin test of no named product and shade", where + ".colour",
                "name both");
  }
  if (test.read && *test.read < test.applied) {
    return fail(ErrorCode::conflict, "a skin test read before it was put on", where + ".read",
                "check both times and their offsets");
  }
  if (test.read.has_value() != (test.result != SkinTest::not_done)) {
    return fail(ErrorCode::missing, "a reading and its result belong together", where + ".result",
                "give both, or neither while it waits");
  }
  return {};
}

}  // namespace

Result<TestsRecord> checked(const TestsRecord& record, const std::string& where) {
  for (std::size_t i = 0; i < record.skin_tests.size(); ++i) {
    const auto sound = check_test(record.skin_tests[i], fmt::format("{}.skin_tests[{}]", where, i));
    if (!sound) return tl::unexpected(sound.error());
  }
  for (std::size_t i = 0; i < record.visits.size(); ++i) {
    for (const ColourName& colour : record.visits[i].colours) {
      if (!colour.product.empty() && !colour.shade.empty()) continue;
      return fail(ErrorCode::missing, "a colour of no named product and shade",
                  fmt::format("{}.visits[{}].colours", where, i), "name both");
    }
  }
  if (record.last_relaxer_or_smoothing && !record.last_relaxer_or_smoothing->ok()) {
    return fail(ErrorCode::malformed, "no calendar has this date",
                where + ".last_relaxer_or_smoothing", "write it as 2025-03-30");
  }
  return record;
}

std::vector<Refusal> check_skin_tests(const TestsRecord& record, std::span<const ColourMeant> meant,
                                      const Moment& at, const RuleSettings& settings) {
  Findings found(settings);
  if (meant.empty()) return {};
  found.raise_if("skin_test_positive", reacted(record, at));
  for (const ColourMeant& one : meant) {
    const Standing standing = standing_of(record, one, at, settings);
    if (!standing.covering) {
      raise(found, standing.against);
      continue;
    }
    found.raise_beyond(
        kLate, std::ceil(hours_between(standing.covering->applied, *standing.covering->read)));
  }
  return found.list();
}

SkinTest skin_test_for(const TestsRecord& record, std::span<const ColourMeant> meant,
                       const Moment& at, const RuleSettings& settings) {
  if (reacted(record, at)) return SkinTest::positive;
  const bool all = !meant.empty() && std::all_of(meant.begin(), meant.end(), [&](const auto& one) {
    return standing_of(record, one, at, settings).covering != nullptr;
  });
  return all ? SkinTest::clear : SkinTest::not_done;
}

std::vector<ColourMeant> covered_by_tests(const TestsRecord& record,
                                          std::span<const ColourMeant> shelf, const Moment& at,
                                          const RuleSettings& settings) {
  std::vector<ColourMeant> covered;
  if (reacted(record, at)) return covered;
  for (const ColourMeant& one : shelf) {
    if (standing_of(record, one, at, settings).covering) covered.push_back(one);
  }
  return covered;
}

std::vector<TestToMake> what_to_test(const TestsRecord& record, std::span<const ColourMeant> meant,
                                     const Moment& now, const Moment& visit,
                                     const RuleSettings& settings) {
  std::vector<TestToMake> list;
  if (reacted(record, now)) return list;
  const double hours = limit_of(kEarly, settings);
  const auto listed = [&](const ColourName& colour) {
    return std::any_of(list.begin(), list.end(), [&](const auto& t) { return t.colour == colour; });
  };
  for (const ColourMeant& one : meant) {
    const Standing standing = standing_of(record, one, visit, settings);
    if (standing.covering || listed(one.colour)) continue;
    Findings found(settings);
    raise(found, standing.against);
    TestToMake test;
    test.colour = one.colour;
    test.why = found.list().front().text;
    test.rule_id = standing.against.id;
    test.apply_by = hours_later(visit, -hours, visit.offset);
    test.read_from = hours_later(now, hours, visit.offset);
    if (const auto on_skin = waiting_since(record, one.colour, now, settings)) {
      test.only_read = true;
      test.read_from = hours_later(*on_skin, hours, visit.offset);
    }
    test.too_late = test.read_from > visit;
    list.push_back(std::move(test));
  }
  return list;
}

std::optional<double> days_since_relaxer_or_smoothing(const TestsRecord& record, const Moment& at) {
  if (!record.last_relaxer_or_smoothing) return std::nullopt;
  const int days = days_between(*record.last_relaxer_or_smoothing, local_date(at));
  return days < 0 ? std::nullopt : std::optional<double>(days);
}

std::optional<std::chrono::year_month_day> lightener_from(const TestsRecord& record,
                                                          const RuleSettings& settings) {
  if (!record.last_relaxer_or_smoothing) return std::nullopt;
  const double days = limit_of("recent_relaxer_or_smoothing", settings);
  return days_later(*record.last_relaxer_or_smoothing, static_cast<int>(std::ceil(days)));
}

}  // namespace hw::process
