// Every invented head of cases/ by the textbook and by the planner, side by side: what is taught
// and where, what `plan` proposes in this run, and why they differ. The table is printed and
// written to textbook.md of the build folder.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <thread>

#include "huewright/wire/case_file.h"
#include "huewright/wire/json.h"
#include "property/plan_textbook_why.h"
#include "support/reference.h"

namespace hw::test {
namespace {

/// Least share of cases in which the plan's first course goes a way that is taught for such hair;
/// own measure of this run, with room for a case or two.
constexpr double kLeastAgreement = 0.6;

struct Row {
  std::string name;
  std::string fault;  ///< that kept it from being planned
  plan::Case head;
  TextbookAnswer book;
  plan::HeadPlan plan;
  Compared compared;
};

std::filesystem::path folder_of(const char* variable) {
  const char* folder = std::getenv(variable);
  return folder == nullptr ? std::filesystem::path() : std::filesystem::path(folder);
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

Result<plan::Case> case_of(const std::filesystem::path& path) {
  auto file = wire::decode<wire::CaseFile>(text_of(path));
  if (!file) return tl::unexpected(file.error());
  if (!file->shelf_file.empty()) {
    auto shelf = wire::decode<wire::ShelfFile>(text_of(path.parent_path() / file->shelf_file));
    if (!shelf) return tl::unexpected(shelf.error());
    file->head.shelf = std::move(shelf->shelf);
  }
  return wire::ready(*file);
}

Row row_of(const std::filesystem::path& path) {
  Row row{path.stem().string(), {}, {}, {}, {}, {}};
  InlineExecutor here;
  auto head = case_of(path);
  if (!head) {
    row.fault = head.error().where + ": " + head.error().message;
    return row;
  }
  row.head = *std::move(head);
  row.book = textbook(row.head);
  auto plan = plan::plan_head(row.head, here);
  if (!plan) {
    row.fault = plan.error().where + ": " + plan.error().message;
    return row;
  }
  row.plan = *std::move(plan);
  row.compared = compare(row.head, row.book, row.plan, here);
  return row;
}

/// All cases, planned once for all tests of this file, in the order of their names.
const std::vector<Row>& rows() {
  static const std::vector<Row> kRows = [] {
    std::vector<std::filesystem::path> paths;
    for (const auto& one :
         std::filesystem::directory_iterator(folder_of("HW_SOURCE_DIR") / "cases")) {
      if (one.path().extension() == ".json") paths.push_back(one.path());
    }
    std::sort(paths.begin(), paths.end());
    std::vector<Row> made(paths.size());
    const auto pool = make_thread_pool(std::max(1u, std::thread::hardware_concurrency()));
    pool->run(paths.size(), [&](std::size_t i) { made[i] = row_of(paths[i]); });
    return made;
  }();
  return kRows;
}

std::string joined(const std::vector<std::string>& parts) {
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string book_words(const Row& row) {
  std::vector<std::string> parts;
  for (const TextBar& bar : row.book.bars) {
    parts.push_back(fmt::format("{}: {} ({})", bar.never ? "NEVER" : "NOT UNTIL", bar.why.words,
                                bar.why.source));
  }
  std::string levels;
  for (const TextZone& zone : row.book.zones) {
    levels +=
        fmt::format("{}{:.1f} to {:.1f}", levels.empty() ? "" : ", ", zone.level, zone.wanted);
  }
  parts.push_back(fmt::format("{} ({})", words_of(row.book.method), levels));
  for (const TextStep& step : row.book.steps) {
    parts.push_back(fmt::format("{} ({})", step.words, step.source));
  }
  return joined(parts);
}

std::string plan_words(const Row& row) {
  if (row.plan.courses.empty()) return "no course";
  const plan::Course& first = row.plan.courses.front();
  return fmt::format("{}{}; {:.0f} min in the chair; ends at {}", first.draft ? "draft: " : "",
                     first.name, first.minutes.mid, levels_of(first));
}

/// Lines of at most `width` letters, cut at blanks.
std::vector<std::string> lines_of(const std::string& text, std::size_t width) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t end = std::min(at + width, text.size());
    if (end < text.size()) {
      const std::size_t blank = text.rfind(' ', end);
      if (blank != std::string::npos && blank > at) end = blank;
    }
    lines.push_back(text.substr(at, end - at));
    at = end < text.size() && text[end] == ' ' ? end + 1 : end;
  }
  return lines;
}

void print_row(const std::string& name, const std::array<std::string, 3>& cells) {
  constexpr std::size_t kWidth = 50;
  std::array<std::vector<std::string>, 3> lines;
  std::size_t most = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    lines[i] = lines_of(cells[i], kWidth);
    most = std::max(most, lines[i].size());
  }
  std::cout << name << '\n';
  for (std::size_t line = 0; line < most; ++line) {
    std::cout << "  ";
    for (const auto& cell : lines) {
      std::cout << fmt::format("{:<{}} | ", line < cell.size() ? cell[line] : "", kWidth);
    }
    std::cout << '\n';
  }
}

TEST(PlanTextbook, every_case_has_an_answer_from_both) {
  EXPECT_GE(rows().size(), 20u);
  std::ofstream page(folder_of("HW_BINARY_DIR") / "textbook.md");
  page << "| case | textbook (source) | plan | why they differ |\n|---|---|---|---|\n";
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    ASSERT_EQ(row.fault, "");
    EXPECT_TRUE(!row.book.steps.empty() || !row.book.bars.empty());
    EXPECT_TRUE(!row.plan.courses.empty() || row.plan.refused());
    const std::array<std::string, 3> cells{book_words(row), plan_words(row),
                                           joined(row.compared.why)};
    print_row(row.name, cells);
    page << fmt::format("| {} | {} | {} | {} |\n", row.name, cells[0], cells[1], cells[2]);
  }
  EXPECT_TRUE(page.good());
}

TEST(PlanTextbook, what_the_textbook_forbids_the_plan_does_not_offer) {
  std::size_t never = 0, wait = 0, filled = 0;
  for (const Row& row : rows()) {
    EXPECT_EQ(joined(row.compared.faults), "") << row.name;
    for (const TextBar& bar : row.book.bars) ++(bar.never ? never : wait);
    for (const TextZone& zone : row.book.zones) filled += zone.fill ? 1 : 0;
  }
  std::cout << fmt::format("{} refusals, {} waits and {} fillers due by the textbook\n", never,
                           wait, filled);
  EXPECT_GT(never, 0u);
  EXPECT_GT(wait, 0u);
  EXPECT_GT(filled, 0u);
}

TEST(PlanTextbook, goes_a_way_that_is_taught_in_most_cases_and_says_why_in_the_others) {
  std::size_t first = 0, taught = 0, among = 0;
  for (const Row& row : rows()) {
    first += row.compared.first_choice ? 1 : 0;
    taught += row.compared.agrees ? 1 : 0;
    among += row.compared.agrees || std::any_of(row.plan.courses.begin(), row.plan.courses.end(),
                                                [&](const plan::Course& one) {
                                                  return row.book.allows(method_of(row.head, one));
                                                })
                 ? 1
                 : 0;
    EXPECT_FALSE(row.compared.why.empty()) << row.name;
    for (const std::string& why : row.compared.why) EXPECT_NE(why, "") << row.name;
  }
  const double all = static_cast<double>(rows().size());
  std::cout << fmt::format(
      "of {} cases the first course goes the textbook's first way in {} ({:.0f} %), a way that is "
      "taught in {} ({:.0f} %), and some course shown does in {} ({:.0f} %)\n",
      rows().size(), first, 100 * first / all, taught, 100 * taught / all, among,
      100 * among / all);
  EXPECT_GE(taught / all, kLeastAgreement);
}

}  // namespace
}  // namespace hw::test
