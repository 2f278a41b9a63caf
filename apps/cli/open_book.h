#pragma once
// What every command of the book needs: the folder, who is writing, and what time it is.
#include <memory>
#include <span>
#include <string>

#include "command.h"
#include "huewright/book/folder.h"
#include "huewright/book/record_file.h"
#include "huewright/process/moment.h"

namespace hw::apps {

/// The options of every command of the book.
inline constexpr Option kBookOption{"--book", "FOLDER",
                                    "the data folder; else the environment's HUEWRIGHT_BOOK"};
inline constexpr Option kByOption{"--by", "NAME", "who is writing; else HUEWRIGHT_BY"};

/// The folder that --book or HUEWRIGHT_BOOK names. Error: missing.
[[nodiscard]] Result<std::string> book_path(const Asked& asked);
/// Opens the folder that --book or HUEWRIGHT_BOOK names. Errors: missing, and as Folder::open.
[[nodiscard]] Result<std::unique_ptr<book::Folder>> open_book(const Asked& asked);
/// Who is writing, by --by or HUEWRIGHT_BY, and the time on the wall. Error: missing.
[[nodiscard]] Result<book::Hand> hand_of(const Asked& asked);
/// The moment it is, on the wall clock's offset.
[[nodiscard]] process::Moment now();
/// The value of an option, or empty.
[[nodiscard]] std::string option_of(const Asked& asked, std::string_view flag);
/// The i-th word behind the verb. Error: missing; what: "the id of a client".
[[nodiscard]] Result<std::string> word_at(const Asked& asked, std::size_t i, std::string_view what);
/// A message from the file that the i-th word names.
template <class Message>
[[nodiscard]] Result<Message> message_at(const Asked& asked, std::size_t i);

/// One verb of a command.
struct Verb {
  std::string_view name;
  Result<Said> (*run)(const Asked& asked, book::Folder& book);
};
/// Runs the verb that the first word names. Error: missing or unknown_name (lists the verbs).
[[nodiscard]] Result<Said> run_verb(const Asked& asked, std::span<const Verb> verbs);
/// Stores facts; the ids that were given them, as text or JSON. place: what errors call each.
[[nodiscard]] Result<Said> stored(const Asked& asked, book::Folder& book,
                                  std::span<const book::Fact> facts, const std::string& subject,
                                  const book::Place& place);
/// The place of the one fact whose body is the file that the i-th word behind the verb names.
[[nodiscard]] book::Place in_body(const Asked& asked, std::size_t i);
/// Facts of a subject from the record file that the second word behind the verb names.
[[nodiscard]] Result<Said> record(const Asked& asked, book::Folder& book, book::About about);
/// Verbs with a file of their own.
[[nodiscard]] Result<Said> erase_client(const Asked& asked, book::Folder& book);
[[nodiscard]] Result<Said> import_clients(const Asked& asked, book::Folder& book);
[[nodiscard]] Result<Said> calendar(const Asked& asked, book::Folder& book);
[[nodiscard]] Result<Said> count_product(const Asked& asked, book::Folder& book);
[[nodiscard]] Result<Said> reorder(const Asked& asked, book::Folder& book);
/// Facts as lines of a report: when, who, what.
[[nodiscard]] std::string facts_text(std::span<const book::Fact> facts);

}  // namespace hw::apps

#include "huewright/wire/json.h"
#include "input.h"

namespace hw::apps {

template <class Message>
Result<Message> message_at(const Asked& asked, std::size_t i) {
  const auto file = word_at(asked, i, "a JSON file, or - for standard input");
  if (!file) return tl::unexpected(file.error());
  const auto text = read_input(*file);
  if (!text) return tl::unexpected(text.error());
  auto message = wire::decode<Message>(*text);
  if (message) return message;
  Error error = message.error();
  error.where = name_of_input(*file) + (error.where.empty() ? "" : ": " + error.where);
  return tl::unexpected(error);
}

}  // namespace hw::apps
