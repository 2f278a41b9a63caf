#pragma once
// The book is one append-only log of facts. A fact is about one client, visit or product, or about
// the salon; it is never changed. A wrong one is amended by a later one that names it. What a
// client, a visit or a tube is now, is a fold over its facts (client.h, visit.h, stock.h).
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "huewright/base/check.h"
#include "huewright/base/result.h"
#include "huewright/wire/json.h"

namespace hw::book {

/// What a fact is about.
enum class About { client, visit, product, salon };
/// "client", "visit", "product", "salon".
[[nodiscard]] std::string_view word_of(About about);
/// Error: unknown_name (lists the words).
[[nodiscard]] Result<About> about_of(std::string_view word);

/// Longest id, subject or writer of a fact [bytes]; house rule, no source.
inline constexpr std::size_t kMostName = 100;

/// Longest body [bytes]: a fact is one line of an export, which the decoder must take with the
/// names beside its body.
inline constexpr std::size_t kMostBody = wire::kMostBytes - 4096;

/// One fact as it is stored.
struct Fact {
  std::string id;           ///< made once by whoever writes it (ids.h); sent again, it counts once
  std::string subject;      ///< id of the client, visit or product; "salon" for the salon
  std::string kind;         ///< a word of kinds(), which also says what it is about
  std::string at;           ///< when it happened, with its offset: "2025-05-14T10:00:00+02:00"
  std::string by;           ///< who says so; never empty
  std::string amends;       ///< id of the fact of the same subject and kind it replaces, or empty
  std::string body = "{}";  ///< what happened: one JSON object, by the kind
  std::int64_t place = 0;   ///< order in the book, from 1; 0 before it is stored
  bool operator==(const Fact&) const = default;
};

/// One kind of fact.
struct Kind {
  About about;
  std::string_view word;  ///< "reading"; no two kinds share one
  std::string_view what;  ///< a few words
  /// Reads or writes a body as JSON text, as describe() of fields.h does; "" is a body not yet
  /// read.
  void (*describe)(wire::Object& object, std::string& body);
  /// Reads a body to see whether it can be one.
  void (*look_at)(wire::Object& object);
};

/// Every kind there is, by what it is about.
[[nodiscard]] std::span<const Kind> kinds();
/// Null where there is none.
[[nodiscard]] const Kind* find_kind(std::string_view word);
/// What a fact is about, by its kind. Programmer mistake: a kind nobody knows.
[[nodiscard]] About about(const Fact& fact);

/// The fact, if it can be one, with its body in canonical form (the form that is stored, so that
/// export and import give the same bytes). where: what errors call it. Errors, by path: an id,
/// subject or writer that is empty, too long or has control characters, a kind nobody knows, a time
/// that is no moment, a fact that amends itself, whatever is wrong with the body ("body.grams").
[[nodiscard]] Result<Fact> checked(const Fact& fact, const std::string& where = {});

/// Whether checked() passes a fact, in half its time. Errors: as there.
[[nodiscard]] Result<void> look_at(const Fact& fact);

/// The facts that count: those that no later fact amends, an amending one at the place of what it
/// amends. facts: of one subject, in the order of the book.
[[nodiscard]] std::vector<Fact> in_force(std::span<const Fact> facts);

/// A fact with a body of its own type, which names its kind.
template <class Body>
[[nodiscard]] Fact make_fact(const std::string& id, const std::string& subject,
                             const std::string& at, const std::string& by, const Body& body) {
  return {.id = id,
          .subject = subject,
          .kind = std::string(Body::kKind),
          .at = at,
          .by = by,
          .amends = {},
          .body = wire::encode(body)};
}

/// The body of a stored fact. Programmer mistake: a fact of another kind, or one never checked().
template <class Body>
[[nodiscard]] Body body_of(const Fact& fact) {
  HW_CHECK(fact.kind == Body::kKind);
  auto body = wire::decode<Body>(fact.body);
  HW_CHECK(body.has_value());
  return *std::move(body);
}

/// A fact as JSON, the line format of exports:
/// {"id", "kind", "subject", "at", "by", "amends"?, "body": {…}}
void describe(wire::Object& object, Fact& fact);
/// Its "kind" and "body" alone.
void describe_body(wire::Object& object, Fact& fact);

}  // namespace hw::book
