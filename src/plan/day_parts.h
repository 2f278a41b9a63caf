#pragma once
// The parts of a day sheet: which bowls run side by side, their grams, their clock, the visit.
#include <map>
#include <string>
#include <vector>

#include "huewright/plan/day_sheet.h"

namespace hw::plan {

/// How bowls of a visit stand to one another.
enum class Work { strand_test, lift, fill, colour };
[[nodiscard]] Work work_of(Purpose purpose);
/// True when it holds lightener, or lifts without: its pick-up, its checks.
[[nodiscard]] bool is_lightener(const CourseBowl& bowl);
/// Mixes that a zone of a bowl takes: its applications where they are said, else all of the bowl's.
[[nodiscard]] int mixes_on(const CourseBowl& bowl, std::size_t zone);

/// Bowls of one visit that run side by side, and when.
struct DayStage {
  Work work = Work::lift;
  std::vector<std::size_t> bowls;  ///< of the course
  double starts_at = 0;            ///< first application [min of the visit]
  double applied_by = 0;           ///< of its last mix
  double rinse_at = 0;             ///< last stop
  double again_from = 0;           ///< when all that gets fresh mix is wiped of the mix before
  double hands_on = 0;             ///< minutes of putting on, all mixes
  double chemistry_early = 0;      ///< minutes that fast hair would end sooner, lifts only
  double chemistry_late = 0;       ///< minutes that slow hair would take longer, lifts only
  int mixings = 1;
  std::vector<std::string> notes;
};

/// Stages of a visit, in the order of its bowls.
[[nodiscard]] std::vector<DayStage> stages_of(const Course& course, int visit);
/// Runs the clock of a visit's stages and fills the times of their zones. grams must be filled.
[[nodiscard]] Result<void> run_clock(const Case& head, Course& course,
                                     std::vector<DayStage>& stages);
/// True when hair is cleansed before the first colour: semi or demi colour, and no lift before it.
[[nodiscard]] bool cleansed_first(const Case& head, const Course& course,
                                  const std::vector<DayStage>& stages);
/// Minutes between two stages: rinse, wash or wipe, and mixing.
[[nodiscard]] double minutes_between(const Case& head, Work before);

/// Grams of each bowl's zones, likely; fills BowlZone::grams and gives each bowl's order.
[[nodiscard]] Result<MixOrder> weigh_out(const Case& head, CourseBowl& bowl);
/// What is left on the shelf by product; products of unlimited stock are not there.
using Stock = std::map<std::string, double>;
[[nodiscard]] Stock stock_of(const Case& head);
/// Pours a bowl from what is left and takes it off. Times must be filled.
[[nodiscard]] Result<void> pour(const Case& head, CourseBowl& bowl, const MixOrder& order,
                                Stock& left, std::vector<std::string>& notes);

/// A visit laid out, and its money.
struct LaidVisit {
  VisitDay day;
  VisitMoney money;
};
/// orders: of every bowl of the course.
[[nodiscard]] Result<LaidVisit> lay_visit(const Case& head, const Course& course,
                                          const std::vector<MixOrder>& orders,
                                          const std::vector<DayStage>& stages);

/// All visits: grams, clock, day and money; no year.
[[nodiscard]] Result<std::vector<LaidVisit>> lay_visits(const Case& head, Course& course);
/// What keeping the finished colour for a year costs. Guesses: docs/adr/0015-day-sheet.md.
[[nodiscard]] Result<Band> year_of(const Case& head, const Course& course,
                                   const std::vector<LaidVisit>& visits);

/// The error of a bowl, with its purpose before where it lies.
[[nodiscard]] Error at_bowl(Error error, Purpose purpose);

}  // namespace hw::plan
