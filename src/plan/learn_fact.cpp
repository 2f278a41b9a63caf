// From a visit's members to straight lines in what is learned.
#include <algorithm>
#include <cmath>

#include "checks_parts.h"
#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "huewright/base/statistics.h"
#include "huewright/plan/learn.h"
#include "reading.h"
#include "square.h"

namespace hw::plan {
namespace {

constexpr double kInstrumentSdLevels = 0.25;  // 1.3 L* where rungs stand about five L* apart

/// One reading of a depth, as each member expects it.
struct Called {
  FactReading line;
  std::size_t reader = 0;
  std::size_t zone = 0;
  bool by_eye = true;
  bool wet = false;      ///< a wet look is in it
  bool before = false;   ///< read before the first bowl
  double used_bias = 0;  ///< of the reader, where it is not among the causes [levels]
  double scatter_sd = 0;
  std::vector<double> level;  ///< by member, without the reader's bias
};

/// Whether the pigment that a zone's readings tell of is the natural one.
bool is_untouched(const ZoneBelief& zone) {
  return zone.origin.unknown == Unknown::melanin;
}

/// What was read of untouched zones before anything was done.
std::vector<Called> first_readings(const Case& head, std::span<const ZoneBelief> zones,
                                   const std::string& reader) {
  std::vector<Called> list;
  for (std::size_t z = 0; z < zones.size(); ++z) {
    if (!is_untouched(zones[z])) continue;
    for (const Reading& reading : head.zones[z].readings) {
      Called called;
      called.zone = z;
      called.before = true;
      called.by_eye = reading.by == Reader::eye && reading.level;
      called.line.reader = reader;
      called.line.found_level =
          reading.level ? *reading.level : head.ladder.level_of(reading.lab->l);
      const hair::MoistureShift wet = hair::moisture_shift(reading.moisture);
      double wet_sd = 0;
      for (const auto& lab : zones[z].pigmented) {
        const double seen = lab.l + wet.lstar;
        called.level.push_back(head.ladder.level_of(seen));
        wet_sd += (head.ladder.level_of(seen + wet.sd) - head.ladder.level_of(seen - wet.sd)) / 2;
      }
      wet_sd /= static_cast<double>(called.level.size());
      called.scatter_sd = std::hypot(called.by_eye ? kEyeSdLevels : kInstrumentSdLevels, wet_sd);
      list.push_back(std::move(called));
    }
  }
  return list;
}

/// Checks with a depth.
void add_checks(const HeadMembers& members, const std::vector<PlacedReading>& readings,
                const std::vector<AtReading>& at, const Case& head,
                const std::string& zones_read_by, std::vector<Called>& list) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const CheckReading& reading = *readings[i].reading;
    if (!reading.level && !reading.lab) continue;
    Called called;
    called.reader = readings[i].reader;
    called.zone = readings[i].zone;
    called.by_eye = !reading.lab;
    called.wet = reading.seen != hair::Moisture::dry;
    called.line.reader = reading.reader.empty() ? zones_read_by : reading.reader;
    called.line.found_level = reading.lab ? head.ladder.level_of(reading.lab->l) : *reading.level;
    called.scatter_sd = called.by_eye ? kEyeSdLevels : kInstrumentSdLevels;
    called.level.resize(members.size());
    for (std::size_t m = 0; m < members.size(); ++m) {
      called.level[m] = called_level(members, readings[i], at[i].dry[m].l, m, head.ladder) -
                        members.bias[readings[i].reader][m];
    }
    list.push_back(std::move(called));
  }
}

/// One cause of a reading: its value in each member, where it is stated to stand, and the slope.
struct Cause {
  std::vector<double> value;
  double stated = 0;
  double* slope = nullptr;
};

std::vector<double> logs(const std::vector<double>& values) {
  std::vector<double> made;
  made.reserve(values.size());
  for (const double value : values) made.push_back(log_portable(value));
  return made;
}

/// What a reading depends on, of all that is learned.
std::vector<Cause> causes_of(const HeadMembers& members, const VisitFact& fact, Called& called) {
  const ZoneBelief& zone = members.zones[called.zone];
  std::vector<Cause> causes;
  if (!called.before) {
    causes.push_back({logs(zone.origin.head_rate), fact.ln_rate.mean, &called.line.per_ln_rate});
    if (called.wet) {
      causes.push_back({members.wet_look, fact.wet_look.mean, &called.line.per_wet_look});
    }
  }
  if (is_untouched(zone)) {
    auto pigment = logs(zone.origin.found);
    called.line.zone = zone.name;
    called.line.used_ln_pigment = mean(pigment);
    causes.push_back(
        {std::move(pigment), called.line.used_ln_pigment, &called.line.per_ln_pigment});
    causes.push_back({zone.origin.rest, 0, &called.line.per_rest});
    if (called.by_eye) {
      called.line.per_bias = 1;
      called.used_bias = called.reader == 0 ? fact.bias.mean : 0;
    }
  } else if (called.by_eye) {
    // She read the zone too: a light eye makes a zone believed darker than it was read.
    for (std::size_t m = 0; m < members.size(); ++m) {
      called.level[m] += members.bias[called.reader][m];
    }
    const double stated = called.reader == 0 ? fact.bias.mean : 0;
    causes.push_back({members.bias[called.reader], stated, &called.line.per_bias});
  }
  return causes;
}

/// Fills slopes and what is expected by least squares over the members; returns what is left.
std::vector<double> fit(std::vector<Cause>& causes, Called& called) {
  std::vector<double> rest = called.level;
  const std::size_t count = rest.size();
  double expected = mean(called.level);
  if (!causes.empty()) {
    std::vector<std::vector<double>> rows(count);
    std::vector<double> together(causes.size(), 0);
    for (std::size_t m = 0; m < count; ++m) {
      for (std::size_t c = 0; c < causes.size(); ++c) {
        rows[m].push_back(causes[c].value[m]);
        together[c] += (called.level[m] - expected) * rows[m][c] / static_cast<double>(count);
      }
    }
    const auto root = cholesky(covariance_of(rows));
    HW_CHECK(root.has_value());
    const auto slopes = solve(*root, std::move(together));
    for (std::size_t c = 0; c < causes.size(); ++c) {
      *causes[c].slope = slopes[c];
      // At what the priors state, not at what the members happen to have.
      expected += slopes[c] * (causes[c].stated - mean(causes[c].value));
      for (std::size_t m = 0; m < count; ++m) rest[m] -= slopes[c] * rows[m][c];
    }
  }
  called.line.expected_level = expected + called.used_bias;
  return rest;
}

}  // namespace

Result<VisitFact> fact_of(const VisitNames& names, const Case& head,
                          std::span<const ZoneBelief> zones, std::span<const ZoneRun> runs,
                          std::span<const CheckReading> readings, Executor& executor) {
  auto placed = place(zones, runs, readings);
  if (!placed) return tl::unexpected(placed.error());
  VisitFact fact{names.id, names.client, names.salon, names.reader, {}, {}, {}, {}, {}};
  fact.ln_rate = {head.priors.ln_rate_mean, head.priors.ln_rate_sd};
  fact.bias = {head.priors.reader_bias_mean, head.priors.reader_bias_sd};
  fact.wet_look = {head.priors.wet_look_mean_sd, head.priors.wet_look_sd};
  const HeadMembers members = before_checks(head, zones, placed->readers);
  std::vector<Called> list = first_readings(head, zones, names.reader);
  add_checks(members, placed->readings, at_readings(members, placed->readings, executor), head,
             names.reader, list);
  if (list.empty()) return fact;
  std::vector<std::vector<double>> rest(members.size());
  for (Called& called : list) {
    auto causes = causes_of(members, fact, called);
    const auto left = fit(causes, called);
    for (std::size_t m = 0; m < rest.size(); ++m) rest[m].push_back(left[m]);
  }
  Square scatter = covariance_of(rest);
  for (std::size_t i = 0; i < list.size(); ++i) {
    scatter(i, i) += list[i].scatter_sd * list[i].scatter_sd;
  }
  fact.scatter = std::move(scatter.at);
  for (Called& called : list) fact.readings.push_back(std::move(called.line));
  return fact;
}

}  // namespace hw::plan
