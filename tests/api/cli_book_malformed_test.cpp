// What the book's commands say to input that can be mended: exit 2, nothing on standard output, one
// line on the error stream with the path of the fault, and nothing written.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "program.h"
#include "support/books.h"
#include "support/reference.h"

namespace hw::test {
namespace {

class CliBookMalformed : public testing::Test {
 protected:
  CliBookMalformed() {
    std::filesystem::create_directory(home_.path() + "/bad");
    put("there/book.jsonl");
    const Ran there = run("import " + home_.path() + "/bad");
    EXPECT_EQ(there.out, "3 facts read.\n") << there.err;
  }
  Ran run(const std::string& arguments, const std::string& input = "") {
    return run_program(arguments, input,
                       "HUEWRIGHT_BOOK=" + home_.path() + "/salon HUEWRIGHT_BY=Ines TZ=UTC");
  }
  /// A file as the book.jsonl of a folder to import.
  void put(const std::string& file) {
    std::ofstream(bad(), std::ios::binary) << test_text("malformed/book/" + file);
  }
  [[nodiscard]] std::string bad() const { return home_.path() + "/bad/book.jsonl"; }
  std::string exported(const std::string& to) {
    EXPECT_EQ(run("export " + home_.path() + to).exit_code, 0);
    std::ifstream in(home_.path() + to + "/book.jsonl", std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  void expect_line(const std::string& arguments, const std::string& input,
                   const std::string& line) {
    const Ran ran = run(arguments, input);
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, line + "\n");
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1);
  }

  FreshFolder home_;
};

TEST_F(CliBookMalformed, every_file_has_its_line) {
  const Table table = test_table("malformed/book/messages.csv");
  ASSERT_GE(table.rows(), 60U);
  const std::string before = exported("/before");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string file = *table.text(row, "file");
    SCOPED_TRACE(file);
    const std::string command = *table.text(row, "command");
    const std::string message = *table.text(row, "message");
    if (command == "import") {
      put(file);
      expect_line("import " + home_.path() + "/bad", "", bad() + ": " + message);
      continue;
    }
    expect_line(command + (row % 2 == 0 ? " -" : " - --json"), test_text("malformed/book/" + file),
                "standard input: " + message);
  }
  EXPECT_EQ(exported("/after"), before);
}

TEST_F(CliBookMalformed, a_file_is_called_by_its_name) {
  const TemporaryFile file(R"({"client":"nobody","starts_at":"2025-05-14T10:00Z"})");
  expect_line("visit book '" + file.path() + "'", "",
              file.path() +
                  ": client: the book has no client \"nobody\"; add the client first, or "
                  "give the id of one that is there");
}

TEST_F(CliBookMalformed, words_of_the_command_line_are_called_so) {
  const std::string allergy = R"({"facts":[{"kind":"allergy","body":{"to":"hair dye"}}]})";
  expect_line("client record nobody -", allergy,
              "the id of a client: the book has no client \"nobody\"; add the client first, or "
              "give the id of one that is there");
  for (const char* grams : {"nan", "inf", "many", ""}) {
    expect_line(std::string("shelf count mask '") + grams + "'", "",
                std::string("GRAMS: \"") + grams + "\" is no number; give grams as 412.5");
  }
  expect_line("shelf count mask 1e9", "", "GRAMS: 1000000000 is out of range; give 0 to 1000000 g");
  expect_line("shelf count copper 40", "",
              "PRODUCT: the book has no product \"copper\"; add the product first, or give the id "
              "of one that is there");
  expect_line("client add - --by \"$(printf 'a\\tb')\"", R"({"name":"Ana"})",
              "--by: is no name; give at most 100 plain letters");
}

TEST_F(CliBookMalformed, contacts_are_read_whole_or_refused) {
  // More than a request may have, so that nobody at the end of a long list is lost.
  const std::string row = "Ana " + std::string(1900, 'x') + ",1\n";
  std::string text = "name,phone\n";
  for (int i = 0; i < 2300; ++i) text += row;
  ASSERT_GT(text.size(), 4'194'304U);
  text += "Last One,2\n";
  const Ran ran = run("client import -", text);
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, testing::HasSubstr("Last One"));
}

}  // namespace
}  // namespace hw::test
