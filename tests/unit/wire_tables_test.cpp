#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "huewright/wire/contact.h"
#include "huewright/wire/csv.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::vector<std::string>> cells_of(const std::string& text) {
  const auto rows = read_csv(text);
  EXPECT_TRUE(rows) << one_line(rows.error());
  std::vector<std::vector<std::string>> all;
  for (const CsvRow& row : *rows) all.push_back(row.cells);
  return all;
}

std::string csv_error(const std::string& text) {
  const auto rows = read_csv(text);
  return rows ? "read" : one_line(rows.error());
}

// Expected values: RFC 4180 section 2 and csv-spectrum (tests/data/tables/csv_cases.json).
TEST(WireCsv, reads_the_published_cases) {
  const auto file = nlohmann::json::parse(test::test_text("tables/csv_cases.json"));
  ASSERT_EQ(file["cases"].size(), 10U);
  for (const auto& one : file["cases"]) {
    const auto expected = one["rows"].get<std::vector<std::vector<std::string>>>();
    EXPECT_EQ(cells_of(one["csv"].get<std::string>()), expected) << one["name"];
  }
}

TEST(WireCsv, reads_what_it_writes_whatever_the_text) {
  const std::vector<std::string> hostile{"=1+1",
                                         "+33 1 55 50 10 00",
                                         "-2",
                                         "@SUM(A1)",
                                         "\tTAB",
                                         "'); DROP TABLE fact;--",
                                         "<script>alert(1)</script>",
                                         "a \"quoted\" word, and; more\r\nlines",
                                         "",
                                         "Zoë 髪 \xE2\x80\xAE"
                                         "desrever"};
  std::vector<std::string> written;
  for (const std::string& text : hostile) written.push_back(csv_text(text));
  const auto rows = cells_of(csv_line(written));
  ASSERT_EQ(rows.size(), 1U);
  ASSERT_EQ(rows[0].size(), hostile.size());
  for (std::size_t i = 0; i < hostile.size(); ++i) EXPECT_EQ(plain_text(rows[0][i]), hostile[i]);
  // No cell begins as a formula does: common practice, no source.
  for (const std::string& cell : rows[0]) {
    EXPECT_TRUE(cell.empty() || std::string("=+-@\t\r").find(cell[0]) == std::string::npos) << cell;
  }
}

TEST(WireCsv, takes_the_separator_of_the_country) {
  EXPECT_EQ(cells_of("a;b\n1,5;2\n"),
            (std::vector<std::vector<std::string>>{{"a", "b"}, {"1,5", "2"}}));
  EXPECT_EQ(cells_of("\xEF\xBB\xBF"
                     "a\tb\n1\t2"),
            (std::vector<std::vector<std::string>>{{"a", "b"}, {"1", "2"}}));
  EXPECT_EQ(cells_of("a,b\n\n,\n1,2\n").size(), 2U);  // rows without any text are passed over
}

TEST(WireCsv, says_which_line_is_wrong) {
  EXPECT_THAT(csv_error("a\n\"b\nc"), HasSubstr("line 2"));
  EXPECT_THAT(csv_error("a\n\"b\"c"), HasSubstr("behind a closing quote"));
  EXPECT_THAT(csv_error("a\nb\n\xE9t\xE9"), HasSubstr("line 3"));
  for (const char* wrong :
       {"\xC0\x80", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE0\x80\x80", "\x80", "\xE2\x82"}) {
    EXPECT_THAT(csv_error(wrong), HasSubstr("UTF-8"));
  }
  EXPECT_THAT(csv_error(std::string("a\0b", 3)), HasSubstr("UTF-8"));
}

// Expected values: the author's example of RFC 6350, with an invented person.
TEST(WireContact, reads_the_example_card) {
  const auto file = nlohmann::json::parse(test::test_text("tables/vcard_case.json"));
  const auto contacts = read_vcards(file["card"].get<std::string>());
  ASSERT_TRUE(contacts) << one_line(contacts.error());
  ASSERT_EQ(contacts->read.size(), 1U);
  const Contact& one = contacts->read.front();
  EXPECT_EQ(one.name, "Alex Example");
  EXPECT_EQ(one.phone, "+1-555-555-0100 ext 102");  // the preferred of two
  EXPECT_EQ(one.email, "alex@example.com");
  EXPECT_EQ(one.language, "fr");
  EXPECT_EQ(one.address, "Suite D2-630, 2875 Example, Quebec, QC, G1V 2M2, Canada");
}

TEST(WireContact, takes_a_name_from_its_parts_and_leaves_out_who_has_none) {
  const auto contacts = read_vcards(
      "BEGIN:VCARD\nVERSION:4.0\nN:Bell;Ana;María,Luz;Dr;\nitem1.TEL:0155 0127\nNOTE:curls\\, "
      "long\\nsee "
      "card\nEND:VCARD\nBEGIN:VCARD\nVERSION:4.0\nFN:\nTEL:1\nEND:VCARD\n");
  ASSERT_TRUE(contacts);
  ASSERT_EQ(contacts->read.size(), 1U);
  EXPECT_EQ(contacts->read[0].name, "Dr Ana María Luz Bell");
  EXPECT_EQ(contacts->read[0].phone, "0155 0127");
  EXPECT_EQ(contacts->read[0].notes, "curls, long\nsee card");
  ASSERT_EQ(contacts->left_out.size(), 1U);
  EXPECT_EQ(contacts->left_out[0].line, 7U);
}

TEST(WireContact, says_what_is_wrong_with_a_card_file) {
  const auto said = [](const std::string& text) {
    const auto read = read_vcards(text);
    return read ? "read" : one_line(read.error());
  };
  EXPECT_THAT(said(""), HasSubstr("holds no card"));
  EXPECT_THAT(said("BEGIN:VCARD\nFN:Ana\n"), HasSubstr("never ended"));
  EXPECT_THAT(said("BEGIN:VCARD\nFN:Ana\nBEGIN:VCARD\nFN:B\nEND:VCARD\n"), HasSubstr("line 1"));
}

TEST(WireContact, takes_names_as_plain_text_on_one_line) {
  const auto cards = read_vcards(
      "BEGIN:VCARD\nFN: \x1b[31mAna\\nBell \x7f\nTEL:0155\t01\nNOTE:one\\ntwo\x0b\xc2\x9b"
      "2J\n"
      "END:VCARD\nBEGIN:VCARD\nFN: \xc2\x85\x07 \nEND:VCARD\n");
  ASSERT_TRUE(cards) << one_line(cards.error());
  ASSERT_EQ(cards->read.size(), 1U);
  EXPECT_EQ(cards->read[0].name, "[31mAna Bell");
  EXPECT_EQ(cards->read[0].phone, "0155 01");
  EXPECT_EQ(cards->read[0].notes, "one\ntwo  2J");
  ASSERT_EQ(cards->left_out.size(), 1U);
  const auto table = read_contact_table("name,notes,\x1b[2Jage\n\" Zoë\r\nReed\",\"a\r\nb\"\n");
  ASSERT_TRUE(table) << one_line(table.error());
  EXPECT_EQ(table->read.at(0).name, "Zoë Reed");
  EXPECT_EQ(table->read.at(0).notes, "a\nb");
  EXPECT_EQ(table->columns.at(2), "[2Jage: left out");
}

TEST(WireContact, reads_tables_in_four_languages) {
  const auto one = [](const std::string& text) {
    const auto contacts = read_contact_table(text);
    EXPECT_TRUE(contacts) << one_line(contacts.error());
    return contacts->read.empty() ? Contact{} : contacts->read.front();
  };
  const Contact english =
      one("First name,Last name,E-mail,Mobile phone\nAna,Bell,a@example.com,'+33 1\n");
  EXPECT_EQ(english.name, "Ana Bell");
  EXPECT_EQ(english.email, "a@example.com");
  EXPECT_EQ(english.phone, "+33 1");
  EXPECT_EQ(one("Prénom;Nom;Téléphone\nAna;Bell;01 55\n").name, "Ana Bell");
  EXPECT_EQ(one("Prénom;Nom;Téléphone\nAna;Bell;01 55\n").phone, "01 55");
  EXPECT_EQ(one("Nombre;Apellidos;Teléfono\nAna;Bell;55\n").name, "Ana Bell");
  EXPECT_EQ(one("Nome;Telemóvel\nAna Bell;55\n").name, "Ana Bell");
  const auto some = read_contact_table("name,shoe size\n,44\nAna,40\n");
  ASSERT_TRUE(some);
  EXPECT_THAT(some->columns, ElementsAre("name: name", "shoe size: left out"));
  EXPECT_EQ(some->left_out.size(), 1U);
  const auto none = read_contact_table("colour,size\nred,4\n");
  ASSERT_FALSE(none);
  EXPECT_THAT(one_line(none.error()), HasSubstr("no column is a name"));
}

}  // namespace
}  // namespace hw::wire
