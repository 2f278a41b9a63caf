// What is printed is what is read: the sheet's PDF, made into pixels by another program (pdftoppm),
// measured with a ruler of our own, and photographed askew.
#include <gmock/gmock.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "huewright/colour/difference.h"
#include "huewright/sheets/chart_paper.h"
#include "support/photo_wish.h"
#include "tags.h"

namespace hw::photo::test {
namespace {

using hw::test::PhotoScene;
using hw::test::PrintedPage;
using hw::test::strands;
using hw::test::usual_scene;
using hw::test::wish_for;

constexpr double kDotsPerInch = 300;
constexpr double kPxPerMm = kDotsPerInch / 25.4;

/// The page in grey, as poppler draws it.
PrintedPage print(const ChartSheet& sheet, sheets::Paper paper, Language language = Language::en) {
  namespace fs = std::filesystem;
  const auto pdf = sheets::chart_paper(sheet, paper, language);
  EXPECT_TRUE(pdf) << one_line(pdf.error());
  const fs::path folder = fs::temp_directory_path() / ("hw_print_" + std::to_string(getpid()));
  fs::create_directories(folder);
  std::ofstream(folder / "sheet.pdf", std::ios::binary) << *pdf;
  const std::string command = "pdftoppm -gray -r 300 -singlefile '" +
                              (folder / "sheet.pdf").string() + "' '" + (folder / "page").string() +
                              "' 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << "pdftoppm of poppler-utils: scripts/install test";
  std::ifstream file(folder / "page.pgm", std::ios::binary);
  PrintedPage page;
  std::string kind;
  int most = 0;
  file >> kind >> page.width >> page.height >> most;
  file.get();
  EXPECT_EQ(kind, "P5");
  EXPECT_EQ(most, 255);
  page.px_per_mm = kPxPerMm;
  page.grey.resize(page.width * page.height);
  file.read(reinterpret_cast<char*>(page.grey.data()),
            static_cast<std::streamsize>(page.grey.size()));
  EXPECT_TRUE(file);
  fs::remove_all(folder);
  return page;
}

bool is_dark(const PrintedPage& page, std::size_t x, std::size_t y) {
  return page.grey[y * page.width + x] < 128;
}

struct Box {  // mm from the page's upper left corner
  double left = 0, top = 0, right = 0, bottom = 0;
};

/// Bounds of every connected piece of ink.
std::vector<Box> pieces(const PrintedPage& page) {
  std::vector<char> seen(page.grey.size(), 0);
  std::vector<Box> found;
  for (std::size_t start = 0; start < page.grey.size(); ++start) {
    if (seen[start] != 0 || page.grey[start] >= 128) continue;
    std::size_t left = page.width, right = 0, top = page.height, bottom = 0;
    std::vector<std::size_t> left_to_see{start};
    seen[start] = 1;
    while (!left_to_see.empty()) {
      const std::size_t at = left_to_see.back();
      left_to_see.pop_back();
      const std::size_t x = at % page.width;
      const std::size_t y = at / page.width;
      left = std::min(left, x);
      right = std::max(right, x + 1);
      top = std::min(top, y);
      bottom = std::max(bottom, y + 1);
      const auto look = [&](std::size_t next) {
        if (seen[next] != 0 || page.grey[next] >= 128) return;
        seen[next] = 1;
        left_to_see.push_back(next);
      };
      if (x > 0) look(at - 1);
      if (x + 1 < page.width) look(at + 1);
      if (y > 0) look(at - page.width);
      if (y + 1 < page.height) look(at + page.width);
    }
    found.push_back({static_cast<double>(left) / kPxPerMm, static_cast<double>(top) / kPxPerMm,
                     static_cast<double>(right) / kPxPerMm,
                     static_cast<double>(bottom) / kPxPerMm});
  }
  return found;
}

/// The black squares of the tags, clockwise from the upper left: pieces of ink as large as one.
std::vector<Box> squares(const PrintedPage& page) {
  std::vector<Box> all = pieces(page);
  std::erase_if(all, [](const Box& box) {
    const double wide = box.right - box.left;
    const double high = box.bottom - box.top;
    return wide < 15 || wide > 25 || high < 15 || high > 25;
  });
  if (all.size() != 4) return all;
  std::ranges::sort(all, {}, &Box::top);
  if (all[0].left > all[1].left) std::swap(all[0], all[1]);
  if (all[2].left < all[3].left) std::swap(all[2], all[3]);
  return all;
}

/// Share of a straight line that is ink, within a tenth of a millimetre to either side.
double inked(const PrintedPage& page, double x0, double y0, double x1, double y1) {
  constexpr int kSteps = 400;
  int dark = 0;
  for (int i = 0; i <= kSteps; ++i) {
    const double t = static_cast<double>(i) / kSteps;
    bool here = false;
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy) {
        const auto x = static_cast<std::size_t>((x0 + t * (x1 - x0)) * kPxPerMm + dx);
        const auto y = static_cast<std::size_t>((y0 + t * (y1 - y0)) * kPxPerMm + dy);
        here = here || is_dark(page, x, y);
      }
    }
    dark += here ? 1 : 0;
  }
  return static_cast<double>(dark) / (kSteps + 1);
}

struct Print {
  std::string name;
  ChartSheet sheet;
  sheets::Paper paper;
};

std::vector<Print> prints() {
  std::vector<Print> all;
  for (const ChartKind kind :
       {ChartKind::patches_before, ChartKind::patches_after, ChartKind::grey_card}) {
    all.push_back({std::string(name_of(kind)) + ", A4", {kind, 90, 60}, sheets::Paper::a4});
    all.push_back({std::string(name_of(kind)) + ", Letter", {kind, 90, 60}, sheets::Paper::letter});
  }
  return all;
}

TEST(PhotoPrint, tags_window_and_ruler_are_where_the_millimetres_say) {
  std::vector<Print> all = prints();
  // As large as a chart may be, lying along the paper, its words inside the window.
  all.push_back({"large, A4", {ChartKind::patches_after, 160, 110}, sheets::Paper::a4});
  for (const auto& [name, sheet, paper] : all) {
    SCOPED_TRACE(name);
    const PrintedPage page = print(sheet, paper);
    // ISO 216 A4 is 210 × 297 mm; Letter (ANSI/ASME Y14.1) 8.5 × 11 inches.
    const double shorter = paper == sheets::Paper::a4 ? 210 : 215.9;
    const double longer = paper == sheets::Paper::a4 ? 297 : 279.4;
    EXPECT_NEAR(static_cast<double>(std::min(page.width, page.height)) / kPxPerMm, shorter, 0.2);
    EXPECT_NEAR(static_cast<double>(std::max(page.width, page.height)) / kPxPerMm, longer, 0.2);
    const auto tags = squares(page);
    ASSERT_EQ(tags.size(), 4U);
    constexpr double kPixel = 1.5 / kPxPerMm;  // mm
    for (const Box& tag : tags) {
      EXPECT_NEAR(tag.right - tag.left, 20, kPixel);
      EXPECT_NEAR(tag.bottom - tag.top, 20, kPixel);
      // Printers leave an edge white: 5 mm is usual (common practice, no source).
      EXPECT_GT(std::min(tag.left, tag.top), 5);
    }
    const double left = tags[0].right + 8;
    const double top = tags[0].bottom + 8;
    const double right = tags[2].left - 8;
    const double bottom = tags[2].top - 8;
    EXPECT_NEAR(right - left, sheet.width_mm, 2 * kPixel);
    EXPECT_NEAR(bottom - top, sheet.height_mm, 2 * kPixel);
    // The broken line to cut along: half of it is ink.
    EXPECT_NEAR(inked(page, left, top, right, top), 0.55, 0.15);
    EXPECT_NEAR(inked(page, left, bottom, right, bottom), 0.55, 0.15);
    EXPECT_NEAR(inked(page, left, top, left, bottom), 0.55, 0.15);
    EXPECT_NEAR(inked(page, right, top, right, bottom), 0.55, 0.15);
    // The line to check the print by, with its two ends.
    const auto all_ink = pieces(page);
    const auto ruler = std::ranges::find_if(all_ink, [](const Box& box) {
      return box.right - box.left > 90 && box.bottom - box.top < 5;
    });
    ASSERT_NE(ruler, all_ink.end());
    EXPECT_NEAR(ruler->right - ruler->left, 100, 0.4);  // from middle to middle of its ends
  }
}

TEST(PhotoPrint, a_photo_of_the_print_is_read) {
  for (const auto& [name, sheet, paper] : prints()) {
    SCOPED_TRACE(name);
    auto page = std::make_shared<PrintedPage>(print(sheet, paper));
    const auto tags = squares(*page);
    ASSERT_EQ(tags.size(), 4U);
    page->window_at_mm = {tags[0].right + 8, tags[0].bottom + 8};
    PhotoScene scene = usual_scene(sheet.kind == ChartKind::grey_card ? 2 : 0);
    scene.printed = page;
    scene.tilt = 0.0007;  // nearly a tenth nearer on one side of the sheet than on the other
    scene.degrees = -7;
    scene.noise = 0.02;
    scene.line = {{930, 90}, {960, 820}};  // beside the paper, which is not cut smaller
    const std::string photo = hw::test::render(scene);
    const auto picture = decode_jpeg(photo);
    ASSERT_TRUE(picture);
    const Frame frame(*picture);
    const auto found = find_sheet(frame);
    ASSERT_TRUE(found && *found);
    EXPECT_EQ((*found)->sheet.kind, sheet.kind);
    EXPECT_EQ((*found)->sheet.width_mm, sheet.width_mm);
    EXPECT_EQ((*found)->sheet.height_mm, sheet.height_mm);
    // Every place of the sheet lies at its millimetre: corners of window and tags, and middles.
    for (const double x : {-28.0, -8.0, 0.0, 45.0, 90.0, 98.0, 118.0}) {
      for (const double y : {-28.0, -8.0, 0.0, 30.0, 60.0, 68.0, 88.0}) {
        const PointPx px = (*found)->plane.to_pixels({x, y});
        const auto truth = hw::test::sheet_mm(scene, px.x, px.y);
        EXPECT_NEAR(truth[0], x, 0.3) << x << " " << y;
        EXPECT_NEAR(truth[1], y, 0.3) << x << " " << y;
      }
    }
    // The renderer's patches are those of the earlier edition.
    ReadWish wish = wish_for(scene);
    if (sheet.kind == ChartKind::patches_after) wish.chart = ChartKind::patches_before;
    const auto reading = read_photo(photo, wish);
    ASSERT_TRUE(reading) << one_line(reading.error());
    ASSERT_EQ(reading->zones.size(), 2U);
    for (std::size_t z = 0; z < 2; ++z) {
      const auto truth = colour::lab_of(scene.zones[z].reflectance);
      const double most = sheet.kind == ChartKind::grey_card ? 6 : 3;
      EXPECT_LT(colour::delta_e_2000(reading->zones[z].lab, truth), most);
    }
  }
}

TEST(PhotoPrint, every_language_prints_the_same_tags) {
  const ChartSheet sheet{ChartKind::patches_after, 90, 60};
  const auto english = squares(print(sheet, sheets::Paper::a4));
  for (const Language language : {Language::es, Language::fr, Language::pt}) {
    const PrintedPage page = print(sheet, sheets::Paper::a4, language);
    const auto tags = squares(page);
    ASSERT_EQ(tags.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_EQ(tags[k].left, english[k].left);
      EXPECT_EQ(tags[k].top, english[k].top);
    }
    // Words and ruler stay on the paper, clear of the tags, and the ruler of the words.
    double lowest = 0;
    for (const Box& box : pieces(page)) lowest = std::max(lowest, box.bottom);
    EXPECT_LT(lowest, 297 - 8);
  }
}

}  // namespace
}  // namespace hw::photo::test
