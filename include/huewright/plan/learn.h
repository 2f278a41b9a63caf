#pragma once
// What past visits teach, as priors of the next one. A fact is what was expected of a visit's
// readings beside what was found; learning is a pure function of all facts, so striking one out and
// learning again takes its lesson back exactly.
//
// Model, linear round what was expected (docs/science/belief.md):
//   found − expected = s_r·(salon + client + visit) + s_b·(reader + day) + s_w·(salon's wet look +
//   day) + s_p·(pigment of the client's own hair) + s_h·(what else stays of the client's hair)
//   + rest,  rest ~ N(0, scatter)
// each factor normal about 0 with the sd of data/plan/learn_priors.csv; visit and day are summed
// out. A reader who did drills has a prior of her own: that one, updated by what they say. The
// result is the normal posterior: a mean drawn towards 0 the more, the less was seen.
#include <span>
#include <string>
#include <vector>

#include "huewright/plan/checks.h"
#include "huewright/process/shade.h"

namespace hw::plan {

/// Version of the model above; a stored result of another version is learned again from its facts.
inline constexpr int kLearnVersion = 1;

/// The belief after `count` readings of mean `seen`, each with sd `sd_each` > 0: the textbook
/// update with known spread. Worked: mean 6.5 sd 0.4, 25 readings of mean 5.735 and sd 0.5 give
/// 5.78, sd 0.0970. Source: bib bayes_rules_2022 ch. 5.
[[nodiscard]] NormalBelief updated(const NormalBelief& prior, double seen, double sd_each,
                                   std::size_t count = 1);

/// One reading of a visit as a straight line in what is learned.
struct FactReading {
  double expected_level = 0;  ///< at the means below, as this reader sees it
  double found_level = 0;
  double per_ln_rate = 0;      ///< levels for one ln of rate
  double per_bias = 0;         ///< levels for one level of the reader's bias
  double per_wet_look = 0;     ///< levels for one sd of the wet shift
  std::string zone;            ///< whose own pigment is learned: untouched; else empty
  double per_ln_pigment = 0;   ///< levels for one ln of it
  double used_ln_pigment = 0;  ///< ln of % of mass that was expected with
  double per_rest = 0;  ///< levels for one sd of what else stays of this hair (opening, surface, …)
  std::string reader;
};

/// The readings of one visit beside what was expected, all that learning needs of it: those of
/// untouched zones before the first bowl, checks, and the finish read as a check.
struct VisitFact {
  std::string id;  ///< of the visit; no two alike
  std::string client, salon;
  std::string reader;                    ///< who read the zones
  NormalBelief ln_rate, bias, wet_look;  ///< what it was planned with; the means are used
  std::vector<FactReading> readings;
  std::vector<double> scatter;  ///< covariance of the rest [levels²], row by row
};

/// How a shade came out: expected and found L* on a canvas, and what ln of its strength does to it.
struct ShadeFact {
  std::string id;
  std::string shade;
  double expected_lstar = 0, found_lstar = 0;
  double per_ln_strength = 0;   ///< L* for one ln, negative for a shade that darkens
  double used_ln_strength = 0;  ///< it was expected with
  double sd_lstar = 1;          ///< of expectation and reading, > 0
};

/// A level called by eye beside an instrument's on the same dry hair.
struct PairFact {
  std::string id;
  std::string reader;
  double eye_level = 0, instrument_level = 0;
};

/// Grams of mix that a bowl really took beside those reckoned (MixOrder::grams, likely).
struct AmountFact {
  std::string id;
  std::string salon;
  double reckoned_g = 0, used_g = 0;  ///< > 0; used: mixed less what was left over
  double used_factor = 1;             ///< Salon::amount_factor it was reckoned with, > 0
};

/// What drills on a screen say beforehand of a reader's bias (drill.h, practice_of): a prior of her
/// own in place of that of all readers.
struct PracticeFact {
  std::string reader;       ///< no two alike
  double off_levels = 0;    ///< answered less shown, mean; above 0: read light
  double sd_levels = 1;     ///< of that as a bias at the chair, > 0: the screen's doubt is in it
  std::size_t answers = 0;  ///< > 0
};

struct Facts {
  std::vector<VisitFact> visits;
  std::vector<ShadeFact> shades;
  std::vector<PairFact> pairs;
  std::vector<AmountFact> amounts;
  std::vector<PracticeFact> practice;
};

enum class FactorKind {
  salon_rate,
  client_rate,
  reader_bias,
  wet_look,
  shade_strength,
  salon_amount,
  client_pigment,  ///< ln of % of mass, of an untouched zone; named by factor_name
  client_rest,     ///< what an untouched zone does beside pigment and rate [sds of strangers]
};

struct FactorPrior {
  double sd_between = 1;  ///< of what stays, > 0
  double sd_visit = 0;    ///< of what does not
};
/// data/plan/learn_priors.csv: guesses.
[[nodiscard]] const FactorPrior& factor_prior(FactorKind kind);

/// Name of a client's zone among the factors.
[[nodiscard]] std::string factor_name(const std::string& client, const std::string& zone);

struct Factor {
  FactorKind kind = FactorKind::client_rate;
  std::string name;       ///< of the client, salon, reader or shade
  NormalBelief learned;   ///< ln, levels, or sds of the wet shift
  std::size_t facts = 0;  ///< readings that spoke of it
  std::string sentence;   ///< "this client lifts 18 % faster than usual, from 3 checks"
  double per_unit = 0;    ///< what one of it does to a reading, without sign, mean of its readings
  double sd_reading = 0;  ///< doubt of a reading beside all factors, root mean square of them
  std::size_t practice = 0;   ///< answers in drills that spoke of it beforehand
  double practice_share = 0;  ///< of all that is known of it beyond the spread of all, 0–1
};

struct Learned {
  int version = kLearnVersion;
  std::vector<Factor> factors;     ///< in the order their facts came
  std::vector<double> covariance;  ///< of all factors, row by row
  [[nodiscard]] const Factor* find(FactorKind kind, const std::string& name) const;
};

/// Learns from all facts. Without practice every number is what it was before there was any; with
/// it, so is every number of a reader who did none. Errors: two facts of one kind and id; a scatter
/// of another size than the readings, or one that is no covariance; an sd or grams not above 0; a
/// number that is none (each names the fact).
[[nodiscard]] Result<Learned> learn(const Facts& facts);

/// Priors of a visit of this client, in this salon, read by this person; who is not known yet gets
/// the spread of all.
[[nodiscard]] HeadPriors priors_for(const Learned& learned, const std::string& client,
                                    const std::string& salon, const std::string& reader);
/// Natural pigment of a client's untouched zone [ln of % of mass], for ZoneCase::ln_pigment; none
/// before the first fact.
[[nodiscard]] std::optional<NormalBelief> pigment_for(const Learned& learned,
                                                      const std::string& client,
                                                      const std::string& zone);
/// Strength of a shade [ln]: mean and sd for the next bowl.
[[nodiscard]] NormalBelief shade_strength_for(const Learned& learned, const std::string& shade);
/// Those of every shade that facts spoke of, for Case::shade_strengths.
[[nodiscard]] std::vector<std::pair<std::string, NormalBelief>> shade_strengths(
    const Learned& learned);
/// The shade as bowls have shown it: what facts said of its strength put to its own doubt, in place
/// of the doubt about shades in general. strength: of shade_strength_for or shade_strengths.
/// Nothing learned: the shade as it was. Worked: a shade doubtful by 0.25 and a strength of 0.2 sd
/// 0.12 become 1.22 times as strong, doubtful by 0.12.
[[nodiscard]] process::Shade with_learned(process::Shade shade, const NormalBelief& strength);
/// Likewise with what the case says of the shade's id, if anything.
[[nodiscard]] process::Shade with_learned(process::Shade shade, const Case& head);
/// Grams that this salon uses over those reckoned, for Salon::amount_factor [1, 0.2–5].
[[nodiscard]] double amount_factor_for(const Learned& learned, const std::string& salon);

/// Who a visit was with.
struct VisitNames {
  std::string id, client, salon, reader;  ///< reader: who read the zones
};
/// The case with all that was learned put in: priors, pigment of zones, shades, grams. names.id is
/// not looked at.
[[nodiscard]] Case with_learned(Case head, const Learned& learned, const VisitNames& names);
/// The fact of a visit from its belief before the run, what was applied and what was read. Readings
/// without a depth (tone words, stretch) are left out. Errors: as check().
[[nodiscard]] Result<VisitFact> fact_of(const VisitNames& names, const Case& head,
                                        std::span<const ZoneBelief> zones,
                                        std::span<const ZoneRun> runs,
                                        std::span<const CheckReading> readings, Executor& executor);

}  // namespace hw::plan
