// Every sheet of example heads in every language: nothing but names stays English.
#include <gmock/gmock.h>

#include <set>

#include "huewright/sheets/visit_sheets.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/json.h"
#include "support/reference.h"

namespace hw::sheets {
namespace {

/// An example head with its shelf, as it stands in cases/.
wire::CaseFile example(const std::string& name) {
  auto file = wire::decode<wire::CaseFile>(test::test_text("../../cases/" + name + ".json"));
  HW_CHECK(file.has_value());
  const auto shelf =
      wire::decode<wire::ShelfFile>(test::test_text("../../cases/" + file->shelf_file));
  HW_CHECK(shelf.has_value());
  file->head.shelf = shelf->shelf;
  file->shelf_file.clear();
  return *std::move(file);
}

VisitPapers papers(const wire::CaseFile& file) {
  VisitPapers made;
  made.today = std::chrono::year(2025) / 5 / 14;
  made.salon.name = "Corner salon";
  made.client.person.name = "Ana Bell";
  made.visit.id = "v1";
  made.visit.booked.starts_at = "2025-05-14T10:00:00+02:00";
  made.visit.plan = book::PlanFact{.program = "test",
                                   .constants = "test",
                                   .zones = {},
                                   .case_json = wire::encode(file),
                                   .answer_json = {}};
  made.visit.bowls.push_back({"1", {{"cream", 45}}, 12.5, {"roots"}});
  book::OutcomeFact outcome;
  outcome.zone = "roots";
  outcome.level = 3.5;
  outcome.tone = "copper";
  made.visit.outcomes["roots"] = outcome;
  made.visit.price = 240;
  made.visit.paid = 200;
  made.visit.aftercare =
      book::AftercareFact{.words = "", .refresh_on = "2025-06-25", .regrowth_on = "2025-07-02"};
  return made;
}

/// Every text of a sheet, in order.
std::vector<std::string> texts_of(const Document& sheet) {
  std::vector<std::string> all{sheet.title};
  const auto add = [&](const auto& block) {
    using Block = std::decay_t<decltype(block)>;
    if constexpr (std::is_same_v<Block, Heading> || std::is_same_v<Block, Words>) {
      all.push_back(block.text);
    } else if constexpr (std::is_same_v<Block, Bullets>) {
      all.insert(all.end(), block.texts.begin(), block.texts.end());
    } else if constexpr (std::is_same_v<Block, Rows>) {
      all.insert(all.end(), block.columns.begin(), block.columns.end());
      for (const auto& row : block.rows) all.insert(all.end(), row.begin(), row.end());
    } else if constexpr (std::is_same_v<Block, Swatches>) {
      for (const Swatch& swatch : block.swatches) all.push_back(swatch.words);
    } else {
      all.push_back(block.words);
    }
  };
  for (const Block& block : sheet.blocks) std::visit(add, block);
  return all;
}

/// Words that a language may share with English, and names.
bool may_stay(const std::string& text, const std::set<std::string>& names) {
  static const std::set<std::string> kShared{"", "zone", "bol", "gloss", "violet", "total", "mat", "Tests"};
  if (names.contains(text) || kShared.contains(text)) return true;
  int letters = 0;
  for (const char c : text) letters += c >= 'a' && c <= 'z' ? 1 : 0;
  return letters < 3;  // "45 g", "240 EUR"
}

class SheetInEveryLanguage : public testing::TestWithParam<const char*> {};

TEST_P(SheetInEveryLanguage, says_all_of_it) {
  const wire::CaseFile file = example(GetParam());
  std::set<std::string> names{"Ana Bell", "cream"};
  for (const process::Product& product : file.head.shelf) {
    names.insert(product.id);
    names.insert(product.words);
  }
  const auto threads = make_thread_pool(2);
  VisitPapers made = papers(file);
  {
    const auto done = plan_papers(made, *threads);
    ASSERT_TRUE(done) << one_line(done.error());
  }
  for (const SheetKind kind : {SheetKind::bowls, SheetKind::card, SheetKind::aftercare,
                               SheetKind::quote, SheetKind::consent, SheetKind::before}) {
    made.language = Language::en;
    const auto english = sheet_of(kind, made);
    if (!english) continue;  // a refusal stands
    const auto ours = texts_of(*english);
    for (const Language language : {Language::es, Language::fr, Language::pt}) {
      made.language = language;
      const auto theirs_sheet = sheet_of(kind, made);
      ASSERT_TRUE(theirs_sheet);
      EXPECT_EQ(theirs_sheet->language, tag_of(language));
      const auto theirs = texts_of(*theirs_sheet);
      ASSERT_EQ(theirs.size(), ours.size());
      for (std::size_t i = 0; i < ours.size(); ++i) {
        if (may_stay(ours[i], names)) continue;
        EXPECT_NE(theirs[i], ours[i]) << tag_of(language);
        EXPECT_EQ(theirs[i].find('{'), std::string::npos) << theirs[i];
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Heads, SheetInEveryLanguage,
                         testing::Values("01-coils-to-mahogany", "02-old-dark-ends",
                                         "05-a-third-white", "07-light-ends-going-dark",
                                         "12-black-box-colour", "19-no-skin-test",
                                         "26-sensitive-scalp"));

}  // namespace
}  // namespace hw::sheets
