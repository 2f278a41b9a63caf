#pragma once
// The pieces of a case file: person, zone, product, salon, dates, wish.
#include "huewright/plan/case.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

void describe_person(Object& object, process::Person& person);
/// "limits", "salon", "habits", "style".
void describe_frame(Object& object, plan::Case& head);
/// "visit_at", "asked_at", "tests".
void describe_dates(Object& object, plan::Case& head);
/// "target", where it is given.
void describe_target(Object& object, std::string_view what, std::optional<TargetGiven>& target);
/// A colour, where it is given.
void describe_lab(Value& value, std::optional<colour::HairLab>& lab);

/// The shelf, each product having what its kind needs; a colour's level filled in.
[[nodiscard]] Result<void> check_shelf(std::vector<process::Product>& shelf,
                                       const hair::Ladder& ladder);
/// Fills the targets of head and zones. Error: a look nobody knows, or nothing wished for.
[[nodiscard]] Result<void> fill_targets(plan::Case& head, const CaseFile& file);
/// Fills what follows from the dates. Errors: times out of order, tests without a visit.
[[nodiscard]] Result<void> check_dates(plan::Case& head);

}  // namespace hw::wire

// describe() of a list's entries is found through their types.
namespace hw::process {
void describe(wire::Object& object, OwnLimit& limit);
void describe(wire::Object& object, ColourName& colour);
void describe(wire::Object& object, SkinTestRecord& test);
void describe(wire::Object& object, ColourVisit& visit);
void describe(wire::Object& object, TestsRecord& record);
}  // namespace hw::process
namespace hw::plan {
void describe(wire::Object& object, ZoneCase& zone);
void describe(wire::Object& object, Reading& reading);
void describe(wire::Object& object, DepositTier& tier);
void describe(wire::Object& object, PriceList& prices);
void describe(wire::Object& object, CaseLimits& limits);
void describe(wire::Object& object, Habits& habits);
void describe(wire::Object& object, StyleWish& style);
}  // namespace hw::plan
