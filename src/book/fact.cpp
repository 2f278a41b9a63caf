#include "huewright/book/fact.h"

#include <algorithm>
#include <array>
#include <map>

#include "describe_parts.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/lessons.h"
#include "huewright/book/salon.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/visit_facts.h"
#include "huewright/process/moment.h"

namespace hw::book {
namespace {

constexpr std::array<std::string_view, 4> kAbouts{"client", "visit", "product", "salon"};

template <class Body>
void describe_text(wire::Object& object, std::string& text) {
  Body body;
  if (!text.empty()) body = wire::decode<Body>(text).value_or(Body{});
  describe(object, body);
  text = wire::encode(body);
}

template <class Body>
void look_at_body(wire::Object& object) {
  Body body;
  describe(object, body);
}

template <class... Bodies>
std::vector<Kind> table() {
  return {Kind{Bodies::kAbout, Bodies::kKind, Bodies::kWhat, describe_text<Bodies>,
               look_at_body<Bodies>}...};
}

const std::vector<Kind>& all() {
  static const std::vector<Kind> kinds =
      table<PersonFact, SkinTestFact, HairTestFact, AllergyFact, ConsentFact, HairPastFact,
            ErasedFact, BookedFact, CancelledFact, EnquiryFact, QuoteFact, PaymentFact, PriceFact,
            PhotoFact, ReadingFact, StrandTestFact, PlanFact, PourFact, LeftoverFact, ApplyFact,
            RinseFact, StretchFact, TreatmentFact, ChangeFact, PainFact, TrimFact, OutcomeFact,
            CurlFact, AftercareFact, SignatureFact, ReactionFact, FinishedFact, LessonFact,
            ProductFact, MovementFact, OpenedFact, CountFact, LearnedFact, SalonFact, DrillFact>();
  return kinds;
}

Result<void> check_name(const std::string& text, const char* what, const std::string& where) {
  const std::string at = where.empty() ? what : where + "." + what;
  if (text.empty()) return fail(ErrorCode::missing, "is empty", at, "give it");
  if (text.size() > kMostName) {
    return fail(ErrorCode::out_of_range, "is longer than " + std::to_string(kMostName) + " bytes",
                at, "give a shorter one");
  }
  if (std::ranges::any_of(text, [](unsigned char c) { return c < 0x20 || c == 0x7f; })) {
    return fail(ErrorCode::malformed, "holds a control character", at, "write it in plain text");
  }
  return {};
}

std::string list_of_kinds() {
  std::string list;
  for (const Kind& kind : all()) list += (list.empty() ? "" : ", ") + std::string(kind.word);
  return list;
}

/// What all of a fact but its body says.
struct Head {
  const Kind* kind;
  process::Moment at;
};

Result<Head> check_head(const Fact& fact, const std::string& where) {
  const std::string dot = where.empty() ? "" : where + ".";
  for (const auto& [text, what] : {std::pair{&fact.id, "id"}, std::pair{&fact.subject, "subject"},
                                   std::pair{&fact.by, "by"}}) {
    if (const auto name = check_name(*text, what, where); !name) {
      return tl::unexpected(name.error());
    }
  }
  const Kind* kind = find_kind(fact.kind);
  if (kind == nullptr) {
    return fail(ErrorCode::unknown_name, "no fact is of this kind", dot + "kind",
                "give one of " + list_of_kinds());
  }
  const auto at = process::moment_from_iso(fact.at, dot + "at");
  if (!at) return tl::unexpected(at.error());
  if (!fact.amends.empty()) {
    if (const auto name = check_name(fact.amends, "amends", where); !name) {
      return tl::unexpected(name.error());
    }
  }
  if (fact.amends == fact.id) {
    return fail(ErrorCode::conflict, "a fact amends another one", dot + "amends",
                "give the id of the fact that was wrong");
  }
  return Head{kind, *at};
}

tl::unexpected<Error> in_body(Error error, const std::string& where) {
  error.where =
      (where.empty() ? "body" : where + ".body") + (error.where.empty() ? "" : "." + error.where);
  return tl::unexpected(std::move(error));
}

}  // namespace

std::string_view word_of(About about) {
  return kAbouts[static_cast<std::size_t>(about)];
}

Result<About> about_of(std::string_view word) {
  const auto* at = std::ranges::find(kAbouts, word);
  if (at == kAbouts.end()) {
    return fail(ErrorCode::unknown_name, "\"" + std::string(word) + "\" is nothing facts are about",
                {}, "give client, visit, product or salon");
  }
  return static_cast<About>(at - kAbouts.begin());
}

std::span<const Kind> kinds() {
  return all();
}

const Kind* find_kind(std::string_view word) {
  const auto at = std::ranges::find(all(), word, &Kind::word);
  return at == all().end() ? nullptr : &*at;
}

About about(const Fact& fact) {
  const Kind* kind = find_kind(fact.kind);
  HW_CHECK(kind != nullptr);
  return kind->about;
}

Result<Fact> checked(const Fact& fact, const std::string& where) {
  const auto head = check_head(fact, where);
  if (!head) return tl::unexpected(head.error());
  Fact good = fact;
  good.at = process::iso_text(head->at);
  good.body.clear();
  const auto body = wire::decode_into(
      fact.body, [&](wire::Object& object) { head->kind->describe(object, good.body); });
  if (!body) return in_body(body.error(), where);
  if (good.body.size() > kMostBody) {
    return fail(
        ErrorCode::out_of_range, "the body has " + std::to_string(good.body.size()) + " bytes",
        where.empty() ? "body" : where + ".body", "keep it to " + std::to_string(kMostBody));
  }
  return good;
}

Result<void> look_at(const Fact& fact) {
  const auto head = check_head(fact, {});
  if (!head) return tl::unexpected(head.error());
  const auto body = wire::decode_into(fact.body, head->kind->look_at);
  return body ? body : in_body(body.error(), {});
}

std::vector<Fact> in_force(std::span<const Fact> facts) {
  std::vector<Fact> kept;
  std::map<std::string, std::size_t, std::less<>> where;  // id of a fact → its place in kept
  for (const Fact& fact : facts) {
    const auto amended = where.find(fact.amends);
    if (!fact.amends.empty() && amended != where.end() && kept[amended->second].kind == fact.kind) {
      kept[amended->second] = fact;
      where[fact.id] = amended->second;
    } else {
      where[fact.id] = kept.size();
      kept.push_back(fact);
    }
  }
  return kept;
}

void describe(wire::Object& object, Fact& fact) {
  must_text(object, "id", "made once by whoever writes the fact", fact.id, kMostName);
  must_text(object, "subject", "id of the client, visit or product", fact.subject, kMostName);
  must_moment(object, "at", "when it happened", fact.at);
  must_text(object, "by", "who says so", fact.by, kMostName);
  may_text(object, "amends", "id of the fact it replaces", fact.amends, kMostName);
  describe_body(object, fact);
}

void describe_body(wire::Object& object, Fact& fact) {
  static const std::vector<std::string_view> words = [] {
    std::vector<std::string_view> list;
    for (const Kind& kind : all()) list.push_back(kind.word);
    return list;
  }();
  const Kind* kind = find_kind(fact.kind);
  std::size_t index = kind == nullptr ? 0 : static_cast<std::size_t>(kind - all().data());
  object.cases("kind", "what happened", words, index, [&](std::size_t which, wire::Object& inner) {
    if (fact.kind != all()[which].word) fact.body.clear();
    fact.kind = std::string(all()[which].word);
    inner.required("body", all()[which].what).object([&](wire::Object& body) {
      all()[which].describe(body, fact.body);
    });
  });
}

}  // namespace hw::book
