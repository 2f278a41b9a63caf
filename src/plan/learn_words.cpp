#include "learn_words.h"

#include <fmt/format.h>

#include <cmath>

#include "huewright/base/elementary.h"
#include "huewright/hair/tress.h"

namespace hw::plan {
namespace {

constexpr double kNormal90 = 1.2815515655446004;  // 90 % quantile of the standard normal

std::string from_facts(std::size_t facts, const char* one, const char* many) {
  return fmt::format("from {} {}", facts, facts == 1 ? one : many);
}

double percent_of(double ln) {
  return 100 * (exp_portable(ln) - 1);
}

/// "lifts 18 % faster than usual", or that it is about usual when the sign is in doubt at a glance.
std::string by_rate(const char* who, const Factor& factor, const char* more, const char* less) {
  const double middle = percent_of(factor.learned.mean);
  const double low = percent_of(factor.learned.mean - kNormal90 * factor.learned.sd);
  const double high = percent_of(factor.learned.mean + kNormal90 * factor.learned.sd);
  constexpr double kTold = 3;  // per cent; nearer to usual is usual
  const std::string band = fmt::format("8 times in 10 within {:+.0f} to {:+.0f} %", low, high);
  if (std::abs(middle) < kTold) return fmt::format("{} about as usual ({})", who, band);
  return fmt::format("{} {:.0f} % {} than usual ({})", who, std::abs(middle),
                     middle > 0 ? more : less, band);
}

std::string of_reader(const Factor& factor) {
  constexpr double kTold = 0.05;  // levels
  const double bias = factor.learned.mean;
  if (std::abs(bias) < kTold) return "this reader's eye agrees with the hair";
  return fmt::format("this reader calls hair {:.1f} level {} than it is", std::abs(bias),
                     bias > 0 ? "lighter" : "darker");
}

/// How many readings spoke of a reader, and what of it comes from a screen.
std::string from_readings_and_drills(const Factor& factor) {
  const std::string readings = from_facts(factor.facts, "reading", "readings");
  if (factor.practice == 0) return readings;
  const std::string answers =
      from_facts(factor.practice, "answer in drills on a screen", "answers in drills on a screen");
  if (factor.facts == 0) return answers;
  return fmt::format("{}; {:.0f} % of what is known comes from drills on a screen", readings,
                     100 * factor.practice_share);
}

std::string of_wet_look(const Factor& factor) {
  const hair::MoistureShift usual = hair::moisture_shift(hair::Moisture::wet);
  return fmt::format(
      "in this salon wet hair looks {:.1f} L* darker than dry (taken before: {:.0f})",
      -(usual.lstar + usual.sd * factor.learned.mean), -usual.lstar);
}

std::string of_pigment(const Factor& factor) {
  const auto at = [&](double sds) {
    return exp_portable(factor.learned.mean + sds * factor.learned.sd);
  };
  return fmt::format(
      "natural hair of {} holds {:.1f} % of pigment (8 times in 10 within {:.1f} to {:.1f})",
      factor.name, at(0), at(-kNormal90), at(kNormal90));
}

std::string of_rest(const Factor& factor) {
  constexpr double kTold = 0.3;  // sds
  if (std::abs(factor.learned.mean) < kTold) {
    return "beside pigment and rate this client's hair lifts as usual";
  }
  return fmt::format("beside pigment and rate this client's hair comes out {} than usual",
                     factor.learned.mean > 0 ? "lighter" : "darker");
}

}  // namespace

std::string factor_sentence(const Factor& factor) {
  switch (factor.kind) {
    case FactorKind::salon_rate:
      return by_rate("bowls of this salon lift", factor, "faster", "slower") + ", " +
             from_facts(factor.facts, "check", "checks");
    case FactorKind::client_rate:
      return by_rate("this client lifts", factor, "faster", "slower") + ", " +
             from_facts(factor.facts, "check", "checks");
    case FactorKind::reader_bias:
      return of_reader(factor) + ", " + from_readings_and_drills(factor);
    case FactorKind::wet_look:
      return of_wet_look(factor) + ", " + from_facts(factor.facts, "reading", "readings");
    case FactorKind::client_pigment:
      return of_pigment(factor) + ", " + from_facts(factor.facts, "reading", "readings");
    case FactorKind::client_rest:
      return of_rest(factor) + ", " + from_facts(factor.facts, "reading", "readings");
    case FactorKind::salon_amount:
      return by_rate("bowls of this salon take", factor, "more", "less") + ", " +
             from_facts(factor.facts, "bowl", "bowls");
    case FactorKind::shade_strength:
      break;
  }
  return by_rate("this shade comes out", factor, "stronger", "weaker") + ", " +
         from_facts(factor.facts, "result", "results");
}

}  // namespace hw::plan
