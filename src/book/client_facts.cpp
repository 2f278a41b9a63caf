#include "huewright/book/client_facts.h"

#include "describe_parts.h"

namespace hw::book {
namespace {

using Word = std::string_view;
constexpr std::array<Word, 3> kBands{"under 16", "16 to 17", "adult"};
constexpr std::array<Word, 2> kSkin{"clear", "positive"};
constexpr std::array<Word, 2> kTests{"incompatibility", "elasticity"};
constexpr std::array<Word, 2> kPassed{"passed", "failed"};
constexpr std::array<Word, 4> kTo{"hair dye", "black temporary tattoo", "lightener", "other"};
constexpr std::array<Word, 3> kTold{"client", "doctor", "seen here"};
constexpr std::array<Word, 5> kPurposes{"service", "photos kept", "photos shown", "reminders",
                                        "health notes"};
constexpr std::array<Word, 3> kAnswers{"given", "refused", "withdrawn"};
constexpr double kMostGrowth = 4;  // cm a month; twice the fastest of bib loussouarn_2001, guess

}  // namespace

void describe(wire::Object& object, PersonFact& fact) {
  must_text(object, "name", "as the client says it", fact.name);
  may_text(object, "phone", "as it is dialled", fact.phone);
  may_text(object, "email", "address for letters by wire", fact.email);
  may_text(object, "address", "where the client lives", fact.address);
  may_text(object, "language", "BCP 47 tag, such as en", fact.language, kMostName);
  may_word(object, "age", "a band; the date of birth is not kept", fact.birth_band, kBands);
  may_text(object, "notes", "anything else", fact.notes);
  wire::number(object.optional("growth_cm_per_month", "measured on this client"),
               fact.growth_cm_per_month, {.low = 0, .high = kMostGrowth, .unit = "cm"});
}

void describe(wire::Object& object, SkinTestFact& fact) {
  must_text(object, "product", "the salon's word for it", fact.product);
  must_text(object, "shade", "id of the shade on the shelf", fact.shade);
  may_text(object, "lot", "printed on the tube", fact.lot);
  must_moment(object, "applied_at", "when it was put on", fact.applied_at);
  may_moment(object, "read_at", "when somebody looked", fact.read_at);
  may_word(object, "result", "what was seen then", fact.result, kSkin);
}

void describe(wire::Object& object, HairTestFact& fact) {
  must_word(object, "test", "which test", fact.test, kTests);
  may_text(object, "zone", "where; left out: the whole head", fact.zone);
  must_word(object, "result", "how it ended", fact.result, kPassed);
  may_text(object, "seen", "what was seen", fact.seen);
}

void describe(wire::Object& object, AllergyFact& fact) {
  must_word(object, "to", "what the hair rules ask about, or other", fact.to, kTo);
  may_text(object, "substance", "which, in words", fact.substance);
  may_text(object, "happened", "what happened", fact.happened);
  may_word(object, "told_by", "who says so", fact.told_by, kTold);
}

void describe(wire::Object& object, ConsentFact& fact) {
  must_word(object, "purpose", "what for", fact.purpose, kPurposes);
  must_word(object, "answer", "what the client said", fact.answer, kAnswers);
  may_text(object, "wording", "what was asked, word for word", fact.wording);
}

void describe(wire::Object& object, HairPastFact& fact) {
  must_text(object, "service", "what was done", fact.service);
  may_date(object, "when", "its date, where it is known", fact.when);
  may_text(object, "zone", "where", fact.zone);
  may_text(object, "notes", "anything else", fact.notes);
}

void describe(wire::Object& object, ErasedFact& fact) {
  may_text(object, "reason", "why", fact.reason);
}

}  // namespace hw::book
