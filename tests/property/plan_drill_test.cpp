// Many readers whose offset and spread are known to the test do drills: bands hold the truth as
// often as they say, and learning with drills tells readings of hair that were held out better than
// learning without.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "huewright/base/random.h"
#include "huewright/plan/drill.h"

namespace hw::plan {
namespace {

enum Stream : std::uint64_t { kOffset, kSpread, kScreen, kAnswer, kPair, kHeldOut, kShown };

double half_level(double level) {
  return std::clamp(std::round(level * 2) / 2, 1.0, 10.0);
}

/// Answers of one reader to strands of the drill, in half levels as the page takes them, or free.
std::vector<DrillAnswer> answers_of(const Draws& draws, double offset, double spread,
                                    std::size_t count, bool halves) {
  std::vector<DrillAnswer> all;
  for (std::size_t i = 0; i < count; ++i) {
    const DrillConstants& k = drill_constants();
    const double level = k.level_low + (k.level_high - k.level_low) * draws.uniform(kShown, i);
    const double shown = std::round(level * 10) / 10;
    const double read = shown + offset + spread * draws.normal(kAnswer, i);
    all.push_back({"A", shown, halves ? half_level(read) : read});
  }
  return all;
}

struct Held {
  double offset = 0, spread = 0;
};
/// Shares of readers whose truth lies in their bands; truth: (offset, spread) of a reader.
template <class Truth>
Held held(std::size_t readers, std::size_t count, bool halves, const Truth& truth) {
  const double rounding = halves ? 0.5 * 0.5 / 12 : 0;  // variance of an answer in half levels
  Held sum;
  for (std::size_t r = 0; r < readers; ++r) {
    const Draws draws(31 + r);
    const auto [offset, spread] = truth(draws);
    const ReaderEye eye = eye_of(answers_of(draws, offset, spread, count, halves));
    const double seen = std::sqrt(spread * spread + rounding);
    sum.offset += eye.offset.low <= offset && offset <= eye.offset.high ? 1 : 0;
    sum.spread += eye.spread.low <= seen && seen <= eye.spread.high ? 1 : 0;
  }
  sum.offset /= static_cast<double>(readers);
  sum.spread /= static_cast<double>(readers);
  return sum;
}

TEST(PlanDrillReaders, bands_of_readers_as_the_prior_has_them_hold_8_in_10) {
  const DrillConstants& k = drill_constants();
  const auto truth = [&](const Draws& draws) {
    double chi = 0;  // ν₀ squares of normals
    for (std::uint64_t i = 0; i < static_cast<std::uint64_t>(k.spread_weight); ++i) {
      chi += std::pow(draws.normal(kSpread, i), 2);
    }
    const double spread = k.spread_sd * std::sqrt(k.spread_weight / chi);
    return std::pair(spread / std::sqrt(k.offset_weight) * draws.normal(kOffset, 0), spread);
  };
  for (const std::size_t count : {5U, 20U, 60U}) {
    const Held share = held(3000, count, false, truth);
    fmt::print("{} answers: offset held {:.3f}, spread held {:.3f}\n", count, share.offset,
               share.spread);
    EXPECT_NEAR(share.offset, 0.8, 0.025) << count;  // 3 sds of 3000 readers
    EXPECT_NEAR(share.spread, 0.8, 0.025) << count;
  }
}

TEST(PlanDrillReaders, fixed_offsets_and_spreads_are_found_again) {
  for (const auto& [offset, spread] :
       {std::pair(0.3, 0.4), std::pair(-0.5, 0.7), std::pair(0.0, 0.25), std::pair(0.8, 0.5)}) {
    const Held share =
        held(1500, 40, true, [&](const Draws&) { return std::pair(offset, spread); });
    fmt::print("offset {:+.1f} spread {:.2f}: held {:.3f} and {:.3f}\n", offset, spread,
               share.offset, share.spread);
    EXPECT_GT(share.offset, 0.74);
    EXPECT_LT(share.offset, 0.9);
    EXPECT_GT(share.spread, 0.7);
    // More answers, nearer: the likely offset of 400 lies within a tenth of a level.
    const ReaderEye many = eye_of(answers_of(Draws(99), offset, spread, 400, true));
    EXPECT_NEAR(many.offset.mid, offset, 0.1);
  }
}

/// Squared error and log density of a held-out reading under the belief of a reader's bias.
struct Score {
  double squares = 0, log_density = 0;
  void add(const Facts& facts, double seen, double eye_sd) {
    const HeadPriors priors = priors_for(*learn(facts), "", "", "A");
    const double variance = priors.reader_bias_sd * priors.reader_bias_sd + eye_sd * eye_sd;
    const double off = seen - priors.reader_bias_mean;
    squares += off * off;
    log_density += -0.5 * std::log(variance) - off * off / (2 * variance);
  }
};

TEST(PlanDrillReaders, readings_held_out_are_told_better_with_drills) {
  const FactorPrior& prior = factor_prior(FactorKind::reader_bias);
  constexpr double kEyeSd = 0.5, kInstrumentSd = 0.25;  // levels, as PairFact has them
  constexpr std::size_t kReaders = 8000, kDrills = 20;
  for (const std::size_t pairs : {0U, 3U}) {
    Score without, with;
    double sum = 0, squares = 0;  // of the gain per reader
    for (std::size_t r = 0; r < kReaders; ++r) {
      const Draws draws(7000 + r);
      const double bias = prior.sd_between * draws.normal(kOffset, 0);
      const double screen = drill_constants().screen_sd * draws.normal(kScreen, 0);
      const auto on_hair = [&](std::uint64_t stream, std::uint64_t i) {
        return bias + prior.sd_visit * draws.normal(stream, 3 * i) +
               kEyeSd * draws.normal(stream, 3 * i + 1);
      };
      Facts facts;
      for (std::size_t i = 0; i < pairs; ++i) {
        const double instrument = 5 + kInstrumentSd * draws.normal(kPair, 3 * i + 2);
        facts.pairs.push_back({std::to_string(i), "A", 5 + on_hair(kPair, i), instrument});
      }
      const double seen = on_hair(kHeldOut, 0);
      const Score before = without, then = with;
      without.add(facts, seen, kEyeSd);
      facts.practice = {
          practice_of(eye_of(answers_of(draws, bias + screen, kEyeSd, kDrills, true)))};
      with.add(facts, seen, kEyeSd);
      const double gain = (without.squares - before.squares) - (with.squares - then.squares);
      sum += gain;
      squares += gain * gain;
    }
    const double n = kReaders;
    const double error = std::sqrt((squares / n - sum * sum / n / n) / n);
    fmt::print(
        "{} pairs: mean square {:.4f} without, {:.4f} with; gain {:.4f} ± {:.4f}; "
        "log density {:+.5f} a reading\n",
        pairs, without.squares / n, with.squares / n, sum / n, error,
        (with.log_density - without.log_density) / n);
    EXPECT_GT(sum / n, 2 * error) << pairs;
    EXPECT_GT(with.log_density, without.log_density) << pairs;
  }
}

}  // namespace
}  // namespace hw::plan
