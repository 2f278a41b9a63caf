// JPEG in and out: limits, damage, other kinds, and what a kept photo no longer holds.
#include "huewright/photo/chart_sheet.h"
#include "support/photo_wish.h"
#include "support/reference.h"

namespace hw::photo::test {
namespace {

using namespace std::string_view_literals;

std::string small_photo(int orientation = 6) {
  hw::test::PhotoScene scene = hw::test::usual_scene();
  scene.width = 200;
  scene.height = 120;
  scene.orientation = orientation;
  return hw::test::render(scene);
}

TEST(PhotoJpeg, other_kinds_are_named) {
  const auto said = [](std::string_view bytes) { return one_line(decode_jpeg(bytes).error()); };
  EXPECT_NE(said("\x89PNG\r\n\x1a\n"sv).find("PNG"), std::string::npos);
  EXPECT_NE(said("GIF89a"sv).find("GIF"), std::string::npos);
  EXPECT_NE(said("RIFF\0\0\0\0WEBPVP8 "sv).find("WebP"), std::string::npos);
  EXPECT_NE(said("\0\0\0\x18"
                 "ftypheic\0\0\0\0"sv)
                .find("most compatible"),
            std::string::npos);
  EXPECT_NE(said("\0\0\0\x18"
                 "ftypisom\0\0\0\0"sv)
                .find("video"),
            std::string::npos);
  EXPECT_NE(said("II*\0\x08\0\0\0"sv).find("TIFF"), std::string::npos);
  EXPECT_NE(said("%PDF-1.5"sv).find("PDF"), std::string::npos);
  EXPECT_NE(said("hello"sv).find("no JPEG"), std::string::npos);
  EXPECT_NE(said(""sv).find("empty"), std::string::npos);
}

TEST(PhotoJpeg, every_cut_and_any_flipped_byte_ends_in_an_error_or_a_picture) {
  const std::string photo = small_photo();
  const std::size_t step = std::max<std::size_t>(1, photo.size() / 150);
  for (std::size_t size = 0; size < photo.size(); size += step) {
    const auto picture = decode_jpeg(std::string_view(photo).substr(0, size));
    EXPECT_FALSE(picture) << size;
  }
  for (std::size_t at = 0; at < photo.size(); at += step) {
    std::string wrong = photo;
    wrong[at] = static_cast<char>(wrong[at] ^ 0x5A);
    const auto picture = decode_jpeg(wrong);
    if (!picture) {
      EXPECT_FALSE(picture.error().message.empty());
    }
  }
}

TEST(PhotoJpeg, limits_hold_before_memory_is_taken) {
  const std::string photo = small_photo(1);
  EXPECT_NE(one_line(decode_jpeg(photo, {.pixels = 1000}).error()).find("pixels"),
            std::string::npos);
  EXPECT_NE(one_line(decode_jpeg(photo, {.bytes = 1000}).error()).find("MiB"), std::string::npos);
  // A header that promises 65500 × 65500 pixels: SOF0 holds height and width after its length.
  std::string huge = photo;
  const std::size_t frame = huge.find("\xFF\xC0\x00\x11\x08"sv);
  ASSERT_NE(frame, std::string::npos);
  huge.replace(frame + 5, 4, "\xFF\xDC\xFF\xDC"sv);
  EXPECT_NE(one_line(decode_jpeg(huge).error()).find("pixels"), std::string::npos);
}

TEST(PhotoJpeg, a_file_of_endless_scans_is_stopped) {
  const std::string bomb = hw::test::test_text("../fuzz/corpus/photo/many_scans.jpg");
  const auto picture = decode_jpeg(bomb);
  ASSERT_FALSE(picture);
  EXPECT_NE(picture.error().message.find("more than 64 times"), std::string::npos)
      << one_line(picture.error());
}

TEST(PhotoJpeg, a_kept_photo_is_upright_smaller_and_holds_nothing_but_pixels) {
  hw::test::PhotoScene scene = hw::test::usual_scene();
  scene.width = 400;
  scene.height = 240;
  scene.orientation = 8;
  scene.p3 = true;
  const std::string photo = hw::test::render(scene) + "hidden behind the picture";
  const auto clean = clean_jpeg(photo, 200);
  ASSERT_TRUE(clean) << one_line(clean.error());
  EXPECT_EQ(clean->find("Exif"), std::string::npos);
  EXPECT_EQ(clean->find("hidden"), std::string::npos);
  const auto picture = decode_jpeg(*clean);
  ASSERT_TRUE(picture);
  EXPECT_EQ(picture->width, 200U);
  EXPECT_EQ(picture->height, 120U);
  EXPECT_EQ(picture->exif.orientation, 1);
  EXPECT_FALSE(picture->icc.empty());
  // The same pixels: the mean of each quarter of the upright original.
  const Picture original = upright(*decode_jpeg(photo));
  for (const std::size_t y : {20U, 60U, 100U}) {
    for (const std::size_t x : {30U, 100U, 170U}) {
      const std::size_t small = 3 * (200 * y + x) + 1;
      const std::size_t large = 3 * (400 * 2 * y + 2 * x) + 1;
      EXPECT_NEAR(picture->rgb[small], original.rgb[large], 40) << x << ' ' << y;
    }
  }
}

TEST(PhotoSheet, ids_tell_the_sheet_and_guard_each_other) {
  for (const ChartSheet& sheet :
       {ChartSheet{ChartKind::patches_before, 90, 60},
        ChartSheet{ChartKind::patches_after, 160, 110}, ChartSheet{ChartKind::grey_card, 30, 20}}) {
    const auto ids = tag_ids(sheet);
    const auto back = sheet_of_ids(ids);
    ASSERT_TRUE(back);
    EXPECT_EQ(back->kind, sheet.kind);
    EXPECT_EQ(back->width_mm, sheet.width_mm);
    EXPECT_EQ(back->height_mm, sheet.height_mm);
    for (std::size_t k = 0; k < 4; ++k) {
      auto other = ids;
      other[k] = (other[k] + 4) % 584;
      EXPECT_FALSE(sheet_of_ids(other)) << k;
    }
    EXPECT_FALSE(sheet_of_ids({ids[1], ids[0], ids[2], ids[3]}));
  }
  EXPECT_FALSE(check_sheet({ChartKind::patches_after, 29, 20}));
  EXPECT_FALSE(check_sheet({ChartKind::patches_after, 100, 30}));
  EXPECT_TRUE(check_sheet({ChartKind::grey_card, 100, 30}));
}

}  // namespace
}  // namespace hw::photo::test
