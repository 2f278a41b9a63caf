#pragma once
// What stands on the shelf and what moves on it, and what the salon learned. Each struct is the
// body of one kind of fact.
#include <cstdint>
#include <string>

#include "huewright/book/fact.h"
#include "huewright/process/product.h"

namespace hw::book {

/// A product: its chemistry, the words printed on it, its size and price. A later one replaces an
/// earlier one whole.
struct ProductFact {
  static constexpr About kAbout = About::product;
  static constexpr std::string_view kKind = "product";
  static constexpr std::string_view kWhat = "a product: chemistry, words on the tube, size, price";
  process::Product product;  ///< its id is the subject's; stock is the ledger's
  double size_g = 0;         ///< of one tube or tub, > 0
  double price = 0;          ///< of one, in the salon's currency
  double lead_days = 0;      ///< from ordering to the shelf
  double order_cost = 0;     ///< of one order
};
/// Grams that came or went otherwise than through a bowl.
struct MovementFact {
  static constexpr About kAbout = About::product;
  static constexpr std::string_view kKind = "movement";
  static constexpr std::string_view kWhat = "grams that came in or went out, apart from bowls";
  double grams = 0;  ///< below 0: out
  std::string why;   ///< "bought", "returned", "spoilt", "sold", "used up"
  std::string lot;
};
/// A tube was opened.
struct OpenedFact {
  static constexpr About kAbout = About::product;
  static constexpr std::string_view kKind = "opened";
  static constexpr std::string_view kWhat = "a tube or bottle was opened";
  std::string lot;
};
/// Grams found by weighing; the ledger is corrected to it.
struct CountFact {
  static constexpr About kAbout = About::product;
  static constexpr std::string_view kKind = "count";
  static constexpr std::string_view kWhat = "grams found at stock-taking";
  double grams = 0;
};
/// What past visits taught, with the version of the model that learned it.
struct LearnedFact {
  static constexpr About kAbout = About::salon;
  static constexpr std::string_view kKind = "learned";
  static constexpr std::string_view kWhat = "factors learned from visits, with their version";
  double version = 1;
  std::string factors_json;
};

/// A strand of the drill, read. What was shown is kept beside the seed it came from, so that the
/// answer keeps its meaning when strands are made otherwise one day.
struct DrillFact {
  static constexpr About kAbout = About::salon;
  static constexpr std::string_view kKind = "drill";
  static constexpr std::string_view kWhat = "a strand of the drill read on a screen, and by whom";
  std::string reader;
  std::uint64_t seed = 0;          ///< of the strand, below 2⁵³
  double level = 5;                ///< that was shown
  std::string warmth = "natural";  ///< that was shown: a word of plan::DrillWarmth
  double strand_um = 70;           ///< that was shown
  double answer = 5;               ///< level that was read
  std::string answer_warmth;       ///< that was read, or empty
};
/// What drills are about: nobody's hair.
inline constexpr std::string_view kDrillSubject = "drills";

void describe(wire::Object& object, ProductFact& fact);
void describe(wire::Object& object, MovementFact& fact);
void describe(wire::Object& object, OpenedFact& fact);
void describe(wire::Object& object, CountFact& fact);
void describe(wire::Object& object, LearnedFact& fact);
void describe(wire::Object& object, DrillFact& fact);

}  // namespace hw::book
