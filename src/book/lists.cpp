#include "lists.h"

#include <array>
#include <set>

#include "huewright/book/client_facts.h"
#include "huewright/book/folder.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/store.h"
#include "huewright/book/strip.h"
#include "huewright/book/visit_facts.h"
#include "huewright/process/moment.h"

namespace hw::book {
namespace {

/// Runs a statement whose rows nobody wants.
Result<void> run(Sql& sql, std::string_view statement, std::initializer_list<Cell> arguments) {
  const auto rows = sql.run(statement, std::span(arguments.begin(), arguments.size()));
  if (!rows) return tl::unexpected(rows.error());
  return {};
}

/// Every end of a word, so that any part of it is the start of one: "bell", "ell", "ll", "l".
/// Words of more than letters start anew at each whole character.
std::set<std::string> word_ends(const PersonFact& person) {
  std::set<std::string> ends;
  for (const std::string* text : {&person.name, &person.phone, &person.email}) {
    for (const std::string& word : search_words(*text)) {
      for (std::size_t at = 0; at < word.size(); ++at) {
        const bool inside = (static_cast<unsigned char>(word[at]) & 0xC0U) == 0x80U;
        if (!inside) ends.insert(word.substr(at));
      }
    }
  }
  return ends;
}

std::string sort_key(const std::string& name) {
  std::string key;
  for (const std::string& word : search_words(name)) key += word + ' ';
  return key;
}

/// The last of the kind that counts, which an amended older one is not.
Result<Fact> last_in_force(Sql& sql, const Fact& fact) {
  const Cell about_it = std::string(word_of(about(fact)));
  const auto rows = sql.run("SELECT " HW_FACT_COLUMNS
                            " FROM fact WHERE about = $1 AND subject = $2 AND kind = $3"
                            " ORDER BY place",
                            std::array<Cell, 3>{about_it, fact.subject, fact.kind});
  const auto facts = facts_from(rows);
  if (!facts) return tl::unexpected(facts.error());
  const auto now = in_force(*facts);
  return now.empty() ? fact : now.back();
}

Result<void> list_person(Sql& sql, const Fact& fact) {
  const auto last = last_in_force(sql, fact);
  if (!last) return tl::unexpected(last.error());
  const auto person = body_of<PersonFact>(*last);
  if (auto out = run(sql, "DELETE FROM client_word WHERE client = $1", {fact.subject}); !out) {
    return out;
  }
  if (auto in = run(sql,
                    "INSERT INTO client(id, name, phone, sorted, erased) VALUES($1, $2, $3, $4, 0)"
                    " ON CONFLICT(id) DO UPDATE SET name = excluded.name, phone = excluded.phone,"
                    " sorted = excluded.sorted, erased = 0",
                    {fact.subject, person.name, person.phone, sort_key(person.name)});
      !in) {
    return in;
  }
  for (const std::string& end : word_ends(person)) {
    if (auto in =
            run(sql, "INSERT INTO client_word(word, client) VALUES($1, $2)", {end, fact.subject});
        !in) {
      return in;
    }
  }
  return {};
}

Result<void> list_erased(Sql& sql, const Fact& fact) {
  if (auto out = run(sql, "DELETE FROM client_word WHERE client = $1", {fact.subject}); !out) {
    return out;
  }
  return run(sql,
             "INSERT INTO client(id, name, phone, sorted, erased) VALUES($1, '', '', '', 1)"
             " ON CONFLICT(id) DO UPDATE SET name = '', phone = '', sorted = '', erased = 1",
             {fact.subject});
}

std::string utc_text(const std::string& moment) {
  const auto read = process::moment_from_iso(moment);
  HW_CHECK(read.has_value());
  const std::string text = process::iso_text(process::Moment{read->utc, std::chrono::minutes(0)});
  return text.substr(0, text.find('+')) + "Z";
}

Result<void> list_visit(Sql& sql, const Fact& fact, const std::string& client,
                        const std::string& starts, VisitStage stage) {
  return run(sql,
             "INSERT INTO visit(id, client, starts, stage) VALUES($1, $2, $3, $4)"
             " ON CONFLICT(id) DO UPDATE SET client = excluded.client, starts = excluded.starts",
             {fact.subject, client, starts, static_cast<std::int64_t>(stage)});
}

/// A stage is only ever left for a later one; moving a booking does not undo a visit.
Result<void> list_stage(Sql& sql, const Fact& fact, VisitStage stage) {
  return run(sql, "UPDATE visit SET stage = $2 WHERE id = $1 AND stage < $2",
             {fact.subject, static_cast<std::int64_t>(stage)});
}

/// Of the plan in force.
Result<void> list_strip(Sql& sql, const Fact& fact) {
  const auto last = last_in_force(sql, fact);
  if (!last) return tl::unexpected(last.error());
  return run(sql,
             "INSERT INTO strip(visit, body) VALUES($1, $2)"
             " ON CONFLICT(visit) DO UPDATE SET body = excluded.body",
             {fact.subject, wire::encode(strip_of(body_of<PlanFact>(*last)))});
}

/// The first of a chain of facts that amend one another: whose place in the ledger they share.
Result<Fact> first_of(Sql& sql, Fact fact) {
  while (!fact.amends.empty()) {
    const auto rows = sql.run("SELECT " HW_FACT_COLUMNS " FROM fact WHERE id = $1",
                              std::array<Cell, 1>{fact.amends});
    const auto found = facts_from(rows);
    if (!found) return tl::unexpected(found.error());
    if (found->empty()) return fact;  // erased since
    fact = found->front();
  }
  return fact;
}

/// What a fact does to the grams of a product.
struct Moved {
  std::string product;  ///< empty: nothing
  double grams = 0;
  std::string why;
  bool counted = false;
};

Moved moved_by(const Fact& fact) {
  if (fact.kind == PourFact::kKind) {
    const auto pour = body_of<PourFact>(fact);
    return {pour.product, -pour.grams, "poured"};
  }
  if (fact.kind == LeftoverFact::kKind) {
    const auto left = body_of<LeftoverFact>(fact);
    return {left.product, left.grams, "put back"};
  }
  if (fact.kind == MovementFact::kKind) {
    const auto moved = body_of<MovementFact>(fact);
    return {fact.subject, moved.grams, moved.why};
  }
  return {fact.subject, body_of<CountFact>(fact).grams, "counted", true};
}

Result<void> list_ledger(Sql& sql, const Fact& fact) {
  const auto first = first_of(sql, fact);
  if (!first) return tl::unexpected(first.error());
  if (auto out = run(sql, "DELETE FROM movement WHERE fact = $1", {first->id}); !out) return out;
  const Moved moved = moved_by(fact);
  if (moved.product.empty()) return {};
  const bool poured = about(fact) == About::visit;
  return run(sql,
             "INSERT INTO movement(fact, product, place, grams, counted, happened, why, visit)"
             " VALUES($1, $2, $3, $4, $5, $6, $7, $8)",
             {first->id, moved.product, first->place, moved.grams, std::int64_t{moved.counted},
              fact.at, moved.why, poured ? fact.subject : std::string()});
}

bool moves_grams(const std::string& kind) {
  return kind == PourFact::kKind || kind == LeftoverFact::kKind || kind == MovementFact::kKind ||
         kind == CountFact::kKind;
}

Result<void> list_of_visit(Sql& sql, const Fact& fact) {
  if (fact.kind == BookedFact::kKind) {
    const auto last = last_in_force(sql, fact);
    if (!last) return tl::unexpected(last.error());
    const auto booked = body_of<BookedFact>(*last);
    const std::string starts = utc_text(booked.starts_at);
    if (auto in = list_visit(sql, fact, booked.client, starts, VisitStage::booked); !in) return in;
    // Booking again undoes a cancelled visit, not one that is under way.
    return run(sql, "UPDATE visit SET stage = 1 WHERE id = $1 AND stage IN (0, 4)", {fact.subject});
  }
  if (fact.kind == EnquiryFact::kKind) {
    const auto enquiry = body_of<EnquiryFact>(fact);
    return run(sql,
               "INSERT INTO visit(id, client, starts, stage) VALUES($1, $2, '', 0)"
               " ON CONFLICT(id) DO NOTHING",
               {fact.subject, enquiry.client});
  }
  if (fact.kind == PlanFact::kKind) return list_strip(sql, fact);
  if (fact.kind == CancelledFact::kKind) return list_stage(sql, fact, VisitStage::cancelled);
  if (fact.kind == FinishedFact::kKind) return list_stage(sql, fact, VisitStage::finished);
  if (fact.kind == ApplyFact::kKind || fact.kind == PourFact::kKind) {
    return list_stage(sql, fact, VisitStage::under_way);
  }
  return {};
}

}  // namespace

Result<void> list_fact(Sql& sql, const Fact& fact) {
  if (moves_grams(fact.kind)) {
    if (auto moved = list_ledger(sql, fact); !moved) return moved;
  }
  if (fact.kind == PersonFact::kKind) return list_person(sql, fact);
  if (fact.kind == ErasedFact::kKind) return list_erased(sql, fact);
  if (fact.kind == ProductFact::kKind) {
    return run(sql, "INSERT INTO product(id) VALUES($1) ON CONFLICT(id) DO NOTHING",
               {fact.subject});
  }
  return about(fact) == About::visit ? list_of_visit(sql, fact) : Result<void>{};
}

Result<void> clear_lists(Sql& sql) {
  return sql.script(
      "DELETE FROM client; DELETE FROM client_word; DELETE FROM visit; DELETE FROM product;"
      "DELETE FROM movement; DELETE FROM strip;");
}

Result<void> list_strips(Sql& sql) {
  constexpr std::int64_t kPage = 100;  // of some 100 kB each
  std::int64_t place = 0;
  for (;;) {
    const auto facts =
        facts_from(sql.run("SELECT " HW_FACT_COLUMNS " FROM fact WHERE place > $1 AND kind = 'plan'"
                           " ORDER BY place LIMIT $2",
                           std::array<Cell, 2>{place, kPage}));
    if (!facts) return tl::unexpected(facts.error());
    if (facts->empty()) return {};
    for (const Fact& fact : *facts) {
      if (auto listed = list_strip(sql, fact); !listed) return listed;
    }
    place = facts->back().place;
  }
}

Fact fact_from(const Row& row) {
  return {.id = text_of(row[1]),
          .subject = text_of(row[2]),
          .kind = text_of(row[3]),
          .at = text_of(row[4]),
          .by = text_of(row[5]),
          .amends = text_of(row[6]),
          .body = text_of(row[7]),
          .place = whole_of(row[0])};
}

std::string sum_of(const Fact& fact) {
  constexpr std::size_t kDigits = 16;
  const std::array texts{&fact.id, &fact.subject, &fact.kind, &fact.at,
                         &fact.by, &fact.amends,  &fact.body};
  std::size_t size = texts.size();
  for (const std::string* text : texts) size += text->size();
  std::string all;
  all.reserve(size);
  for (const std::string* text : texts) {
    all += *text;
    all += '\x1f';
  }
  return sha256_of(all).substr(0, kDigits);
}

Result<std::vector<Fact>> facts_from(const Result<std::vector<Row>>& rows) {
  if (!rows) return tl::unexpected(rows.error());
  std::vector<Fact> facts;
  facts.reserve(rows->size());
  for (const Row& row : *rows) {
    Fact fact = fact_from(row);
    const auto good = look_at(fact);
    if (!good || text_of(row[8]) != sum_of(fact)) {
      return fail(ErrorCode::io, "is not as it was written", "fact " + fact.id,
                  "run doctor, and restore a backup");
    }
    facts.push_back(std::move(fact));
  }
  return facts;
}

}  // namespace hw::book
