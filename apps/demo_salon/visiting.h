#pragma once
// One visit in the making, and the parts of its day.
#include "chair.h"
#include "client.h"

namespace hw::demo {

inline constexpr double kMinutesPerDay = 1440;

/// One visit in the making.
struct Visiting {
  const Salon& salon;
  const Slot& slot;
  Client& client;
  const Colourist& who;
  std::string id;
  process::Moment start;
  Pen pen;
  Chance chance;
  double bias_today = 0;

  template <class Body>
  book::Fact& note(const process::Moment& at, const Body& body) {
    return pen.note(id, at, who.name, body);
  }
};

/// Time brings the hidden hair to the morning of the visit; at the first one it comes to be.
[[nodiscard]] Result<void> meet_hair(Visiting& now, const plan::Case& head);
/// What is looked at before anything is mixed; it goes into the case. The first readings are those
/// of the consultation.
void read_before(Visiting& now, wire::CaseFile& file);
/// Tests that a rule wants on the day: a strand after a relaxer, a strand against metal salts.
void test_strands(Visiting& now, wire::CaseFile& file);
/// Reads the finish; nobody reads every zone every time. course: null where none was chosen.
void read_finish(Visiting& now, const plan::Case& head, const plan::Course* course,
                 const process::Moment& at, std::vector<TrueEnd>& ends);
/// Trim, style and what the client takes home.
void finish_hair(Visiting& now, const plan::Case& head, const process::Moment& at);
/// Takes money: the whole as a rule, later or in part now and then.
void take_money(Visiting& now, double price, const std::string& how, const process::Moment& at);
/// What happens to a visit that does not take place. True: it does not.
[[nodiscard]] bool stays_away(Visiting& now);
/// What comes to light after the visit.
void afterwards(Visiting& now, const Went& went, const process::Moment& end);
/// The fold of the visit, and the lesson when it has one.
void conclude(Visiting& now, const process::Moment& end, Written& written);

}  // namespace hw::demo
