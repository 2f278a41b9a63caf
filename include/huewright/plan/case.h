#pragma once
// What is known of one head before it is planned: the person, the zones with their readings and
// past, the wish, the shelf. Pure data; wire reads it from a case file.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/tress.h"
#include "huewright/plan/money.h"
#include "huewright/plan/target.h"
#include "huewright/process/fade.h"
#include "huewright/process/moment.h"
#include "huewright/process/person.h"
#include "huewright/process/product.h"
#include "huewright/process/remover.h"
#include "huewright/process/rules.h"
#include "huewright/process/tests_record.h"

namespace hw::plan {

/// Wear at which lightening stops, share of cystine: what 'the fibre can give'. Guess, as the limit
/// of the rule wear_over_limit.
inline constexpr double kWearLimit = 0.40;

enum class Reader { eye, instrument, photo };

/// One look at a zone: a level by eye, a Lab (or level) by an instrument, or a Lab with how sure it
/// is from a photo.
struct Reading {
  Reader by = Reader::eye;
  hair::Moisture moisture = hair::Moisture::dry;
  std::optional<double> level = {};         ///< 1–10
  std::optional<colour::HairLab> lab = {};  ///< D65/10°
  /// Of a photo's Lab, row by row: symmetric, positive definite, sds 0.05 to 50.
  std::optional<std::array<double, 9>> covariance = {};
};

/// Old artificial colour still in a zone; how much follows from the zone's readings.
struct OldColour {
  std::string tone = "neutral";  ///< "neutral", "red", "copper", "ash"
  process::OldDye kind = process::OldDye::unknown;
};

/// What was done to a zone before. Counts are services, over the fibre's whole life.
struct ZonePast {
  std::optional<OldColour> old_colour = {};
  int lightened = 0;
  int permanent_colours = 0;
  int demi_colours = 0;
};

enum class Porosity { low, usual, high, extreme };

/// A normal belief about one number.
struct NormalBelief {
  double mean = 0;
  double sd = 1;  ///< > 0
};

struct ZoneCase {
  std::string name;
  std::string section = "whole head";
  double from_cm = 0;  ///< from the scalp, stretched
  double to_cm = 1;
  std::vector<Reading> readings;  ///< at least one
  ZonePast past;
  Porosity porosity = Porosity::usual;
  double white_percent = 0;       ///< of strands, 0–100
  double water_held_g_per_g = 0;  ///< damp hair: 0.3 is towel-dry
  process::HairFacts facts;
  std::optional<double> wished_level = {};  ///< where it differs from the head's
  std::optional<Target> target = {};        ///< where it differs from the head's
  /// Movement: this zone so many levels lighter than the head's target (darker below 0), −4–4.
  double lighter_levels = 0;
  /// What past visits taught of its natural pigment [ln of % of mass]; used where untouched.
  std::optional<NormalBelief> ln_pigment = {};
};

/// What past visits taught of a client's own hair together, as one normal belief: ln of the head's
/// rate, the reader's bias [levels], then of each zone ln of its pigment [% of mass] and its rest:
/// what its hair does beside pigment and rate, in sds of a stranger's.
struct JointPrior {
  std::vector<std::string> zones;
  std::vector<double> mean;        ///< 2 + 2 · zones
  std::vector<double> covariance;  ///< row by row
};

/// What past visits taught of this head and its reader, as priors of this visit. The defaults are
/// those of nothing learned: guesses, and a strand test is the real calibration. plan/learn.h.
struct HeadPriors {
  double ln_rate_mean = 0;                  ///< of every rate of the head [ln]
  double ln_rate_sd = 0.25;                 ///< spread between heads [ln], > 0; guess
  double reader_bias_mean = 0;              ///< of the reader of the zones' readings [levels]
  double reader_bias_sd = 0.3;              ///< between days and people [levels], > 0; guess
  double wet_look_mean_sd = 0;              ///< of the wet look, in sds of hair::moisture_shift [1]
  double wet_look_sd = 1;                   ///< likewise, > 0
  std::optional<JointPrior> together = {};  ///< how these go together; its means and sds are theirs
};

/// What a course must stay inside.
struct CaseLimits {
  std::optional<double> minutes = {};  ///< in the chair, one visit, > 0
  std::optional<double> money =
      {};                       ///< of the price's likely end, all visits, in the salon's money
  double wear = kWearLimit;     ///< 90 % edge, share of cystine, 0–kWearLimit
  std::size_t most_shades = 3;  ///< of a bowl, 1–4
  int most_visits = 3;          ///< 1–5
};

/// The salon on that day.
struct Salon {
  int hands = 1;               ///< pairs at work, 1–6
  double grams_per_min = 2.7;  ///< of mix that one pair puts on; data/plan/work_rates.csv
  double amount_factor = 1;    ///< grams it really used over those reckoned, 0.2–5
  double scale_step_g = 1;     ///< what its scale can weigh, 0.01–10
  PriceList prices;
  std::vector<DepositTier> deposits;  ///< empty: no deposit is asked
};

/// How the finished colour will be lived with.
struct Habits {
  double washes_per_week = 1;  ///< > 0 to 14; textured hair about once: common practice
  process::WashHabit wash;
  double light_h_per_week = 0;     ///< at 0.35 W/m²/nm at 340 nm, ≥ 0
  double weeks_to_next = 6;        ///< to the next visit, 1–52
  double growth_um_per_day = 256;  ///< bib loussouarn_2001
};

/// How the hair is finished.
struct StyleWish {
  bool twists = true;
  double parting_cm = 0;  ///< 0: the fitting one
};

struct Case {
  std::string title;
  process::Person person;
  double strand_um = 74;        ///< equal-area diameter, 20–180
  double strand_sd_um = 8;      ///< doubt about it, > 0
  double shrinkage = 0.37;      ///< 1 − resting/stretched length, 0–0.9
  double hairs_per_cm2 = 190;   ///< mean over the head, 50–400; bib loussouarn_2001
  double scalp_area_cm2 = 580;  ///< 200–1000; from memory
  double cut_factor = 0.7;      ///< mean strand length over the longest, 0.5–1; common practice
  double room_c = 22;           ///< 10–35
  /// g of mix to a g of hair where the salon knows it; else plan/pours.h, cover_facts.
  std::optional<double> mix_per_hair = {};
  std::vector<ZoneCase> zones;
  std::optional<Target> target = {};             ///< the finished colour; none: a lift alone
  std::optional<double> wished_level = {};       ///< 1–10, to lift to; none: by the target
  std::optional<process::Moment> visit_at = {};  ///< when the first bowl would go on
  std::optional<process::Moment> asked_at = {};  ///< when this is asked; none: at the visit
  /// Dated tests and colours; none: Person::skin_test is what is known.
  std::optional<process::TestsRecord> tests = {};
  CaseLimits limits;
  Salon salon;
  Habits habits;
  StyleWish style;
  std::vector<process::Product> shelf;
  double longest_min = 45;  ///< never more of lightener in one visit
  process::RuleSettings settings;
  HeadPriors priors;
  /// What visits taught of shades [ln]: by product id. plan/learn.h.
  std::vector<std::pair<std::string, NormalBelief>> shade_strengths;
  hair::Ladder ladder = hair::default_ladder();
  std::uint64_t seed = 1;
  std::size_t members = 512;
};

/// The product of an id on the shelf; null where there is none ("water").
[[nodiscard]] const process::Product* product_of(const Case& head, const std::string& id);
/// The level a zone is to be lifted to where no search over levels is wanted [1–10]: its own wish,
/// the head's, or half a level above the target's depth, as far as the colour needs.
[[nodiscard]] double wished_level_of(const Case& head, const ZoneCase& zone);
/// What a zone is to look like in the end; empty without a target.
[[nodiscard]] std::optional<Target> target_of(const Case& head, const ZoneCase& zone);
/// Mix on a gram of hair [g/g]: the salon's own figure, or the usual one of plan/pours.h.
[[nodiscard]] double pick_up_of(const Case& head, bool lightener);

}  // namespace hw::plan
