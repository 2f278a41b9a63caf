// Papers: looked at by other programs (qpdf, pdftotext, pdfinfo), and byte by byte.
#include <gmock/gmock.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "huewright/sheets/paper.h"
#include "huewright/sheets/visit_sheets.h"
#include "support/books.h"

namespace hw::sheets {
namespace {

using testing::HasSubstr;
using testing::Not;

/// What a program says, both streams; its exit code at the end.
std::string said_by(const std::string& command) {
  std::string text;
  FILE* pipe = popen((command + " 2>&1; echo exit $?").c_str(), "r");
  std::array<char, 4096> part{};
  while (std::fgets(part.data(), part.size(), pipe) != nullptr) text += part.data();
  pclose(pipe);
  return text;
}

class Paper : public testing::Test {
 protected:
  std::string write(const Document& document, sheets::Paper paper = sheets::Paper::a4) {
    const auto pdf = pdf_of(document, paper);
    EXPECT_TRUE(pdf) << one_line(pdf.error());
    const std::string path = folder_.path() + "/sheet.pdf";
    std::ofstream(path, std::ios::binary) << *pdf;
    return path;
  }
  test::FreshFolder folder_;
};

Document everything() {
  Document made;
  made.title = "A sheet with all of it";
  made.under = "Ana Bell — Zoë";
  made.made_on = "2025-05-14";
  made.foot = "Corner salon";
  made.blocks = {Heading{"A heading"},
                 Words{"Plain words, and <b>not a tag</b> & \"quotes\"; '=1+1'."},
                 Bullets{{"first", "second"}},
                 Rows{{"pour", "grams"}, {{"cream", "45 g"}, {"developer", "90 g"}}, {2, 1}},
                 Swatches{{{{30, 10, 12}, "level 4, red"}, {{60, 5, 20}, "level 8"}}},
                 Code{"BEGIN:VCALENDAR", "the date"},
                 Blank{"name and date"}};
  return made;
}

TEST_F(Paper, is_a_pdf_that_other_programs_read) {
  const std::string path = write(everything());
  EXPECT_THAT(said_by("qpdf --check " + path), HasSubstr("exit 0"));
  const std::string text = said_by("pdftotext -layout " + path + " -");
  for (const char* words :
       {"A sheet with all of it", "Ana Bell — Zoë", "A heading", "not a tag</b> &", "first",
        "cream", "45 g", "level 4, red", "the date", "name and date", "Corner salon"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
  const std::string info = said_by("pdfinfo " + path);
  EXPECT_THAT(info, testing::ContainsRegex("Tagged: +yes"));
  EXPECT_THAT(info, HasSubstr("A4"));
  EXPECT_THAT(said_by("pdfinfo -struct-text " + path), HasSubstr("Table"));
  EXPECT_THAT(said_by("pdfinfo " + write(everything(), sheets::Paper::letter)),
              HasSubstr("letter"));
}

TEST_F(Paper, is_the_same_bytes_each_time) {
  EXPECT_EQ(*pdf_of(everything(), sheets::Paper::a4), *pdf_of(everything(), sheets::Paper::a4));
}

TEST_F(Paper, flows_over_as_many_pages_as_it_takes) {
  Document made = everything();
  Rows rows{{"n", "words"}, {}, {}};
  for (int i = 0; i < 90; ++i)
    rows.rows.push_back({std::to_string(i), "row number " + std::to_string(i)});
  made.blocks.emplace_back(std::move(rows));
  std::string longest;
  for (int i = 0; i < 1500; ++i) longest += "word" + std::to_string(i) + " ";
  made.blocks.emplace_back(Words{longest});
  made.blocks.emplace_back(Words{std::string(400, 'x')});  // no place to break it but anywhere
  const std::string path = write(made);
  const std::string text = said_by("pdftotext -layout " + path + " -");
  EXPECT_THAT(text, HasSubstr("row number 89"));
  EXPECT_THAT(text, HasSubstr("word1499"));
  EXPECT_THAT(said_by("pdfinfo " + path), testing::ContainsRegex("Pages: +([5-9]|1[0-9])"));
}

TEST_F(Paper, says_what_cannot_be_written) {
  Document made = everything();
  made.title = "\xff";
  EXPECT_THAT(one_line(pdf_of(made, sheets::Paper::a4).error()), HasSubstr("UTF-8"));
  made = everything();
  made.blocks.emplace_back(Picture{"no picture", "words"});
  EXPECT_THAT(one_line(pdf_of(made, sheets::Paper::a4).error()), HasSubstr("PNG"));
  made = everything();
  made.blocks.emplace_back(Code{std::string(5000, 'x'), "too long"});
  EXPECT_THAT(one_line(pdf_of(made, sheets::Paper::a4).error()), HasSubstr("too long"));
}

/// A visit that was poured and read, without a plan.
VisitPapers papers() {
  VisitPapers made;
  made.today = std::chrono::year(2025) / 5 / 14;
  made.salon.name = "Corner salon";
  made.client.person.name = "Ana Bell";
  made.visit.id = "v1";
  made.visit.booked.starts_at = "2025-05-14T10:00:00+02:00";
  made.visit.bowls.push_back({"1", {{"cream", 45}}, 12.5, {"roots"}});
  book::OutcomeFact outcome;
  outcome.zone = "roots";
  outcome.level = 3.5;
  made.visit.outcomes["roots"] = outcome;
  outcome.zone = "ends";
  outcome.level.reset();
  outcome.lab = std::array<double, 3>{30, 20, 16};
  made.visit.outcomes["ends"] = outcome;
  made.visit.price = 240;
  made.visit.paid = 200;
  return made;
}

TEST_F(Paper, of_a_record_card_says_what_was_done) {
  const auto card = sheet_of(SheetKind::card, papers());
  ASSERT_TRUE(card) << one_line(card.error());
  const std::string text = said_by("pdftotext -layout " + write(*card) + " -");
  for (const char* words :
       {"Record card", "14 May 2025, 10:00", "45 g", "12.5 g", "level 3.5", "measured 30 20 16",
        "level 5.0, red", "owed 40 EUR", "licensed professional"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
}

TEST_F(Paper, that_needs_a_plan_says_so) {
  for (const SheetKind kind : {SheetKind::bowls, SheetKind::aftercare, SheetKind::quote}) {
    const auto made = sheet_of(kind, papers());
    ASSERT_FALSE(made);
    EXPECT_EQ(made.error().code, ErrorCode::missing);
  }
  for (const SheetKind kind : {SheetKind::consent, SheetKind::before})
    EXPECT_TRUE(sheet_of(kind, papers()));
  EXPECT_THAT(one_line(sheet_named("poster").error()), HasSubstr("aftercare"));
}

TEST_F(Paper, before_a_visit_names_the_tests_of_the_chosen_course_and_when_they_are_read) {
  VisitPapers made = papers();
  made.plan.emplace();
  plan::Course course;
  course.bowls.emplace_back();
  course.bowls[0].parts.push_back({"copper", process::PartKind::colour, 1});
  made.plan->plan.courses.push_back(course);
  process::TestToMake test;
  test.apply_by = *process::moment_from_iso("2025-05-12T10:00+02:00");
  test.read_from = *process::moment_from_iso("2025-05-10T09:00+02:00");
  for (const char* shade : {"copper", "pearl"}) {
    test.colour.shade = shade;
    made.plan->plan.tests_to_make.push_back(test);
  }
  std::string text =
      said_by("pdftotext -layout " + write(*sheet_of(SheetKind::before, made)) + " -");
  EXPECT_THAT(text, testing::ContainsRegex("copper +12 May 2025, 10:00 +48 hours later"));
  EXPECT_THAT(text, Not(HasSubstr("pearl")));
  EXPECT_THAT(text, Not(HasSubstr("booked anew")));
  made.plan->plan.tests_to_make[0].too_late = true;
  made.plan->plan.tests_to_make[0].read_from = *process::moment_from_iso("2025-05-15T09:00+02:00");
  text = said_by("pdftotext -layout " + write(*sheet_of(SheetKind::before, made)) + " -");
  EXPECT_THAT(text, testing::ContainsRegex("copper +now +15 May 2025, 09:00"));
  EXPECT_THAT(text, HasSubstr("booked anew"));
}

TEST_F(Paper, of_bowls_is_refused_while_something_stands_against_them) {
  VisitPapers made = papers();
  made.plan.emplace();
  made.plan->plan.courses.emplace_back();
  made.plan->plan.courses[0].days.emplace_back();
  EXPECT_TRUE(sheet_of(SheetKind::bowls, made));
  made.plan->plan.refusals.push_back(
      {"skin_test", process::RefusalKind::not_until, "Test the skin first.", "rule"});
  EXPECT_TRUE(sheet_of(SheetKind::bowls, made));  // it stands against other courses
  made.plan->plan.courses[0].draft = true;
  const auto refused = sheet_of(SheetKind::bowls, made);
  ASSERT_FALSE(refused);
  EXPECT_THAT(one_line(refused.error()), HasSubstr("Test the skin first"));
  EXPECT_TRUE(sheet_of(SheetKind::quote, made));  // a draft may be quoted
}

}  // namespace
}  // namespace hw::sheets
