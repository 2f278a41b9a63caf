#pragma once
// Parts of a visit told again that rest on the model.
#include <map>
#include <string>
#include <vector>

#include "huewright/book/replay.h"

namespace hw::book {

/// "Wish: mahogany", and what was to be settled about it.
[[nodiscard]] std::vector<std::string> wish_of(const plan::Case& head);
/// The zones as they were believed before the first bowl. source.plan: there.
[[nodiscard]] std::vector<ReplayZone> zones_now(const ReplaySource& source);
/// What was chosen, what else there was, what was left out and why. source.plan: there; chosen:
/// null where nothing was.
void put_plan(const ReplaySource& source, const plan::Course* chosen, ReplayStep& into);
/// What the lesson of this visit moved, beside what the salon knew without it.
[[nodiscard]] std::vector<std::string> lessons_told(const ReplaySource& source,
                                                    const VisitState& visit);

/// The looks of a visit, one moment after another, each planned on from.
class ReplayLooks {
 public:
  /// course: that was chosen; null: looks are told without what they changed.
  ReplayLooks(const ReplaySource& source, const plan::Course* course, Executor& executor);
  /// Takes the looks of one moment in, with what was expected of them and what they changed.
  void take(std::span<const Fact> looks, ReplayStep& into);
  [[nodiscard]] std::size_t counted() const { return readings_.size(); }
  /// When a zone is to be off by the plan that stands [min from the first stroke].
  [[nodiscard]] std::optional<double> stop_of(const std::string& bowl,
                                              const std::string& zone) const;

 private:
  /// What of a plan looks may change.
  struct Standing {
    std::map<std::pair<std::string, std::string>, double> stops;  ///< by bowl and zone [min]
    double rate = 1;                                              ///< of the head, median
    std::vector<std::string> notes;
    std::vector<process::Refusal> findings;
  };
  [[nodiscard]] Standing standing_of(const plan::HeadPlan& plan, const plan::Course& course) const;
  void compare(const Standing& after, ReplayStep& into) const;

  const ReplaySource& source_;
  const plan::Course* course_;
  Executor& executor_;
  std::string first_stroke_;
  std::vector<plan::CheckReading> readings_;  ///< so far
  Standing standing_;
};

}  // namespace hw::book
