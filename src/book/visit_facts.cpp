#include "huewright/book/visit_facts.h"

#include "describe_parts.h"

namespace hw::book {
namespace {

using Word = std::string_view;
constexpr std::array<Word, 2> kYesNo{"yes", "no"};
constexpr std::array<Word, 4> kWhatFor{"deposit", "visit", "products", "refund"};
constexpr std::array<Word, 3> kWays{"cash", "card", "transfer"};
constexpr std::array<Word, 3> kShows{"before", "during", "after"};
constexpr std::array<Word, 3> kWhen{"before", "check", "finish"};
constexpr std::array<Word, 3> kSeen{"dry", "wiped", "wet"};
constexpr std::array<Word, 2> kPassed{"passed", "failed"};
constexpr std::array<Word, 2> kOn{"on", "done"};
constexpr std::array<Word, 5> kStretches{"springs_back", "returns_slowly", "stays_stretched",
                                         "gummy", "snaps"};

void money(wire::Object& object, std::string_view key, std::string_view what, double& value,
           double low = 0) {
  wire::number(object.required(key, what), value, {.low = low, .high = kMostMoney});
}

void hours(wire::Object& object, std::string_view key, double& value) {
  wire::number(object.required(key, "hours in the chair"), value,
               {.low = 0, .high = 100, .unit = "h"});
}

void grams(wire::Object& object, std::string_view what, double& value) {
  wire::number(object.required("grams", what), value, {.low = 0, .high = kMostGrams, .unit = "g"});
}

void minutes(wire::Object& object, std::string_view what, double& value) {
  wire::number(object.optional("minutes", what), value,
               {.low = 0, .high = kMostMinutes, .unit = "min"});
}

void stretch(wire::Object& object, std::string_view key, std::string& value) {
  may_word(object, key, "what the worst strand did", value, kStretches);
}

void lab(wire::Object& object, std::array<double, 3>& value) {
  wire::triple(object.required("lab", "[L, a, b], D65 and 10°"), value, {.low = 0, .high = 100},
               {.low = -128, .high = 128});
}

}  // namespace

void describe(wire::Object& object, FadedTo& faded) {
  wire::number(object.required("wash", "washes since"), faded.wash, {.low = 0, .high = 1000});
  lab(object, faded.lab);
}

void describe(wire::Object& object, PlannedZone& zone) {
  must_text(object, "zone", "where", zone.zone);
  wire::number(object.required("level", "expected at the finish"), zone.level,
               {.low = 1, .high = 10});
  wire::number(object.optional("level_low", "10 % quantile"), zone.level_low,
               {.low = 1, .high = 10});
  wire::number(object.optional("level_high", "90 % quantile"), zone.level_high,
               {.low = 1, .high = 10});
  lab(object, zone.lab);
  wire::objects(object.optional("fade", "as washes go by"), zone.fade, {0, 20});
}

void describe(wire::Object& object, BookedFact& fact) {
  must_text(object, "client", "id of the client", fact.client, kMostName);
  must_moment(object, "starts_at", "when", fact.starts_at);
  minutes(object, "planned", fact.minutes);
  may_text(object, "chair", "which", fact.chair);
  may_text(object, "wish", "what is wished for", fact.wish);
  may_word(object, "from_card", "copied later from a paper card", fact.from_card, kYesNo);
}

void describe(wire::Object& object, CancelledFact& fact) {
  may_text(object, "why", "the reason", fact.why);
}

void describe(wire::Object& object, EnquiryFact& fact) {
  must_text(object, "client", "id of the client", fact.client, kMostName);
  must_text(object, "words", "what was asked", fact.words);
}

void describe(wire::Object& object, QuoteFact& fact) {
  money(object, "low_money", "price, low end", fact.low_money);
  money(object, "high_money", "price, high end", fact.high_money);
  hours(object, "low_h", fact.low_h);
  hours(object, "high_h", fact.high_h);
  may_text(object, "terms", "what was said of deposit, over-run and cancelling", fact.terms);
}

void describe(wire::Object& object, PaymentFact& fact) {
  money(object, "money", "taken; below 0: given back", fact.money, -kMostMoney);
  must_word(object, "for", "what for", fact.what_for, kWhatFor);
  may_word(object, "way", "how", fact.way, kWays);
}

void describe(wire::Object& object, PriceFact& fact) {
  money(object, "money", "what the visit costs", fact.money);
  may_text(object, "how", "what it is made of", fact.how);
}

void describe(wire::Object& object, PhotoFact& fact) {
  object.required("sha256", "of the photo's bytes")
      .formatted(fact.sha256, "^[0-9a-f]{64}$", [&](std::string_view given) -> Result<void> {
        if (given.size() != 64 ||
            given.find_first_not_of("0123456789abcdef") != std::string_view::npos) {
          return fail(ErrorCode::malformed, "is no SHA-256", {}, "give 64 small hex digits");
        }
        fact.sha256 = std::string(given);
        return {};
      });
  must_word(object, "shows", "when in the visit", fact.shows, kShows);
  may_text(object, "zone", "which zone", fact.zone);
  may_text(object, "light", "the light it was taken in", fact.light);
}

void describe(wire::Object& object, ReadingFact& fact) {
  must_text(object, "zone", "where", fact.zone);
  must_word(object, "when", "at which point of the visit", fact.when, kWhen);
  wire::number(object.optional("minute", "of lightener on this zone"), fact.minute,
               {.low = 0, .high = kMostMinutes, .unit = "min"});
  may_level(object, fact.level);
  may_lab(object, fact.lab);
  may_text(object, "tone", "in a word", fact.tone);
  may_word(object, "seen", "dry, wiped or wet", fact.seen, kSeen);
  may_text(object, "light", "the light it was read in", fact.light);
  may_text(object, "reader", "who or what read it", fact.reader);
}

void describe(wire::Object& object, StrandTestFact& fact) {
  must_text(object, "zone", "where the strand was taken", fact.zone);
  may_text(object, "bowl", "what was put on it", fact.bowl);
  minutes(object, "how long", fact.minutes);
  may_level(object, fact.level);
  stretch(object, "stretch", fact.stretch);
  must_word(object, "result", "how it ended", fact.result, kPassed);
}

void describe(wire::Object& object, PlanFact& fact) {
  must_text(object, "program", "version of the program", fact.program);
  must_text(object, "constants", "version of its tables", fact.constants);
  wire::number(object.required("seed", "of its draws"), fact.seed, {.low = 0, .high = 1e9});
  wire::number(object.required("course", "the one chosen, from 1; 0: none"), fact.course,
               {.low = 0, .high = 100});
  wire::number(object.optional("reckoned_g", "of mix, by the chosen course"), fact.reckoned_g,
               {.low = 0, .high = kMostGrams, .unit = "g"});
  wire::objects(object.optional("zones", "what the chosen course expects"), fact.zones, {0, 12});
  must_text(object, "case", "the case as it was planned, as JSON text", fact.case_json, kMostLong);
  must_text(object, "answer", "the answer as it was given, as JSON text", fact.answer_json,
            kMostLong);
}

void describe(wire::Object& object, PourFact& fact) {
  must_text(object, "bowl", "which bowl", fact.bowl);
  must_text(object, "product", "id of the product", fact.product, kMostName);
  grams(object, "poured", fact.grams);
  may_text(object, "lot", "printed on it", fact.lot);
}

void describe(wire::Object& object, LeftoverFact& fact) {
  must_text(object, "bowl", "which bowl", fact.bowl);
  may_text(object, "product", "unmixed, put back; left out: mix, thrown away", fact.product,
           kMostName);
  grams(object, "left", fact.grams);
}

void describe(wire::Object& object, ApplyFact& fact) {
  must_text(object, "bowl", "which bowl", fact.bowl);
  must_text(object, "zone", "where", fact.zone);
  may_word(object, "is", "on: the first stroke; done: all covered", fact.on, kOn);
}

void describe(wire::Object& object, RinseFact& fact) {
  may_text(object, "zone", "where; left out: the whole head", fact.zone);
  may_text(object, "why", "if not as planned", fact.why);
}

void describe(wire::Object& object, StretchFact& fact) {
  must_text(object, "zone", "where", fact.zone);
  must_word(object, "worst", "what the worst strand did", fact.worst, kStretches);
  wire::number(object.optional("strands", "tried"), fact.strands, {.low = 1, .high = 100});
  wire::number(object.optional("places", "on the head"), fact.places, {.low = 1, .high = 100});
}

void describe(wire::Object& object, TreatmentFact& fact) {
  may_text(object, "product", "id of the product", fact.product, kMostName);
  must_text(object, "done", "what was done", fact.what_done);
  may_text(object, "zone", "where", fact.zone);
  minutes(object, "how long", fact.minutes);
}

void describe(wire::Object& object, ChangeFact& fact) {
  must_text(object, "change", "what is done otherwise", fact.change);
  may_text(object, "why", "the reason", fact.why);
  must_text(object, "agreed_by", "who agreed", fact.agreed_by);
}

void describe(wire::Object& object, PainFact& fact) {
  must_text(object, "place", "where it hurts", fact.place);
  may_text(object, "done", "what was done", fact.done);
}

void describe(wire::Object& object, TrimFact& fact) {
  may_text(object, "zone", "where; left out: the whole head", fact.zone);
  wire::number(object.required("cm", "cut off"), fact.cm, {.low = 0, .high = 200, .unit = "cm"});
}

void describe(wire::Object& object, OutcomeFact& fact) {
  must_text(object, "zone", "where", fact.zone);
  may_level(object, fact.level);
  may_lab(object, fact.lab);
  may_text(object, "tone", "in a word", fact.tone);
  may_text(object, "reader", "who or what read it", fact.reader);
  may_text(object, "words", "how it came out", fact.words);
}

void describe(wire::Object& object, CurlFact& fact) {
  may_text(object, "zone", "where", fact.zone);
  wire::number(object.required("before_cm", "resting length"), fact.before_cm,
               {.low = 0, .high = 200, .unit = "cm"});
  wire::number(object.required("after_cm", "resting length"), fact.after_cm,
               {.low = 0, .high = 200, .unit = "cm"});
}

void describe(wire::Object& object, AftercareFact& fact) {
  must_text(object, "words", "what was told", fact.words);
  may_date(object, "refresh_on", "when the colour wants a refresh", fact.refresh_on);
  may_date(object, "regrowth_on", "when the regrowth wants a retouch", fact.regrowth_on);
}

void describe(wire::Object& object, SignatureFact& fact) {
  must_text(object, "name", "who signed", fact.name);
  must_text(object, "wording", "what was signed", fact.wording);
}

void describe(wire::Object& object, ReactionFact& fact) {
  may_text(object, "place", "where", fact.place);
  must_text(object, "seen", "what was seen or told", fact.seen);
  may_text(object, "advice", "what was advised", fact.advice);
}

void describe(wire::Object& object, FinishedFact& fact) {
  may_text(object, "notes", "anything else", fact.notes);
}

}  // namespace hw::book
