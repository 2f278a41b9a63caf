#pragma once
// The salon as its owner set it up: what it is called, who works there, its money and its prices.
#include <string>
#include <vector>

#include "huewright/book/fact.h"
#include "huewright/book/store.h"
#include "huewright/plan/case.h"

namespace hw::book {

/// A later one replaces an earlier one whole.
struct SalonFact {
  static constexpr About kAbout = About::salon;
  static constexpr std::string_view kKind = "salon";
  static constexpr std::string_view kWhat = "the salon: name, people, money, prices";
  std::string name;
  std::string currency = "EUR";          ///< ISO 4217: three letters
  std::vector<std::string> people;       ///< who writes in the book
  std::vector<std::string> chairs;       ///< what its places are called
  std::string emergency_number = "112";  ///< dialled when a client cannot breathe
  plan::Salon plan;                      ///< hands, scale, prices: as a case has it
};
void describe(wire::Object& object, SalonFact& fact);

/// What its facts are about. Not the salon's learning, which grows with every visit.
inline constexpr std::string_view kSalonSubject = "settings";

/// The salon as it is now; a new one before anything was said. Errors: io.
[[nodiscard]] Result<SalonFact> salon_of(Store& store);

}  // namespace hw::book
