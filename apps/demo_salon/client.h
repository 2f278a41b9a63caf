#pragma once
// A client as the salon and as nature know them, and what a day adds.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "heads.h"
#include "huewright/book/lessons.h"
#include "huewright/book/next_case.h"
#include "huewright/wire/plan_answer.h"
#include "schedule.h"
#include "truth.h"

namespace hw::demo {

struct Client {
  std::size_t number = 0;
  std::string id;
  FirstHead first;
  HiddenClient hidden;
  std::optional<Truth> truth;  ///< from the first visit on
  std::optional<process::Moment> truth_at;
  std::string wish;                    ///< another look than the last one; empty: as before
  std::vector<std::string> oxidative;  ///< shades of the last colour, or those it lacked a test of
  bool untested = false;               ///< the latter
  std::optional<Date> coloured_on;
  std::vector<book::Fact> facts;         ///< about the client, in their order
  std::vector<book::VisitState> visits;  ///< last first
  /// Facts of visits that are booked, until they are over.
  std::map<std::size_t, std::vector<book::Fact>> open;
};

/// What all of a fortnight's work knows.
struct Salon {
  std::uint64_t seed = 1;
  std::size_t members = 64;
  std::string program;  ///< its version
  std::array<Colourist, 3> people;
  std::vector<Slot> slots;
  std::vector<std::string> visit_ids;  ///< one per slot
  std::vector<book::OnShelf> shelf;    ///< as the fortnight starts
  plan::Facts lessons;                 ///< of the latest visits
};

/// The colour that a zone really had when a visit ended, beside what its plan expected.
struct TrueEnd {
  std::string visit, zone;
  Band expected;       ///< level
  double level = 0;    ///< true
  double found = 0;    ///< as it was read; 0: nobody read it
  bool first = false;  ///< of the client
};

/// What one consultation or visit leaves.
struct Written {
  std::vector<book::Fact> facts;
  std::optional<book::LessonFact> lesson;
  std::vector<TrueEnd> ends;
  std::string fault;  ///< why it could not be planned at all; empty as a rule
};

/// The next slot of a client after one; none: it was the last.
[[nodiscard]] std::optional<std::size_t> next_slot(const Salon& salon, const Slot& slot);

/// The first call of a client: who it is, what is wished, what is agreed to, when to come.
[[nodiscard]] Written first_call(const Salon& salon, const Slot& slot, Client& client);
/// A week before a first visit or a new wish: a plan, a quote, skin tests, the deposit.
[[nodiscard]] Written consult(const Salon& salon, const Slot& slot, Client& client);
/// When a slot is talked over, where it is.
[[nodiscard]] std::optional<process::Moment> consult_at(const Slot& slot);
/// The visit itself, and the booking of the next one.
[[nodiscard]] Written visit(const Salon& salon, const Slot& slot, Client& client);

/// Books a client's next slot from a moment on, with the skin tests that will be due by then.
void book_next(const Salon& salon, const Slot& slot, const process::Moment& from, Client& client,
               Pen& pen);
/// Puts shades on the skin and reads them, two days on. late: too early to count.
void test_skin(const Salon& salon, const std::vector<std::string>& shades,
               const process::Moment& applied, bool late, const std::string& by, Client& client,
               Pen& pen);

/// The case of a slot, as the book has it and as the client wishes it.
[[nodiscard]] Result<wire::CaseFile> case_for(const Salon& salon, const Slot& slot,
                                              const Client& client);
/// A case planned with all that visits taught.
struct Planned {
  wire::PlanAnswer answer;
  std::size_t course = 0;  ///< chosen, from 1; 0: none can be
};
[[nodiscard]] Result<Planned> plan_for(const Salon& salon, const Slot& slot, const Client& client,
                                       const wire::CaseFile& file);

/// Shades of the first courses' bowls that a plan wants tested first.
[[nodiscard]] std::vector<std::string> to_test(const Planned& planned);

/// When a slot starts.
[[nodiscard]] process::Moment starts(const Slot& slot);
/// What a visit costs by a course, in whole steps of the salon's quotes.
[[nodiscard]] double price_of(const plan::Case& head, const plan::Course& course, double factor);

}  // namespace hw::demo
