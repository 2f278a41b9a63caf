#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "huewright/book/client_facts.h"
#include "huewright/book/folder.h"
#include "huewright/book/visit_facts.h"
#include "support/books.h"
#include "support/reference.h"

namespace hw::book {
namespace {

TEST(BookFolder, hashes_as_the_standard_says) {
  // FIPS 180-4's example message, as NIST publishes it.
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(BookFolder, keeps_photos_by_their_bytes_and_sees_what_is_amiss) {
  const test::FreshFolder home;
  const auto folder = Folder::open(home.path() + "/salon");
  ASSERT_TRUE(folder) << one_line(folder.error());
  const auto kept = (*folder)->keep_photo("bytes of a photo");
  ASSERT_TRUE(kept);
  EXPECT_EQ(*(*folder)->photo(*kept), "bytes of a photo");
  EXPECT_EQ((*folder)->examine_photos()->size(), 1U);  // nothing names it yet

  PersonFact ana;
  ana.name = "Ana";
  BookedFact visit;
  visit.client = "c1";
  visit.starts_at = "2025-05-14T10:00Z";
  const std::vector<Fact> facts{test::fact("f1", "c1", ana), test::fact("f2", "v1", visit),
                                test::fact("f3", "v1", PhotoFact{*kept, "before", {}, {}})};
  ASSERT_TRUE((*folder)->store().append(facts));
  EXPECT_TRUE((*folder)->examine_photos()->empty());
  std::ofstream((*folder)->path() + "/photos/" + *kept) << "other bytes";
  EXPECT_EQ((*folder)->examine_photos()->size(), 1U);
  std::filesystem::remove((*folder)->path() + "/photos/" + *kept);
  EXPECT_EQ((*folder)->examine_photos()->size(), 1U);
  EXPECT_FALSE((*folder)->photo("../book.db"));
}

TEST(BookFolder, knows_an_unclean_stop) {
  const test::FreshFolder home;
  EXPECT_FALSE((*Folder::open(home.path()))->was_unclean());
  EXPECT_FALSE((*Folder::open(home.path()))->was_unclean());
  std::ofstream(home.path() + "/open") << "1";
  EXPECT_TRUE((*Folder::open(home.path()))->was_unclean());
  EXPECT_FALSE((*Folder::open(home.path()))->was_unclean());
}

TEST(BookFolder, opens_no_file_and_no_strange_database) {
  const test::FreshFolder home;
  std::ofstream(home.path() + "/file") << "text";
  EXPECT_FALSE(Folder::open(home.path() + "/file"));
  std::filesystem::create_directory(home.path() + "/other");
  std::ofstream(home.path() + "/other/book.db") << std::string(5000, 'x');
  const auto folder = Folder::open(home.path() + "/other");
  ASSERT_FALSE(folder);
  EXPECT_EQ(folder.error().code, ErrorCode::io);
}

}  // namespace
}  // namespace hw::book
