#include "huewright/book/newcomers.h"

#include <algorithm>
#include <map>

#include "huewright/book/client.h"
#include "huewright/book/ids.h"

namespace hw::book {
namespace {

PersonFact person_of(const wire::Contact& contact) {
  PersonFact person;
  person.name = contact.name;
  person.phone = contact.phone;
  person.email = contact.email;
  person.address = contact.address;
  person.language = contact.language;
  person.notes = contact.notes;
  return person;
}

std::string name_words(std::string_view name) {
  std::vector<std::string> words = search_words(name);
  std::ranges::sort(words);
  std::string text;
  for (const std::string& word : words) text += word + ' ';
  return text;
}

/// The last digits of a telephone, which its country code does not change.
std::string digits_of(std::string_view phone) {
  constexpr std::size_t kTold = 8;  // house rule: enough to tell two clients apart
  std::string digits;
  std::ranges::copy_if(phone, std::back_inserter(digits),
                       [](char c) { return c >= '0' && c <= '9'; });
  return digits.size() > kTold ? digits.substr(digits.size() - kTold) : digits;
}

std::string mail_of(std::string_view email) {
  std::string text;
  for (const std::string& word : search_words(email)) text += word + ' ';
  return text;
}

struct Reached {
  std::string phone, email;
  [[nodiscard]] bool nowhere() const { return phone.empty() && email.empty(); }
};

Reached reached(const std::string& phone, const std::string& email) {
  return {digits_of(phone), mail_of(email)};
}

bool may_be_one(const Reached& a, const Reached& b) {
  return a.nowhere() || b.nowhere() || (!a.phone.empty() && a.phone == b.phone) ||
         (!a.email.empty() && a.email == b.email);
}

/// The client of the book who is this contact; empty: nobody.
Result<std::string> known_client(Store& store, const wire::Contact& contact,
                                 const std::string& words) {
  constexpr std::size_t kNamesakes = 200;
  const auto found = store.find_clients(contact.name, kNamesakes);
  if (!found) return tl::unexpected(found.error());
  for (const ClientLine& line : *found) {
    if (name_words(line.name) != words) continue;
    const auto facts = store.facts_of(About::client, line.id);
    if (!facts) return tl::unexpected(facts.error());
    const PersonFact person = client_of(*facts).person;
    if (may_be_one(reached(contact.phone, contact.email), reached(person.phone, person.email))) {
      return line.id;
    }
  }
  return std::string();
}

}  // namespace

Result<std::vector<Newcomer>> look_at(Store& store, std::span<const wire::Contact> contacts) {
  std::vector<Newcomer> all;
  std::multimap<std::string, std::size_t> before;  // by the words of the name
  for (const wire::Contact& contact : contacts) {
    Newcomer one{contact, {}, {}};
    const auto fits =
        checked(make_fact("id", "client", "2000-01-01T00:00Z", "import", person_of(contact)));
    if (!fits) one.wrong = one_line(fits.error());
    const std::string words = name_words(contact.name);
    const auto [from, to] = before.equal_range(words);
    for (auto at = from; at != to; ++at) {
      const wire::Contact& earlier = all[at->second].contact;
      if (may_be_one(reached(contact.phone, contact.email),
                     reached(earlier.phone, earlier.email))) {
        one.known_as = "line " + std::to_string(earlier.line);
      }
    }
    auto known = known_client(store, contact, words);
    if (!known) return tl::unexpected(known.error());
    if (!known->empty()) one.known_as = *std::move(known);
    before.emplace(words, all.size());
    all.push_back(std::move(one));
  }
  return all;
}

Result<std::size_t> add_newcomers(Store& store, std::span<const Newcomer> newcomers,
                                  const Hand& hand) {
  constexpr std::size_t kBatch = 500;
  std::vector<Fact> facts;
  std::size_t added = 0;
  const auto put = [&]() -> Result<void> {
    if (facts.empty()) return {};
    const auto places = store.append(facts);
    if (!places) return tl::unexpected(places.error());
    added += facts.size();
    facts.clear();
    return {};
  };
  for (const Newcomer& one : newcomers) {
    if (!one.can_come()) continue;
    facts.push_back(make_fact(new_id(), new_id(), hand.at, hand.by, person_of(one.contact)));
    if (facts.size() < kBatch) continue;
    if (auto done = put(); !done) return tl::unexpected(done.error());
  }
  if (auto done = put(); !done) return tl::unexpected(done.error());
  return added;
}

}  // namespace hw::book
