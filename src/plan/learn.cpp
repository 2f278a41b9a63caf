#include "huewright/plan/learn.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "huewright/base/check.h"
#include "huewright/base/elementary.h"
#include "learn_words.h"
#include "reading.h"
#include "square.h"

namespace hw::plan {
namespace {

std::size_t place_of(std::vector<Factor>& factors, FactorKind kind, const std::string& name) {
  for (std::size_t i = 0; i < factors.size(); ++i) {
    if (factors[i].kind == kind && factors[i].name == name) return i;
  }
  factors.push_back({kind, name, {0, factor_prior(kind).sd_between}, 0, {}, 0, 0});
  return factors.size() - 1;
}

/// One observation: off = Σ slope·factor + noise.
struct Row {
  std::vector<std::pair<std::size_t, double>> slopes;  ///< factor, slope
  double off = 0;
};
/// Rows whose noise goes together.
struct Block {
  std::vector<Row> rows;
  Square noise{0};
  std::string where;
};

/// Adds what one factor does: to the slopes when it is known by name, and to the noise what of it
/// changes from visit to visit, or all of it when nobody said whose it is.
void add_factor(FactorKind kind, const std::string& name, const std::vector<double>& slope,
                Block& block, std::vector<Factor>& factors) {
  const FactorPrior& prior = factor_prior(kind);
  double variance = prior.sd_visit * prior.sd_visit;
  if (name.empty()) {
    variance += prior.sd_between * prior.sd_between;
  } else {
    const std::size_t place = place_of(factors, kind, name);
    for (std::size_t k = 0; k < slope.size(); ++k) {
      if (slope[k] == 0) continue;
      block.rows[k].slopes.emplace_back(place, slope[k]);
      ++factors[place].facts;
    }
  }
  for (std::size_t i = 0; i < slope.size(); ++i) {
    for (std::size_t j = 0; j < slope.size(); ++j) {
      block.noise(i, j) += variance * slope[i] * slope[j];
    }
  }
}

void add_name(const std::string& name, std::vector<std::string>& names) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

Result<Block> block_of(const VisitFact& fact, std::vector<Factor>& factors) {
  const std::size_t count = fact.readings.size();
  Block block;
  block.where = fmt::format("visits[\"{}\"]", fact.id);
  if (fact.scatter.size() != count * count) {
    return fail(ErrorCode::conflict, "scatter has another size than the readings", block.where,
                "store the fact anew");
  }
  block.noise = Square(count);
  block.noise.at = fact.scatter;
  block.rows.resize(count);
  std::vector<double> rate(count), wet(count);
  std::vector<std::string> readers, zones;
  for (std::size_t k = 0; k < count; ++k) {
    const FactReading& reading = fact.readings[k];
    rate[k] = reading.per_ln_rate;
    wet[k] = reading.per_wet_look;
    const double used_bias = reading.reader == fact.reader ? fact.bias.mean : 0;
    block.rows[k].off = reading.found_level - reading.expected_level +
                        reading.per_ln_rate * fact.ln_rate.mean + reading.per_bias * used_bias +
                        reading.per_wet_look * fact.wet_look.mean +
                        reading.per_ln_pigment * reading.used_ln_pigment;
    add_name(reading.reader, readers);
    if (reading.per_ln_pigment != 0) add_name(reading.zone, zones);
  }
  add_factor(FactorKind::salon_rate, fact.salon, rate, block, factors);
  add_factor(FactorKind::client_rate, fact.client, rate, block, factors);
  add_factor(FactorKind::wet_look, fact.salon, wet, block, factors);
  for (const std::string& zone : zones) {
    std::vector<double> pigment(count, 0), rest(count, 0);
    for (std::size_t k = 0; k < count; ++k) {
      if (fact.readings[k].zone != zone) continue;
      pigment[k] = fact.readings[k].per_ln_pigment;
      rest[k] = fact.readings[k].per_rest;
    }
    const std::string name = fact.client.empty() ? "" : factor_name(fact.client, zone);
    add_factor(FactorKind::client_pigment, name, pigment, block, factors);
    add_factor(FactorKind::client_rest, name, rest, block, factors);
  }
  for (const std::string& reader : readers) {
    std::vector<double> bias(count, 0);
    for (std::size_t k = 0; k < count; ++k) {
      if (fact.readings[k].reader == reader) bias[k] = fact.readings[k].per_bias;
    }
    add_factor(FactorKind::reader_bias, reader, bias, block, factors);
  }
  return block;
}

Result<Block> block_of(const ShadeFact& fact, std::vector<Factor>& factors) {
  Block block;
  block.where = fmt::format("shades[\"{}\"]", fact.id);
  if (!(fact.sd_lstar > 0)) {
    return fail(ErrorCode::out_of_range, "sd_lstar is not above 0", block.where, "store it anew");
  }
  block.noise = Square(1);
  block.noise(0, 0) = fact.sd_lstar * fact.sd_lstar;
  block.rows.resize(1);
  block.rows[0].off =
      fact.found_lstar - fact.expected_lstar + fact.per_ln_strength * fact.used_ln_strength;
  add_factor(FactorKind::shade_strength, fact.shade, {fact.per_ln_strength}, block, factors);
  return block;
}

Result<Block> block_of(const PairFact& fact, std::vector<Factor>& factors) {
  constexpr double kInstrumentSdLevels = 0.25;  // 1.3 L* where rungs stand about five L* apart
  Block block;
  block.where = fmt::format("pairs[\"{}\"]", fact.id);
  block.noise = Square(1);
  block.noise(0, 0) = kEyeSdLevels * kEyeSdLevels + kInstrumentSdLevels * kInstrumentSdLevels;
  block.rows.resize(1);
  block.rows[0].off = fact.eye_level - fact.instrument_level;
  add_factor(FactorKind::reader_bias, fact.reader, {1}, block, factors);
  return block;
}

Result<Block> block_of(const AmountFact& fact, std::vector<Factor>& factors) {
  Block block;
  block.where = fmt::format("amounts[\"{}\"]", fact.id);
  if (!(fact.reckoned_g > 0 && fact.used_g > 0 && fact.used_factor > 0)) {
    return fail(ErrorCode::out_of_range, "grams are not above 0", block.where,
                "weigh what was mixed and what was left over");
  }
  block.noise = Square(1);
  block.rows.resize(1);
  block.rows[0].off = log_portable(fact.used_g / fact.reckoned_g * fact.used_factor);
  add_factor(FactorKind::salon_amount, fact.salon, {1}, block, factors);
  return block;
}

/// Certainty of the factors and certainty times mean.
struct Information {
  Square certainty;
  std::vector<double> weighted;
};

/// Adds a block's lesson: Hᵀ·noise⁻¹·H and Hᵀ·noise⁻¹·off.
Result<void> add_block(const Block& block, Information& sum) {
  const auto root = cholesky(block.noise);
  if (!root) {
    return fail(ErrorCode::conflict, "scatter is no covariance", block.where,
                "store the fact anew");
  }
  const Square precision = inverse(*root);
  for (std::size_t i = 0; i < block.rows.size(); ++i) {
    for (std::size_t j = 0; j < block.rows.size(); ++j) {
      for (const auto& [f, one] : block.rows[i].slopes) {
        sum.weighted[f] += one * precision(i, j) * block.rows[j].off;
        for (const auto& [g, two] : block.rows[j].slopes) {
          sum.certainty(f, g) += one * precision(i, j) * two;
        }
      }
    }
  }
  return {};
}

/// What a reading of each factor is like.
void typical_readings(const std::vector<Block>& blocks, std::vector<Factor>& factors) {
  for (const Block& block : blocks) {
    for (std::size_t i = 0; i < block.rows.size(); ++i) {
      for (const auto& [f, slope] : block.rows[i].slopes) {
        const auto count = static_cast<double>(factors[f].facts);
        factors[f].per_unit += std::abs(slope) / count;
        factors[f].sd_reading += block.noise(i, i) / count;
      }
    }
  }
  for (Factor& factor : factors) factor.sd_reading = std::sqrt(factor.sd_reading);
}

template <class Fact>
Result<void> collect(const std::vector<Fact>& facts, std::vector<Factor>& factors,
                     std::vector<Block>& blocks) {
  std::set<std::string> ids;
  for (const Fact& fact : facts) {
    auto block = block_of(fact, factors);
    if (!block) return tl::unexpected(block.error());
    for (const Row& row : block->rows) {
      const bool finite = std::isfinite(row.off) &&
                          std::all_of(row.slopes.begin(), row.slopes.end(), [](const auto& slope) {
                            return std::isfinite(slope.second);
                          });
      if (!finite) {
        return fail(ErrorCode::out_of_range, "a number of this fact is none", block->where,
                    "store the fact anew");
      }
    }
    if (!ids.insert(fact.id).second) {
      return fail(ErrorCode::conflict, "two facts of one id", block->where, "count each once");
    }
    if (!block->rows.empty()) blocks.push_back(*std::move(block));
  }
  return {};
}

/// Puts what drills say into the priors of their readers. Factors that no reading spoke of come
/// after all others, so that nothing else is reckoned in another order.
Result<void> add_practice(const std::vector<PracticeFact>& all, std::vector<Factor>& factors) {
  for (const PracticeFact& fact : all) {
    const std::string where = fmt::format("practice[\"{}\"]", fact.reader);
    if (!(fact.sd_levels > 0) || !std::isfinite(fact.sd_levels) ||
        !std::isfinite(fact.off_levels) || fact.answers == 0 || fact.reader.empty()) {
      return fail(ErrorCode::out_of_range, "drills that say nothing", where,
                  "leave out who answered none");
    }
    Factor& factor = factors[place_of(factors, FactorKind::reader_bias, fact.reader)];
    if (factor.practice > 0) {
      return fail(ErrorCode::conflict, "two facts of one reader", where, "count each answer once");
    }
    factor.practice = fact.answers;
    factor.learned = updated(factor.learned, fact.off_levels, fact.sd_levels);
  }
  return {};
}

/// Certainty that practice gave, of all that came to the spread of all readers.
double practice_share(const Factor& factor, double prior_sd) {
  if (factor.practice == 0) return 0;
  const auto certainty = [](double sd) { return 1 / (sd * sd); };
  const double before = certainty(factor_prior(factor.kind).sd_between);
  return std::clamp((certainty(prior_sd) - before) / (certainty(factor.learned.sd) - before), 0.0,
                    1.0);
}

}  // namespace

NormalBelief updated(const NormalBelief& prior, double seen, double sd_each, std::size_t count) {
  const double before = 1 / (prior.sd * prior.sd);
  const double by_seen = static_cast<double>(count) / (sd_each * sd_each);
  return {(before * prior.mean + by_seen * seen) / (before + by_seen),
          1 / std::sqrt(before + by_seen)};
}

const Factor* Learned::find(FactorKind kind, const std::string& name) const {
  for (const Factor& factor : factors) {
    if (factor.kind == kind && factor.name == name) return &factor;
  }
  return nullptr;
}

Result<Learned> learn(const Facts& facts) {
  Learned learned;
  std::vector<Block> blocks;
  if (auto fine = collect(facts.visits, learned.factors, blocks); !fine) {
    return tl::unexpected(fine.error());
  }
  if (auto fine = collect(facts.shades, learned.factors, blocks); !fine) {
    return tl::unexpected(fine.error());
  }
  if (auto fine = collect(facts.pairs, learned.factors, blocks); !fine) {
    return tl::unexpected(fine.error());
  }
  if (auto fine = collect(facts.amounts, learned.factors, blocks); !fine) {
    return tl::unexpected(fine.error());
  }
  if (auto fine = add_practice(facts.practice, learned.factors); !fine) {
    return tl::unexpected(fine.error());
  }
  const std::size_t count = learned.factors.size();
  Information sum{Square(count), std::vector<double>(count, 0)};
  for (std::size_t f = 0; f < count; ++f) {
    const NormalBelief& prior = learned.factors[f].learned;
    sum.certainty(f, f) = 1 / (prior.sd * prior.sd);
    sum.weighted[f] = prior.mean * sum.certainty(f, f);
  }
  typical_readings(blocks, learned.factors);
  for (const Block& block : blocks) {
    if (auto fine = add_block(block, sum); !fine) return tl::unexpected(fine.error());
  }
  const auto root = cholesky(sum.certainty);
  HW_CHECK(root.has_value());  // prior certainties are above 0
  const std::vector<double> mean = solve(*root, sum.weighted);
  const Square covariance = inverse(*root);
  for (std::size_t f = 0; f < count; ++f) {
    Factor& factor = learned.factors[f];
    const double prior_sd = factor.learned.sd;
    factor.learned = {mean[f], std::sqrt(covariance(f, f))};
    factor.practice_share = practice_share(factor, prior_sd);
    factor.sentence = factor_sentence(factor);
  }
  learned.covariance = covariance.at;
  return learned;
}

}  // namespace hw::plan
