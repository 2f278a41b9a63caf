// huewright client: who comes, what is known of them.
#include "huewright/book/client.h"

#include <fmt/format.h>

#include "book_answers.h"
#include "huewright/book/ids.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kMostShown = 50;  // of one search; a longer list is searched on

Result<Said> find(const Asked& asked, book::Folder& book) {
  std::string typed;
  for (std::size_t i = 1; i < asked.words.size(); ++i) typed += asked.words[i] + ' ';
  const auto clients = book.store().find_clients(typed, kMostShown);
  if (!clients) return tl::unexpected(clients.error());
  if (asked.json) return Said{clients_json(*clients)};
  if (clients->empty())
    return Said{std::string(said(spoken(), "Nobody of that name or number.")) + '\n'};
  std::string text;
  for (const book::ClientLine& client : *clients) {
    text += fmt::format("{}  {}{}\n", client.id, client.name,
                        client.phone.empty() ? "" : "  " + client.phone);
  }
  return Said{text};
}

Result<Said> add(const Asked& asked, book::Folder& book) {
  const auto person = message_at<book::PersonFact>(asked, 0);
  if (!person) return tl::unexpected(person.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const std::string id = book::new_id();
  const book::Fact fact = book::make_fact(book::new_id(), id, hand->at, hand->by, *person);
  return stored(asked, book, {&fact, 1}, id, in_body(asked, 0));
}

Result<Said> card(const Asked& asked, book::Folder& book) {
  const auto file = message_at<book::CardFile>(asked, 0);
  if (!file) return tl::unexpected(file.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const std::string id = book::new_id();
  const std::string input = name_of_input(asked.words[1]) + ": ";
  const auto card = book::facts_of_card(*file, id, *hand);
  if (!card) {
    Error error = card.error();
    error.where = input + error.where;
    return tl::unexpected(error);
  }
  return stored(asked, book, card->facts, id, [&](std::size_t i, const std::string& key) {
    return input + card->places[i] + (key.empty() ? "" : "." + key);
  });
}

std::string visits_text(const std::vector<book::VisitLine>& visits) {
  std::string text = visits.empty() ? "\nNo visits yet.\n" : "\nVisits\n";
  for (const book::VisitLine& visit : visits) {
    text +=
        fmt::format("  {}  {:<20}  {}\n", visit.id,
                    visit.starts_at.empty() ? "no date" : visit.starts_at, word_of(visit.stage));
  }
  return text;
}

Result<Said> show(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a client");
  if (!id) return tl::unexpected(id.error());
  const auto line = book.store().client(*id);
  if (!line) return tl::unexpected(line.error());
  const auto facts = book.store().facts_of(book::About::client, *id);
  if (!facts) return tl::unexpected(facts.error());
  if (asked.json) return Said{facts_json(*id, *facts)};
  const auto visits = book.store().visits_of(*id);
  if (!visits) return tl::unexpected(visits.error());
  const book::ClientState client = book::client_of(*facts);
  std::string text = client.erased ? "Erased by law\n" : client.person.name + '\n';
  for (const auto& allergy : client.allergies) {
    text += wrapped(allergy.body.to + " " + allergy.body.substance + ": " + allergy.body.happened,
                    9, "BLOCKED");
  }
  return Said{text + facts_text(book::in_force(*facts)) + visits_text(*visits)};
}

Result<Said> record_client(const Asked& asked, book::Folder& book) {
  return record(asked, book, book::About::client);
}

}  // namespace

Result<Said> run_client(const Asked& asked) {
  static constexpr std::array kVerbs{Verb{"find", find},         Verb{"add", add},
                                     Verb{"show", show},         Verb{"record", record_client},
                                     Verb{"card", card},         Verb{"import", import_clients},
                                     Verb{"erase", erase_client}};
  return run_verb(asked, kVerbs);
}

}  // namespace hw::apps
