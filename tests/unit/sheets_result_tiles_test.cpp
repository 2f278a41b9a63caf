#include <gtest/gtest.h>

#include <filesystem>

#include "huewright/colour/screen.h"
#include "huewright/sheets/result_tiles_png.h"
#include "support/read_png.h"

namespace hw::sheets {
namespace {

using test::Picture;
using test::Pixel;

plan::ResultTile step_tile(double blue, double red) {
  colour::Spectrum spectrum{};
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    const double nm = colour::kFirstNm + colour::kStepNm * static_cast<double>(i);
    spectrum[i] = nm < 590 ? blue : red;
  }
  return plan::result_tile(spectrum);
}

std::vector<plan::ZoneTiles> two_zones() {
  return {
      {"roots", "whole head", step_tile(0.04, 0.12), step_tile(0.06, 0.18), step_tile(0.03, 0.07)},
      {"ends", "whole head", step_tile(0.05, 0.15), step_tile(0.08, 0.2), step_tile(0.03, 0.09)}};
}

Picture drawn(const std::vector<plan::ZoneTiles>& tiles) {
  const std::string path = testing::TempDir() + "result_tiles_test.png";
  TilesPicture picture;
  picture.title = "Result";
  picture.scale = 1;
  const auto written = write_result_tiles_png(tiles, picture, hair::default_ladder(), path);
  EXPECT_TRUE(written) << (written ? "" : one_line(written.error()));
  Picture out = test::read_png(path);
  std::filesystem::remove(path);
  return out;
}

/// To one step of each channel: the drawing library rounds in its own way.
bool is(const Pixel& p, const colour::HairLab& lab) {
  const auto rgb = colour::eight_bit(colour::to_screen(lab, colour::ScreenSpace::srgb));
  return std::abs(p.r - rgb[0]) <= 1 && std::abs(p.g - rgb[1]) <= 1 && std::abs(p.b - rgb[2]) <= 1;
}

std::size_t count_of(const Picture& png, const colour::HairLab& lab) {
  return static_cast<std::size_t>(std::count_if(png.pixels.begin(), png.pixels.end(),
                                                [&](const Pixel& p) { return is(p, lab); }));
}

TEST(ResultTilesPng, paints_every_tile_in_every_light) {
  const auto tiles = two_zones();
  const Picture png = drawn(tiles);
  EXPECT_EQ(png.width, 1280);
  for (const plan::ZoneTiles& zone : tiles) {
    for (std::size_t light = 0; light < plan::kTileLights; ++light) {
      for (const auto* tile : {&zone.likely, &zone.lighter, &zone.darker}) {
        EXPECT_GT(count_of(png, tile->seen[light]), 7000U) << zone.zone << light;
      }
    }
  }
}

TEST(ResultTilesPng, tiles_touch_and_lie_on_a_neutral_of_lightness_50) {
  const auto tiles = two_zones();
  const Picture png = drawn(tiles);
  EXPECT_GT(count_of(png, {50, 0, 0}), 20000U);
  // Along a line through the first row: ground, lighter, likely, darker, ground, nothing between.
  int changes = 0;
  int unknown = 0;
  const int y = 106 + 14 + 48;
  for (int x = 195; x < 520; ++x) {
    const Pixel& p = png.at(x, y);
    const bool known = is(p, {50, 0, 0}) || is(p, tiles[0].lighter.seen[0]) ||
                       is(p, tiles[0].likely.seen[0]) || is(p, tiles[0].darker.seen[0]);
    unknown += !known;
    const Pixel& before = png.at(x - 1, y);
    changes += p.r != before.r || p.g != before.g || p.b != before.b;
  }
  EXPECT_EQ(unknown, 0);
  EXPECT_EQ(changes, 4);
}

TEST(ResultTilesPng, marks_what_the_screen_cannot_show) {
  auto tiles = two_zones();
  const auto pale_in = [](const Picture& png) {
    int count = 0;
    for (int y = png.height - 50; y < png.height; ++y) {
      for (int x = 0; x < png.width; ++x) count += png.at(x, y).r > 200;
    }
    return count;
  };
  const int words = pale_in(drawn(tiles));
  tiles[0].likely.seen[0] = {50, 100, 60};
  EXPECT_GT(pale_in(drawn(tiles)), words + 100);  // "nearest a screen can show"
}

TEST(ResultTilesPng, says_which_file_cannot_be_written) {
  const std::string path = testing::TempDir() + "no/such/folder/tiles.png";
  const auto written = write_result_tiles_png(two_zones(), {}, hair::default_ladder(), path);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().code, ErrorCode::io);
  EXPECT_EQ(written.error().where, path);
  TilesPicture picture;
  picture.width = 10;
  EXPECT_FALSE(result_tiles_png(two_zones(), picture, hair::default_ladder()));
}

}  // namespace
}  // namespace hw::sheets
