#pragma once
// What happens in a visit, from the enquiry to a reaction reported later. Each struct is the body
// of one kind of fact. Money is in the salon's currency, grams and minutes are plain numbers.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "huewright/book/fact.h"

namespace hw::book {

/// The visit is made: for whom and when.
struct BookedFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "booked";
  static constexpr std::string_view kWhat = "a visit is made or moved: for whom and when";
  std::string client;     ///< id
  std::string starts_at;  ///< moment
  double minutes = 60;    ///< planned, 1–1440
  std::string chair, wish;
  std::string from_card;  ///< "yes" where it was copied from paper later
};
struct CancelledFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "cancelled";
  static constexpr std::string_view kWhat = "the visit does not take place";
  std::string why;
};
struct EnquiryFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "enquiry";
  static constexpr std::string_view kWhat = "what was asked for, before anything is booked";
  std::string client;  ///< id
  std::string words;
};
struct QuoteFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "quote";
  static constexpr std::string_view kWhat = "hours and price as they were told";
  double low_money = 0, high_money = 0, low_h = 0, high_h = 0;
  std::string terms;
};
/// Money that came in (or went back, below 0).
struct PaymentFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "payment";
  static constexpr std::string_view kWhat = "money taken, or given back";
  double money = 0;
  std::string what_for;  ///< "deposit", "visit", "products", "refund"
  std::string way;       ///< "cash", "card", "transfer"
};
struct PriceFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "price";
  static constexpr std::string_view kWhat = "what the visit costs the client";
  double money = 0;
  std::string how;
};
struct PhotoFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "photo";
  static constexpr std::string_view kWhat = "a photo, by the hash of its bytes";
  std::string sha256;  ///< 64 hex digits: its file name in the photo folder
  std::string shows;   ///< "before", "during", "after"
  std::string zone, light;
};
/// What somebody or something read on the hair.
struct ReadingFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "reading";
  static constexpr std::string_view kWhat = "a zone read: by whom, dry or wet, in which light";
  std::string zone;
  std::string when;                   ///< "before", "check", "finish"
  std::optional<double> minute = {};  ///< of lightener on the zone, for a check
  std::optional<double> level = {};
  std::optional<std::array<double, 3>> lab = {};  ///< D65/10°
  std::string tone;
  std::string seen = "dry";  ///< "dry", "wiped", "wet"
  std::string light, reader;
};
struct StrandTestFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "strand_test";
  static constexpr std::string_view kWhat = "a strand tested with a bowl before the head";
  std::string zone, bowl;
  double minutes = 0;
  std::optional<double> level = {};
  std::string stretch, result;  ///< result: "passed" or "failed"
};
/// The colour of a zone after so many washes.
struct FadedTo {
  double wash = 0;
  std::array<double, 3> lab{};  ///< D65/10°
};
/// What a plan expects of a zone, so that a later visit need not reckon it again.
struct PlannedZone {
  std::string zone;
  double level = 1;                                       ///< likely, at the finish
  std::optional<double> level_low = {}, level_high = {};  ///< band that should hold 8 times in 10
  std::array<double, 3> lab{};                            ///< likewise
  std::vector<FadedTo> fade;                              ///< after 10, 20, 30 washes
};
/// The plan that was chosen, whole, so that it is never reckoned again.
struct PlanFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "plan";
  static constexpr std::string_view kWhat =
      "a plan: case, answer, seed and the versions it rests on";
  std::string program, constants;
  double seed = 1;
  double course = 1;      ///< which was chosen, from 1; 0: none, a refusal stood
  double reckoned_g = 0;  ///< of mix in this visit, by the chosen course and the case's own factor
  std::vector<PlannedZone> zones;  ///< of the chosen course
  std::string case_json, answer_json;
};
/// Grams of one product that went into a bowl.
struct PourFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "pour";
  static constexpr std::string_view kWhat = "grams of one product poured into a bowl";
  std::string bowl, product, lot;
  double grams = 0;
};
/// Ready mix that was thrown away, or unmixed product put back.
struct LeftoverFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "leftover";
  static constexpr std::string_view kWhat = "what was left: mix thrown away, or product put back";
  std::string bowl;
  std::string product;  ///< empty: ready mix, which never goes back
  double grams = 0;
};
struct ApplyFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "apply";
  static constexpr std::string_view kWhat = "a bowl goes on a zone";
  std::string bowl, zone;
  std::string on = "on";  ///< "on", "done": all of the zone covered
};
struct RinseFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "rinse";
  static constexpr std::string_view kWhat = "a zone, or the head, is rinsed or wiped off";
  std::string zone;
  std::string why;
};
struct StretchFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "stretch";
  static constexpr std::string_view kWhat = "wet strands stretched, and what they did";
  std::string zone;
  std::string worst;  ///< "springs_back", "returns_slowly", "stays_stretched", "gummy", "snaps"
  double strands = 5, places = 3;
};
struct TreatmentFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "treatment";
  static constexpr std::string_view kWhat = "a treatment, cleanse or style step";
  std::string product, what_done, zone;
  double minutes = 0;
};
struct ChangeFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "change";
  static constexpr std::string_view kWhat = "a change of plan that the client agreed to";
  std::string change, why, agreed_by;
};
struct PainFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "pain";
  static constexpr std::string_view kWhat = "pain or burning: where, and what was done";
  std::string place, done;
};
struct TrimFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "trim";
  static constexpr std::string_view kWhat = "length cut off";
  std::string zone;  ///< empty: the whole head
  double cm = 0;
};
/// How a zone came out, read dry at the finish: what the next visit starts from.
struct OutcomeFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "outcome";
  static constexpr std::string_view kWhat = "how a zone came out, read dry at the finish";
  std::string zone;
  std::optional<double> level = {};
  std::string tone;
  std::optional<std::array<double, 3>> lab = {};
  std::string reader, words;
};
struct CurlFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "curl";
  static constexpr std::string_view kWhat = "a curl's resting length before and after";
  std::string zone;
  double before_cm = 0, after_cm = 0;
};
struct AftercareFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "aftercare";
  static constexpr std::string_view kWhat = "advice given, and when to come again";
  std::string words;
  std::string refresh_on, regrowth_on;  ///< dates, or empty
};
struct SignatureFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "signature";
  static constexpr std::string_view kWhat = "a signature under a wording";
  std::string name, wording;
};
struct ReactionFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "reaction";
  static constexpr std::string_view kWhat = "a reaction, seen or reported later";
  std::string place, seen, advice;
};
struct FinishedFact {
  static constexpr About kAbout = About::visit;
  static constexpr std::string_view kKind = "finished";
  static constexpr std::string_view kWhat = "the client leaves";
  std::string notes;
};

void describe(wire::Object& object, BookedFact& fact);
void describe(wire::Object& object, CancelledFact& fact);
void describe(wire::Object& object, EnquiryFact& fact);
void describe(wire::Object& object, QuoteFact& fact);
void describe(wire::Object& object, PaymentFact& fact);
void describe(wire::Object& object, PriceFact& fact);
void describe(wire::Object& object, PhotoFact& fact);
void describe(wire::Object& object, ReadingFact& fact);
void describe(wire::Object& object, StrandTestFact& fact);
void describe(wire::Object& object, PlanFact& fact);
void describe(wire::Object& object, PourFact& fact);
void describe(wire::Object& object, LeftoverFact& fact);
void describe(wire::Object& object, ApplyFact& fact);
void describe(wire::Object& object, RinseFact& fact);
void describe(wire::Object& object, StretchFact& fact);
void describe(wire::Object& object, TreatmentFact& fact);
void describe(wire::Object& object, ChangeFact& fact);
void describe(wire::Object& object, PainFact& fact);
void describe(wire::Object& object, TrimFact& fact);
void describe(wire::Object& object, OutcomeFact& fact);
void describe(wire::Object& object, CurlFact& fact);
void describe(wire::Object& object, AftercareFact& fact);
void describe(wire::Object& object, SignatureFact& fact);
void describe(wire::Object& object, ReactionFact& fact);
void describe(wire::Object& object, FinishedFact& fact);

}  // namespace hw::book
