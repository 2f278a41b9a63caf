// Input that can be mended: exit 2, nothing on standard output, one line on the error stream.
#include <gmock/gmock.h>

#include <algorithm>

#include "api/program.h"
#include "support/reference.h"

namespace hw::test {
namespace {

void expect_one_line(const Ran& ran, const std::string& line) {
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, line + "\n");
}

TEST(CliMalformed, every_file_has_its_line) {
  const Table table = test_table("malformed/messages.csv");
  ASSERT_GE(table.rows(), 20u);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string file = *table.text(row, "file");
    SCOPED_TRACE(file);
    const std::string text = test_text("malformed/" + file);
    const std::string line = "standard input: " + *table.text(row, "message");
    for (const std::string how : {" - --json", " -"}) {
      expect_one_line(run_program(*table.text(row, "command") + how, text), line);
    }
    EXPECT_EQ(std::count(line.begin(), line.end(), '\n'), 0);
  }
}

/// The parts of an error line: what is wrong without its place, and each sentence of the hint.
std::vector<std::string> sentences_of(const std::string& line) {
  std::vector<std::string> all;
  for (std::size_t from = 0; from < line.size();) {
    const std::size_t end = std::min(line.find("; ", from), line.size());
    all.push_back(line.substr(from, end - from));
    from = end + 2;
  }
  if (const std::size_t at = all.front().rfind(": "); at != std::string::npos) {
    all.front().erase(0, at + 2);
  }
  return all;
}

TEST(CliMalformed, every_line_is_told_in_each_language) {
  const Table table = test_table("malformed/messages.csv");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string file = *table.text(row, "file");
    const std::string text = test_text("malformed/" + file);
    const std::vector<std::string> english = sentences_of(*table.text(row, "message"));
    for (const std::string tag : {"es", "fr", "pt"}) {
      SCOPED_TRACE(file + " " + tag);
      const Ran ran =
          run_program("--language " + tag + ' ' + *table.text(row, "command") + " -", text);
      EXPECT_EQ(ran.exit_code, 2);
      EXPECT_EQ(ran.out, "");
      EXPECT_THAT(ran.err, testing::Not(testing::HasSubstr("standard input")));
      for (const std::string& one : english) {
        EXPECT_THAT(ran.err, testing::Not(testing::HasSubstr(one))) << one;
      }
    }
  }
}

TEST(CliMalformed, a_file_is_called_by_its_name) {
  const TemporaryFile file(R"({"parts": 3})");
  expect_one_line(run_program("bowl '" + file.path() + "'"),
                  file.path() + ": parts: the number 3 stands here; give a list in [ ]");
}

TEST(CliMalformed, four_mebibytes_are_read_and_no_byte_more) {
  constexpr std::size_t kMost = 4194304;
  std::string text = kSoapCap;
  text.resize(kMost, ' ');
  EXPECT_EQ(run_program("bowl -", text).exit_code, 0);
  expect_one_line(
      run_program("bowl -", text + " "),
      "standard input: the input has more than 4194304 bytes; give one request at a time");
}

TEST(CliMalformed, what_the_user_typed_cannot_steer_the_terminal) {
  const Ran ran = run_program(
      "bowl -", "{\"\\u001b[31m\\u0000\\u0085\\u2028\\n" + std::string(5000, 'x') + "\": 1}");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1);
  EXPECT_LT(ran.err.size(), 200u);
  for (const char c : ran.err) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20);
  EXPECT_THAT(ran.err, testing::StartsWith("standard input: \"?[31m????xxx"));
}

TEST(CliMalformed, a_command_line_that_can_be_mended) {
  for (const auto& [arguments, fault] :
       {std::pair{"", "no command is given"}, std::pair{"dye -", "\"dye\" is no command"}}) {
    const Ran ran = run_program(arguments);
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_THAT(ran.err, testing::MatchesRegex("command line: " + std::string(fault) +
                                               "; give one of [a-z, ]*lift[a-z, ]*, or --help\n"));
  }
  expect_one_line(run_program("lift"),
                  "command line: no input file is given; name a file, or - for standard input");
  expect_one_line(run_program("bowl no_such_file.json"),
                  "no_such_file.json: the file cannot be opened; check its name and whether you "
                  "may read it");
  expect_one_line(run_program("bowl ."), ".: this is a folder; name a file in it");
  EXPECT_EQ(run_program("bowl - --jsn", kSoapCap).exit_code, 2);
}

}  // namespace
}  // namespace hw::test
