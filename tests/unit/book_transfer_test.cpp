#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "huewright/book/client_facts.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/book/transfer.h"
#include "huewright/book/visit_facts.h"
#include "support/books.h"

namespace hw::book {
namespace {

using test::fact;

std::string bytes_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A book with hostile names, amended and erased facts, and a photo.
std::unique_ptr<Folder> full(const std::string& path) {
  auto folder = *Folder::open(path);
  PersonFact ana;
  ana.name = "Ana =1+1 '); DROP TABLE fact;-- <b>ö</b> ☂ \"q\" \\";
  ana.notes = std::string(1500, 'x') + "\nsecond line\t=cmd";
  PersonFact gone;
  gone.name = "Gone Person";
  BookedFact visit;
  visit.client = "c1";
  visit.starts_at = "2025-05-14T10:00+02:00";
  BookedFact other = visit;
  other.client = "c2";
  ProductFact mask;
  mask.product.id = "mask";
  mask.product.kind = process::PartKind::treatment;
  const std::string photo = *folder->keep_photo("a photo");
  const std::string lost = *folder->keep_photo("another photo");
  std::vector<Fact> facts{fact("f1", "c1", ana),
                          fact("f2", "c2", gone),
                          fact("f3", "v1", visit),
                          fact("f4", "v2", other),
                          fact("f5", "mask", mask),
                          fact("f6", "v1", PourFact{"1", "mask", {}, 40}),
                          fact("f7", "v1", PourFact{"1", "mask", {}, 44}),
                          fact("f8", "v1", PhotoFact{photo, "after", {}, {}}),
                          fact("f9", "v2", PhotoFact{lost, "after", {}, {}}),
                          fact("g1", "v2", PaymentFact{80, "visit", "cash"}),
                          fact("g2", "v3", EnquiryFact{"c2", "copper"}),
                          fact("g3", "v3", PaymentFact{20, "deposit", "cash"}),
                          fact("g4", "v2", ApplyFact{"1", "roots"})};
  facts[6].amends = "f6";
  EXPECT_TRUE(folder->store().append(facts));
  EXPECT_TRUE(erase_with_photos(*folder, "c2", fact("e1", "c2", ErasedFact{})));
  EXPECT_FALSE(folder->photo(lost));
  EXPECT_TRUE(folder->photo(photo));
  return folder;
}

class BookTransfer : public testing::TestWithParam<const char*> {
 protected:
  /// An empty data folder on the database of this run.
  std::string empty_folder() {
    const std::string path = home_.path() + "/into";
    if (std::string(GetParam()) == "sqlite") return path;
    const std::string schema = "transfer" + std::to_string(getpid());
    auto sql = open_postgresql(test::postgresql_connection());
    EXPECT_TRUE(
        (*sql)->script("DROP SCHEMA IF EXISTS " + schema + " CASCADE; CREATE SCHEMA " + schema));
    std::filesystem::create_directory(path);
    std::ofstream(path + "/connection")
        << test::postgresql_connection() << " options='-csearch_path=" << schema << "'\n";
    return path;
  }
  test::FreshFolder home_;
};

TEST_P(BookTransfer, out_in_and_out_again_gives_the_same_bytes) {
  const auto from = full(home_.path() + "/from");
  const auto facts = export_book(*from, home_.path() + "/one");
  ASSERT_TRUE(facts) << one_line(facts.error());
  const auto into = Folder::open(empty_folder());
  ASSERT_TRUE(into) << one_line(into.error());
  const auto read = import_book(**into, home_.path() + "/one");
  ASSERT_TRUE(read) << one_line(read.error());
  EXPECT_EQ(*read, *facts);
  ASSERT_TRUE(import_book(**into, home_.path() + "/one"));  // twice is harmless
  ASSERT_TRUE(export_book(**into, home_.path() + "/two"));
  EXPECT_EQ(bytes_of(home_.path() + "/one/book.jsonl"), bytes_of(home_.path() + "/two/book.jsonl"));
  EXPECT_TRUE((*into)->store().examine()->empty());
  EXPECT_TRUE((*into)->examine_photos()->empty());
  EXPECT_DOUBLE_EQ((*into)->store().stock()->front().grams, -44);
}

TEST_P(BookTransfer, who_was_erased_there_is_erased_here_and_stays_so) {
  const auto from = full(home_.path() + "/from");
  ASSERT_TRUE(export_book(*from, home_.path() + "/before"));
  const auto into = *Folder::open(empty_folder());
  ASSERT_TRUE(import_book(*into, home_.path() + "/before"));
  ASSERT_TRUE(erase_with_photos(*from, "c1", fact("e2", "c1", ErasedFact{})));
  ASSERT_TRUE(export_book(*from, home_.path() + "/after"));
  const auto read = import_book(*into, home_.path() + "/after");
  ASSERT_TRUE(read) << one_line(read.error());
  EXPECT_TRUE(into->store().client("c1")->erased);
  EXPECT_TRUE(into->store().find_clients("ana", 9)->empty());
  EXPECT_TRUE(into->store().examine()->empty());
  PersonFact again;
  again.name = "Ana";
  const Fact late = fact("z1", "c1", again);
  const auto told = into->store().append({&late, 1});
  ASSERT_FALSE(told);
  EXPECT_THAT(one_line(told.error()), testing::HasSubstr("erased by law"));
}

INSTANTIATE_TEST_SUITE_P(Into, BookTransfer, testing::Values("sqlite", "postgresql"),
                         [](const auto& one) { return std::string(one.param); });

TEST(BookExport, of_one_client_holds_them_and_nobody_else) {
  const test::FreshFolder home;
  const auto from = full(home.path() + "/from");
  const Fact eve = fact("h1", "c3", [] {
    PersonFact made;
    made.name = "Eve Other";
    return made;
  }());
  ASSERT_TRUE(from->store().append({&eve, 1}));
  ASSERT_TRUE(export_book(*from, home.path() + "/hers", "c1"));
  const std::string text = bytes_of(home.path() + "/hers/book.jsonl");
  EXPECT_THAT(text, testing::HasSubstr("Ana =1+1"));
  EXPECT_THAT(text, testing::Not(testing::HasSubstr("Eve")));
  EXPECT_FALSE(std::filesystem::is_empty(home.path() + "/hers/photos"));
  EXPECT_FALSE(export_book(*from, home.path() + "/hers", "c1"));  // not over what is there
  EXPECT_FALSE(export_book(*from, home.path() + "/nobody", "c9"));
}

TEST(BookImport, says_which_line_is_wrong_and_takes_no_half_batch) {
  const test::FreshFolder home;
  const auto into = *Folder::open(home.path() + "/into");
  const auto refused = [&](const std::string& text) {
    std::filesystem::create_directories(home.path() + "/bad");
    std::ofstream(home.path() + "/bad/book.jsonl", std::ios::binary) << text;
    const auto read = import_book(*into, home.path() + "/bad");
    return read ? "taken" : one_line(read.error());
  };
  const std::string head = R"({"format":"huewright book","version":1})"
                           "\n";
  EXPECT_THAT(refused(""), testing::HasSubstr("is empty"));
  EXPECT_THAT(refused("{}\n"), testing::HasSubstr("line 1"));
  EXPECT_THAT(refused(R"({"format":"huewright book","version":2})"
                      "\n"),
              testing::HasSubstr("another format or version"));
  EXPECT_THAT(refused(head + "nonsense\n"), testing::HasSubstr("line 2"));
  const std::string good = wire::encode(fact("f1", "c1",
                                             [] {
                                               PersonFact made;
                                               made.name = "Ana";
                                               return made;
                                             }())) +
                           "\n";
  const std::string lost = wire::encode(fact("f2", "v9", FinishedFact{})) + "\n";
  EXPECT_THAT(refused(head + good + lost), testing::HasSubstr("no visit \"v9\""));
  EXPECT_THAT(refused(head + good + lost), testing::HasSubstr("book.jsonl: line 3, subject: "));
  EXPECT_THAT(refused(head + good + "{\"id\""), testing::HasSubstr("line 3, column 6: not JSON"));
  EXPECT_EQ(*into->store().count_facts(), 0);
  EXPECT_EQ(refused(head + good), "taken");
}

}  // namespace
}  // namespace hw::book
