#pragma once
// A course: one complete way to do the work, from the first bowl to the finish, over one visit or
// several. The planner makes courses; the day lays their bowls out on scale and clock
// (day_sheet.h); wire writes them. Plain data, no behaviour.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/statistics.h"
#include "huewright/colour/lab.h"
#include "huewright/plan/clock.h"
#include "huewright/plan/money.h"
#include "huewright/plan/pours.h"
#include "huewright/process/care.h"
#include "huewright/process/deposit.h"
#include "huewright/process/lift.h"
#include "huewright/process/refusal.h"
#include "huewright/process/style.h"

namespace hw::plan {

/// What a bowl is for.
enum class Purpose { lift, fill, deposit, tone, gloss, remove, chelate, strand_test };
/// "lift", "fill", "deposit", "tone", "gloss", "remove", "chelate" or "strand_test".
[[nodiscard]] std::string_view name_of(Purpose purpose);

/// What a bowl does to one zone, and when.
struct BowlZone {
  std::size_t zone = 0;  ///< of Case::zones
  /// Chemistry: minutes on its middle strand; low and high when fast and slow hair would be there
  /// (a lift), or the fewest and most that still hit. stop_min.mid is what is simulated.
  Band stop_min;
  /// A lift: likely hair is within half a level of its aim from here to there; 0 and 0: not known.
  double least_min = 0, most_min = 0;
  double grams = 0;  ///< of mix on its hair and scalp, likely
  /// Clock, minutes from the first application of its visit; filled by lay_out().
  ZoneTimes times;
  std::vector<double> again_at_min = {};  ///< when each further mix goes on; filled by lay_out()
};

/// One mix and what it is put on.
struct CourseBowl {
  int visit = 1;
  Purpose purpose = Purpose::lift;
  std::vector<BowlPart> parts;  ///< by mass, in the order of pouring
  int mixes = 1;                ///< mixed fresh so often, in equal shares, one after another
  double peroxide_percent = 0;  ///< of the ready mix
  double powder_percent = 0;
  std::optional<double> label_min = {};  ///< most minutes by its label
  std::vector<BowlZone> zones;           ///< those it goes on, in the order of the case
  /// What it is to chemistry. A lift: one entry per mix on `zones[i]`; a colour: deposit and pours.
  std::vector<std::vector<process::Application>> applications;
  std::optional<process::DepositBowl> deposit = {};
  std::vector<process::Poured> pours;
  bool on_scalp = false;
  /// Grams, in whole steps of the scale; filled by lay_out().
  PouredBowls poured;
  double order_g = 0;  ///< upper band of what may be needed
  double cost = 0;     ///< of what is poured
};

/// A colour with what is not known of it.
struct ColourBand {
  Band level;
  colour::HairLab lab;       ///< of the member nearest the median L*
  colour::HairLab lab_low;   ///< mean of the members nearest the 10 % of L*
  colour::HairLab lab_high;  ///< mean of the members nearest the 90 % of L*
};

/// Wear that is none: what a deposit without peroxide adds is nothing, and what a demi colour adds
/// is below what any measurement tells [share of cystine]; guess.
inline constexpr double kNoWear = 0.005;

/// A zone through the course. Colours as seen, whites among the strands.
struct CourseZone {
  std::string zone;
  ColourBand now;
  std::optional<ColourBand> after_lift = {};
  double reached_half = 0;  ///< chance that the lift ends within half a level of its aim, 0–1
  bool left_alone = false;  ///< no lift goes on it
  ColourBand result;
  Band wear;                       ///< share of cystine at the end, whole life
  double wear_added = 0;           ///< mean; below kNoWear nothing is spent
  double strength_left_low = 1;    ///< wet strength left of what there is today, 10 % quantile
  double expected_de00 = 0;        ///< of the result to the middle of the target; 0 without one
  double within_3 = 0;             ///< chance of CIEDE2000 3 or less, 0–1
  std::size_t nearest_member = 0;  ///< the one a chart draws
};

/// What washing and light leave of a zone.
struct FadedZone {
  std::size_t wash = 0;
  std::string zone;
  colour::HairLab lab;  ///< of the same member
  double de00 = 0;      ///< from wash 0
  double de76 = 0;
};

/// A border between two zones of one section.
struct BorderRisk {
  std::string from, to;  ///< names of the zones, scalp outward
  double expected_de00 = 0;
  double wanted_de00 = 0;  ///< the movement asked for
  double risk = 0;         ///< chance that it shows more than 3 beyond what is wanted, 0–1
};

/// How a course differs from others.
enum class CourseKind {
  leave_alone,    ///< nothing lifted, nothing deposited: protect, trim
  gloss,          ///< clear or a sheer colour
  colour_only,    ///< deposit on the hair as it is
  soap_cap,       ///< a gentle lift, then colour
  lighten,        ///< lightener, then colour
  lighten_twice,  ///< fresh mix at half time
  shampoo_lift,   ///< developer and shampoo
  remove_then_colour,
  staged,  ///< several visits
};
[[nodiscard]] std::string_view name_of(CourseKind kind);

/// One visit of a course, laid out.
struct VisitDay {
  Band minutes;  ///< in the chair
  Band price;    ///< to the client
  Day day;
  std::vector<process::CareStep> care;
  std::optional<process::TwistPlan> twists = {};
  Band hood_min;
  std::vector<std::string> notes;  ///< of the clock
};

/// How a course came about, so that its rest can be planned again.
struct CourseOrigin {
  std::vector<std::size_t> recipe;  ///< of each zone: index of the shelf's distinct lift recipes
  std::vector<double> wish;         ///< depth that its lift aims at, of each zone [level]
  std::optional<std::size_t> option = {};  ///< index of the shelf's colour options
};

/// What each level counts that a lift alone ends short [CIEDE2000]; guess: about a level's
/// distance.
inline constexpr double kShortLevel = 5;

/// Slack of a course in which no minute matters.
inline constexpr double kNoHurry = 60;

struct Course {
  CourseKind kind = CourseKind::colour_only;
  std::string name;      ///< the bowls in words
  std::string sentence;  ///< its trade-off
  bool draft = false;    ///< something must be met first
  int visits = 1;
  std::vector<CourseBowl> bowls;  ///< in the order of use
  std::vector<CourseZone> zones;  ///< in the order of the case
  std::vector<FadedZone> fade;    ///< at washes 10, 20, 30, zone by zone
  std::vector<BorderRisk> borders;
  std::vector<process::Refusal> refusals;  ///< that stand against it alone
  std::vector<process::Refusal> cautions;
  std::vector<std::string> notes;  ///< filler, warmth kept, white share, … a sentence each
  /// Over the zones, by hair. Of a lift alone: kShortLevel for each level that a zone ends short.
  double expected_de00 = 0;
  double within_3 = 0;   ///< of the least likely zone
  double wear_high = 0;  ///< 90 % edge of the most worn zone
  /// Developer of a lift above the mildest on a sensitive scalp or thin edges [%], the worst zone.
  double harsh_percent = 0;
  /// Minutes that the most hurried lift may be off either way before it misses by half a level;
  /// more is easier to hit. kNoHurry without a lift.
  double slack_min = kNoHurry;
  CourseOrigin origin;  ///< of its first visit
  /// Filled by lay_out().
  std::vector<VisitDay> days;  ///< one per visit
  Band minutes;                ///< in the chair, all visits together
  Band cost;                   ///< to the client, all visits together
  Quote quote;
  Band year_cost;  ///< keeping it for a year
};

}  // namespace hw::plan
