#pragma once
// What is known of a client apart from any one visit. Each struct is the body of one kind of fact.
#include <optional>
#include <string>
#include <vector>

#include "huewright/book/fact.h"

namespace hw::book {

/// Who the client is and how to reach them. A later one replaces an earlier one whole.
struct PersonFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "person";
  static constexpr std::string_view kWhat = "who the client is and how to reach them";
  std::string name;
  std::string phone, email, address;
  std::string language;    ///< BCP 47 tag, such as "en"
  std::string birth_band;  ///< "under 16", "16 to 17", "adult"; the date itself is not kept
  std::string notes;
  std::optional<double> growth_cm_per_month = {};  ///< measured on this client, 0–4
};
/// One skin test, put on or read.
struct SkinTestFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "skin_test";
  static constexpr std::string_view kWhat = "a skin test of one product and shade";
  std::string product, shade, lot;
  std::string applied_at;  ///< moment
  std::string read_at;     ///< moment, or empty while it waits
  std::string result;      ///< "clear" or "positive"; empty while it waits
};
/// A test of hair for metal salts, or of a strand's strength.
struct HairTestFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "hair_test";
  static constexpr std::string_view kWhat = "an incompatibility or elasticity test";
  std::string test;    ///< "incompatibility" or "elasticity"
  std::string zone;    ///< empty: the whole head
  std::string result;  ///< "passed" or "failed"
  std::string seen;    ///< what was seen, in words
};
/// What follows the client for ever.
struct AllergyFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "allergy";
  static constexpr std::string_view kWhat = "an allergy, reaction or block that follows the client";
  std::string to;         ///< "hair dye", "black temporary tattoo", "lightener" or "other"
  std::string substance;  ///< which, in words
  std::string happened;   ///< what happened, in words
  std::string told_by;    ///< "client", "doctor", "seen here"
};
/// Consent for one purpose.
struct ConsentFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "consent";
  static constexpr std::string_view kWhat = "consent for one purpose, given, refused or withdrawn";
  std::string purpose;  ///< "service", "photos kept", "photos shown", "reminders", "health notes"
  std::string answer;   ///< "given", "refused" or "withdrawn"
  std::string wording;  ///< what was agreed to, word for word
};
/// Facts of the hair that outlast a visit, such as a relaxer.
struct HairPastFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "hair_past";
  static constexpr std::string_view kWhat = "a service done elsewhere or before, as told";
  std::string service;  ///< "relaxer", "smoothing", "colour", "lightener", "henna", in words
  std::string when;     ///< date, or empty where nobody knows
  std::string zone;
  std::string notes;
};
/// A client whose personal facts were erased by law; what accounts need stays without the person.
struct ErasedFact {
  static constexpr About kAbout = About::client;
  static constexpr std::string_view kKind = "erased";
  static constexpr std::string_view kWhat = "the person was erased from this record";
  std::string reason;
};

void describe(wire::Object& object, PersonFact& fact);
void describe(wire::Object& object, SkinTestFact& fact);
void describe(wire::Object& object, HairTestFact& fact);
void describe(wire::Object& object, AllergyFact& fact);
void describe(wire::Object& object, ConsentFact& fact);
void describe(wire::Object& object, HairPastFact& fact);
void describe(wire::Object& object, ErasedFact& fact);

}  // namespace hw::book
