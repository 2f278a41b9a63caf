// Every reason why a photo, its sheet or its strand is turned down, each with its way to mend it;
// and on the near side of each edge the photo is read.
#include <gmock/gmock.h>

#include "huewright/colour/difference.h"
#include "support/photo_file.h"
#include "support/photo_wish.h"

namespace hw::photo::test {
namespace {

using hw::test::PhotoScene;
using hw::test::ramp_jpeg;
using hw::test::usual_scene;
using hw::test::wish_for;
using testing::AllOf;
using testing::HasSubstr;

std::string said_of(const PhotoScene& scene) {
  const auto reading = read_photo(hw::test::render(scene), wish_for(scene));
  return reading ? "read" : one_line(reading.error());
}

TEST(PhotoRefusals, jpeg_of_every_making_is_read_or_named) {
  for (const char* making : {"baseline", "progressive", "rgb"}) {
    const auto picture = decode_jpeg(ramp_jpeg(making));
    ASSERT_TRUE(picture) << making << ": " << one_line(picture.error());
    // The ramp's own numbers, to what quality 95 leaves of them.
    for (const std::size_t x : {5U, 20U, 50U}) {
      for (std::size_t c = 0; c < 3; ++c) {
        EXPECT_NEAR(picture->rgb[3 * (64 * 10 + x) + c], 4.0 * static_cast<double>(x), 6) << making;
      }
    }
  }
  EXPECT_THAT(one_line(decode_jpeg(ramp_jpeg("cmyk")).error()), HasSubstr("in four inks"));
  const auto grey = decode_jpeg(ramp_jpeg("grey"));
  ASSERT_TRUE(grey);
  EXPECT_TRUE(grey->grey);
  EXPECT_THAT(one_line(read_photo(ramp_jpeg("grey"), {}).error()), HasSubstr("black and white"));
}

TEST(PhotoRefusals, hair_that_shines_white_or_drowns_in_black) {
  PhotoScene scene = usual_scene();
  scene.strand_glare = 1.2;
  EXPECT_THAT(said_of(scene), AllOf(HasSubstr("the hair on the line is clipped"),
                                    HasSubstr("draw it beside the shine")));
  scene.strand_glare = 0.02;  // a little shine is read, too light by what it adds
  EXPECT_EQ(said_of(scene), "read");
  scene = usual_scene();
  scene.noise = 0;
  scene.zones = {{1, colour::Spectrum{}}};  // a strand that gives no light back at all
  EXPECT_THAT(said_of(scene),
              AllOf(HasSubstr("too dark in the photo to read"), HasSubstr("in more light")));
}

TEST(PhotoRefusals, a_shadow_across_the_sheet) {
  PhotoScene scene = usual_scene();
  scene.shadow = 0.5;
  EXPECT_THAT(said_of(scene), AllOf(HasSubstr("shadow or a fold lies across the sheet"),
                                    HasSubstr("lay it flat in even light")));
  scene.shadow = 0.02;
  EXPECT_EQ(said_of(scene), "read");
}

TEST(PhotoRefusals, light_that_is_far_stronger_on_one_side) {
  PhotoScene scene = usual_scene();
  scene.exposure = 0.3;
  scene.vignette = 0;
  scene.slope_x = -3.2;  // over the frame; the sheet takes 45 % of its width
  EXPECT_THAT(said_of(scene),
              AllOf(HasSubstr("times as strong on one side"), HasSubstr("turn towards the light")));
}

TEST(PhotoRefusals, a_strand_whose_light_the_sheet_cannot_tell) {
  PhotoScene scene = usual_scene();
  // A small sheet in one corner, the strand in the other.
  scene.px_per_mm = 1.5;
  scene.sheet_at = {130, 110};
  scene.line = {{1150, 700}, {1170, 880}};
  scene.strand_half_px = 20;
  EXPECT_THAT(said_of(scene), AllOf(HasSubstr("line: the strand is too far from the chart"),
                                    HasSubstr("beside the strand")));
}

TEST(PhotoRefusals, a_grey_card_that_is_clipped_dark_or_shining) {
  PhotoScene card = usual_scene(2);
  EXPECT_EQ(said_of(card), "read");
  card.exposure = 0.05;
  EXPECT_THAT(said_of(card), HasSubstr("grey card is nearly black"));
  card = usual_scene(2);
  card.exposure = 0.5;
  card.glare = 0.4;
  EXPECT_THAT(said_of(card), HasSubstr("a lamp shines on the grey card"));
}

TEST(PhotoRefusals, cream_paper_moves_no_colour) {
  // The paper tells how evenly the scene is lit and nothing of its colour.
  PhotoScene scene = usual_scene();
  const auto white = read_photo(hw::test::render(scene), wish_for(scene));
  scene.cream = true;
  const auto cream = read_photo(hw::test::render(scene), wish_for(scene));
  ASSERT_TRUE(white && cream);
  ASSERT_EQ(cream->zones.size(), white->zones.size());
  for (std::size_t z = 0; z < white->zones.size(); ++z) {
    EXPECT_LT(colour::delta_e_2000(white->zones[z].lab, cream->zones[z].lab), 0.3);
  }
}

TEST(PhotoRefusals, shine_on_the_hair_is_what_the_allowance_is_for) {
  // The allowance stands for light of 0.4 % of white's: added by the renderer, it moves a reading
  // about as far as the allowance says.
  PhotoScene scene = usual_scene();
  const auto matt = read_photo(hw::test::render(scene), wish_for(scene));
  scene.strand_glare = kUnseenShine * scene.exposure;
  const auto shining = read_photo(hw::test::render(scene), wish_for(scene));
  ASSERT_TRUE(matt && shining);
  for (std::size_t z = 0; z < matt->zones.size(); ++z) {
    const PhotoZone& zone = matt->zones[z];
    EXPECT_NEAR(shining->zones[z].lab.l - zone.lab.l, zone.shine[0], 0.3 * zone.shine[0] + 0.1);
    // Dark hair is moved most, which is why one number of Lab would not do.
    EXPECT_GT(zone.sd[0], zone.shine[0]);
  }
  EXPECT_GT(matt->zones[0].shine[0], 1.5 * matt->zones[1].shine[0]);
}

TEST(PhotoRefusals, a_few_shining_patches_are_left_out_and_told) {
  PhotoScene scene = usual_scene();
  scene.exposure = 0.6;
  scene.glare = 0.03;
  const auto reading = read_photo(hw::test::render(scene), wish_for(scene));
  ASSERT_TRUE(reading) << one_line(reading.error());
  EXPECT_FALSE(reading->chart->left_out.empty());
  EXPECT_LE(reading->chart->left_out.size(), 6U);
}

}  // namespace
}  // namespace hw::photo::test
