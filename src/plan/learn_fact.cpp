// From a visit's members to straight lines in what is learned.
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

/// What is regressed on: rate, the reader's bias, wet look.
constexpr std::size_t kCauses = 3;

/// Readings of a depth, as each member calls them.
struct Called {
  std::vector<const PlacedReading*> readings;
  std::vector<double> found, scatter_sd;
  std::vector<std::vector<double>> level;  ///< by reading and member
};

Called called_by(const HeadMembers& members, const std::vector<PlacedReading>& readings,
                 const std::vector<AtReading>& at, const hair::Ladder& ladder) {
  constexpr double kInstrumentSdLevels = 0.25;  // 1.3 L* where rungs stand about five L* apart
  Called called;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const CheckReading& reading = *readings[i].reading;
    if (!reading.level && !reading.lab) continue;
    called.readings.push_back(&readings[i]);
    called.found.push_back(reading.lab ? ladder.level_of(reading.lab->l) : *reading.level);
    called.scatter_sd.push_back(reading.lab ? kInstrumentSdLevels : kEyeSdLevels);
    std::vector<double> level(members.size());
    for (std::size_t m = 0; m < level.size(); ++m) {
      level[m] = called_level(members, readings[i], at[i].dry[m].l, m, ladder);
      if (reading.lab) level[m] -= members.bias[readings[i].reader][m];  // an instrument has none
    }
    called.level.push_back(std::move(level));
  }
  return called;
}

/// Least squares of one reading on its causes.
std::vector<double> slopes_of(const std::vector<std::vector<double>>& causes,
                              const std::vector<double>& level) {
  const auto root = cholesky(covariance_of(causes));
  HW_CHECK(root.has_value());
  const double share = 1 / static_cast<double>(level.size());
  const double middle = mean(level);
  std::vector<double> together(kCauses, 0);
  for (std::size_t m = 0; m < level.size(); ++m) {
    for (std::size_t c = 0; c < kCauses; ++c) {
      together[c] += share * (level[m] - middle) * causes[m][c];
    }
  }
  return solve(*root, std::move(together));
}

std::vector<std::vector<double>> causes_of(const HeadMembers& members, std::size_t reader) {
  std::vector<std::vector<double>> rows(members.size());
  for (std::size_t m = 0; m < rows.size(); ++m) {
    rows[m] = {log_portable(members.zones.front().origin.head_rate[m]), members.bias[reader][m],
               members.wet_look[m]};
  }
  return rows;
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
  const auto at = at_readings(members, placed->readings, executor);
  const Called called = called_by(members, placed->readings, at, head.ladder);
  std::vector<std::vector<double>> rest(members.size());
  for (std::size_t k = 0; k < called.readings.size(); ++k) {
    const PlacedReading& reading = *called.readings[k];
    const auto causes = causes_of(members, reading.reader);
    const auto slope = slopes_of(causes, called.level[k]);
    FactReading line;
    line.found_level = called.found[k];
    line.per_ln_rate = slope[0];
    line.per_bias = slope[1];
    line.per_wet_look = slope[2];
    line.reader = reading.reading->reader.empty() ? names.reader : reading.reading->reader;
    // Expected at the means that the priors state, not at those that the members happen to have.
    const double bias_mean = reading.reader == 0 ? fact.bias.mean : 0;
    const std::vector<double> stated = {fact.ln_rate.mean, bias_mean, fact.wet_look.mean};
    double expected = mean(called.level[k]);
    std::vector<double> middle(kCauses, 0);
    for (const auto& row : causes) {
      for (std::size_t c = 0; c < kCauses; ++c) {
        middle[c] += row[c] / static_cast<double>(causes.size());
      }
    }
    for (std::size_t c = 0; c < kCauses; ++c) expected += slope[c] * (stated[c] - middle[c]);
    line.expected_level = expected;
    for (std::size_t m = 0; m < rest.size(); ++m) {
      double off = called.level[k][m];
      for (std::size_t c = 0; c < kCauses; ++c) off -= slope[c] * causes[m][c];
      rest[m].push_back(off);
    }
    fact.readings.push_back(std::move(line));
  }
  if (fact.readings.empty()) return fact;
  Square scatter = covariance_of(rest);
  for (std::size_t k = 0; k < called.scatter_sd.size(); ++k) {
    scatter(k, k) += called.scatter_sd[k] * called.scatter_sd[k];
  }
  fact.scatter = std::move(scatter.at);
  return fact;
}

}  // namespace hw::plan
