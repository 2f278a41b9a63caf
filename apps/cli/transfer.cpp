// huewright export, import, client erase: the book belongs to its owner, a record to its person.
#include "huewright/book/transfer.h"

#include <fmt/format.h>

#include "huewright/book/ids.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {

Result<Said> run_export(const Asked& asked) {
  if (asked.words.empty()) {
    return fail(ErrorCode::missing, "no folder is named to write to", "command line",
                "huewright export FOLDER");
  }
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto facts = book::export_book(**book, asked.words.front(), option_of(asked, "--client"));
  if (!facts) return tl::unexpected(facts.error());
  if (asked.json) return Said{fmt::format("{{\"facts\":{}}}\n", *facts)};
  return Said{as_it_is(said(spoken(), "{0} facts in {1}/book.jsonl, photos beside.",
                            {std::to_string(*facts), asked.words.front()}))};
}

Result<Said> run_import(const Asked& asked) {
  if (asked.words.empty()) {
    return fail(ErrorCode::missing, "no folder is named to read", "command line",
                "huewright import FOLDER");
  }
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto facts = book::import_book(**book, asked.words.front());
  if (!facts) return tl::unexpected(facts.error());
  if (asked.json) return Said{fmt::format("{{\"facts\":{}}}\n", *facts)};
  return Said{as_it_is(said(spoken(), "{0} facts read.", {std::to_string(*facts)}))};
}

Result<Said> erase_client(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a client");
  if (!id) return tl::unexpected(id.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const book::Fact fact =
      book::make_fact(book::new_id(), *id, hand->at, hand->by, book::ErasedFact{});
  if (auto gone = book::erase_with_photos(book, *id, fact); !gone) {
    return tl::unexpected(gone.error());
  }
  if (asked.json) {
    return Said{wire::encode_fields([&](wire::Object& object) {
                  std::string erased = *id;
                  bool done = true;
                  object.required("id", "").text(erased, erased.size());
                  object.required("erased", "").flag(done);
                }) +
                '\n'};
  }
  return Said{as_it_is(said(spoken(),
                            "Erased. Money and grams stay without the person. Backups made before "
                            "still hold the record; each is dropped by the backup schedule within "
                            "a year."))};
}

}  // namespace hw::apps
