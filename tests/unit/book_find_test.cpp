// Finding a client while typing, in both databases: what is found is what a walk through everybody
// would find, and common names hide nobody.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "huewright/base/random.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/store.h"
#include "support/books.h"

namespace hw::book {
namespace {

class BookFind : public testing::TestWithParam<const char*> {
 protected:
  test::FreshBook book_{GetParam()};
  std::unique_ptr<Store> store_ = book_.open();

  std::set<std::string> found(const std::string& typed, std::size_t most) {
    const auto clients = store_->find_clients(typed, most);
    EXPECT_TRUE(clients) << one_line(clients.error());
    std::set<std::string> ids;
    for (const ClientLine& client : *clients) ids.insert(client.id);
    EXPECT_EQ(ids.size(), clients->size());
    return ids;
  }
};

/// Whether every typed part is somewhere in a word of the name or phone.
bool matches(const PersonFact& person, const std::string& typed) {
  std::vector<std::string> words = search_words(person.name);
  for (std::string& word : search_words(person.phone)) words.push_back(std::move(word));
  return std::ranges::all_of(search_words(typed), [&](const std::string& part) {
    return std::ranges::any_of(
        words, [&](const std::string& word) { return word.find(part) != std::string::npos; });
  });
}

TEST_P(BookFind, finds_whom_a_walk_through_everybody_finds) {
  constexpr std::array<const char*, 6> kSyllables{"an", "na", "le", "ma", "ri", "ö"};
  constexpr std::size_t kPeople = 60;
  const Draws draws(20260111);
  const auto word = [&](std::uint64_t i, std::uint64_t least) {
    std::string text;
    const std::uint64_t count = least + draws.below(3, 0, i);
    for (std::uint64_t k = 0; k < count; ++k) text += kSyllables[draws.below(6, 1 + k, i)];
    return text;
  };
  std::vector<PersonFact> people(kPeople);
  std::vector<Fact> facts;
  for (std::size_t i = 0; i < kPeople; ++i) {
    people[i].name = word(9 * i, 1) + ' ' + word(9 * i + 1, 2);
    if (i % 3 == 0) people[i].name += "-" + word(9 * i + 2, 1) + ' ' + word(9 * i + 3, 1);
    people[i].phone = "0" + std::to_string(100 + draws.below(30, 5, i)) + " 77";
    facts.push_back(test::fact("f" + std::to_string(i), "c" + std::to_string(i), people[i]));
  }
  ASSERT_TRUE(store_->append(facts));
  std::size_t hits = 0;
  for (std::size_t k = 0; k < 400; ++k) {
    std::string typed;
    for (std::uint64_t part = 0; part <= draws.below(6, 6, k); ++part) {
      const std::string all = word(1000 + 7 * k + part, 1);
      typed += all.substr(0, 1 + draws.below(3, 7 + part, k)) + ' ';
    }
    if (k % 5 == 0) typed += std::to_string(draws.below(130, 20, k));
    std::set<std::string> wanted;
    for (std::size_t i = 0; i < kPeople; ++i) {
      if (matches(people[i], typed)) wanted.insert("c" + std::to_string(i));
    }
    EXPECT_EQ(found(typed, kPeople), wanted) << typed;
    hits += wanted.size();
  }
  EXPECT_GT(hits, 1000U);
}

TEST_P(BookFind, common_names_hide_nobody) {
  // 4,000 are called Ana, 4,000 Berger, 12,000 more live by one area code, and one is all three.
  const auto made = store_->sql().script(R"(
    INSERT INTO client(id, name, phone, sorted, erased)
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20000)
      SELECT 'c' || (100000 + i), 'somebody', '', 'somebody', 0 FROM n;
    INSERT INTO client_word(word, client)
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20000)
      SELECT CASE WHEN i <= 4000 THEN 'ana' WHEN i <= 8000 THEN 'berger' ELSE '0310' END,
        'c' || (100000 + i) FROM n;
    INSERT INTO client(id, name, phone, sorted, erased) VALUES('z', 'Ana Berger', '0310', 'z', 0);
    INSERT INTO client_word(word, client) VALUES('ana', 'z'), ('berger', 'z'), ('0310', 'z'),
      ('viola', 'z'), ('und', 'z');)");
  ASSERT_TRUE(made) << one_line(made.error());
  using testing::ElementsAre;
  EXPECT_THAT(found("ana berger", 50), ElementsAre("z"));
  EXPECT_THAT(found("Berger An", 50), ElementsAre("z"));
  EXPECT_THAT(found("berger 031", 50), ElementsAre("z"));
  EXPECT_THAT(found("0310 ana", 50), ElementsAre("z"));
  EXPECT_THAT(found("ana berger 0310", 50), ElementsAre("z"));
  EXPECT_THAT(found("viola und ana berger 03", 50), ElementsAre("z"));
  EXPECT_EQ(found("ana", 50).size(), 50U);
  EXPECT_EQ(found("viola", 50).size(), 1U);
}

INSTANTIATE_TEST_SUITE_P(On, BookFind, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

}  // namespace
}  // namespace hw::book
