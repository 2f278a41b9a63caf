// What is read, what is turned down, and how.
#include <algorithm>

#include "huewright/colour/difference.h"
#include "support/photo_wish.h"

namespace hw::photo::test {
namespace {

using hw::test::PhotoScene;
using hw::test::strands;
using hw::test::usual_scene;
using hw::test::wish_for;

Result<PhotoReading> read(const PhotoScene& scene) {
  return read_photo(hw::test::render(scene), wish_for(scene));
}

std::string refusal(const PhotoScene& scene) {
  const auto reading = read(scene);
  return reading ? "read after all" : one_line(reading.error());
}

void expect_truth(const PhotoScene& scene, const PhotoReading& reading, double most) {
  ASSERT_EQ(reading.zones.size(), scene.zones.size());
  for (std::size_t z = 0; z < scene.zones.size(); ++z) {
    EXPECT_LT(
        colour::delta_e_2000(reading.zones[z].lab, colour::lab_of(scene.zones[z].reflectance)),
        most);
  }
}

TEST(PhotoRead, all_eight_orientations_read_alike) {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    PhotoScene scene = usual_scene();
    scene.orientation = orientation;
    scene.p3 = orientation % 2 == 0;
    const auto reading = read(scene);
    ASSERT_TRUE(reading) << orientation << ": " << one_line(reading.error());
    EXPECT_EQ(reading->file.width, scene.width);
    EXPECT_EQ(reading->file.orientation, orientation);
    expect_truth(scene, *reading, 2.5);
    EXPECT_NEAR(reading->zones[1].from_share, 0.4, 1.0 / 30);
  }
}

TEST(PhotoRead, a_chart_upside_down_in_the_window_is_noticed) {
  PhotoScene scene = usual_scene();
  scene.turned = true;
  const auto reading = read(scene);
  ASSERT_TRUE(reading) << one_line(reading.error());
  EXPECT_TRUE(reading->chart->turned);
  expect_truth(scene, *reading, 2.5);
}

TEST(PhotoRead, uneven_light_and_a_dark_lens_are_taken_out) {
  PhotoScene scene = usual_scene();
  scene.slope_x = -0.4;
  scene.vignette = 0.4;
  const auto reading = read(scene);
  ASSERT_TRUE(reading) << one_line(reading.error());
  EXPECT_GT(reading->chart->uneven, 1.05);
  for (std::size_t z = 0; z < 2; ++z) {
    const auto truth = colour::lab_of(scene.zones[z].reflectance);
    EXPECT_NEAR(reading->zones[z].lab.l, truth.l, 2 * reading->zones[z].sd[0]);
    EXPECT_LT(colour::delta_e_2000(reading->zones[z].lab, truth), 4);
  }
}

TEST(PhotoRead, a_camera_that_bends_its_tones_is_followed) {
  for (const double tone : {0.8, 1.25}) {
    PhotoScene scene = usual_scene();
    scene.tone = tone;
    scene.exposure = 0.7;
    const auto reading = read(scene);
    ASSERT_TRUE(reading) << one_line(reading.error());
    EXPECT_NE(reading->chart->model.find("bent"), std::string::npos) << reading->chart->model;
    expect_truth(scene, *reading, 3);
  }
}

TEST(PhotoRead, the_other_edition_of_the_chart_reads_worse) {
  const PhotoScene scene = usual_scene();
  ReadWish wish = wish_for(scene);
  const std::string photo = hw::test::render(scene);
  const auto right = read_photo(photo, wish);
  wish.chart = ChartKind::patches_after;
  const auto wrong = read_photo(photo, wish);
  ASSERT_TRUE(right && wrong);
  EXPECT_GT(wrong->chart->median_de00, right->chart->median_de00);
  wish.chart = ChartKind::grey_card;
  EXPECT_NE(one_line(read_photo(photo, wish).error()).find("another kind of chart"),
            std::string::npos);
}

TEST(PhotoRead, a_grey_card_gives_a_wider_band_that_holds) {
  PhotoScene chart = usual_scene();
  PhotoScene card = usual_scene(2);
  const auto by_chart = read(chart);
  const auto by_card = read(card);
  ASSERT_TRUE(by_chart) << one_line(by_chart.error());
  ASSERT_TRUE(by_card) << one_line(by_card.error());
  ASSERT_EQ(by_card->zones.size(), 2U);
  for (std::size_t z = 0; z < 2; ++z) {
    const auto truth = colour::lab_of(card.zones[z].reflectance);
    const PhotoZone& zone = by_card->zones[z];
    for (std::size_t c = 0; c < 3; ++c) EXPECT_GT(zone.sd[c], by_chart->zones[z].sd[c]);
    EXPECT_LT(std::abs(zone.lab.l - truth.l), 2 * zone.sd[0]);
    EXPECT_LT(std::abs(zone.lab.a - truth.a), 2 * zone.sd[1]);
    EXPECT_LT(std::abs(zone.lab.b - truth.b), 2 * zone.sd[2]);
  }
}

TEST(PhotoRead, without_a_chart_there_are_words_and_no_number) {
  PhotoScene scene = usual_scene();
  scene.tags = false;
  const auto reading = read(scene);
  ASSERT_TRUE(reading) << one_line(reading.error());
  EXPECT_FALSE(reading->chart);
  EXPECT_TRUE(reading->zones.empty());
  EXPECT_TRUE(reading->stations.empty());
  EXPECT_NE(reading->words.find("Somewhere from "), std::string::npos) << reading->words;
  EXPECT_EQ(reading->words.find_first_of("0123456789"), std::string::npos) << reading->words;
}

TEST(PhotoRead, what_would_mislead_is_turned_down_with_the_way_to_mend_it) {
  PhotoScene scene = usual_scene();
  scene.exposure = 1.3;
  EXPECT_NE(refusal(scene).find("too bright"), std::string::npos) << refusal(scene);
  scene = usual_scene();
  scene.exposure = 0.08;
  EXPECT_NE(refusal(scene).find("too dark"), std::string::npos) << refusal(scene);
  scene = usual_scene();
  scene.glare = 0.25;
  scene.exposure = 0.6;
  EXPECT_NE(refusal(scene).find("shine"), std::string::npos) << refusal(scene);
  scene = usual_scene();
  scene.slope_x = 4;
  scene.exposure = 0.5;
  EXPECT_NE(refusal(scene).find("chart"), std::string::npos) << refusal(scene);
  scene = usual_scene();
  scene.hidden_tag = 2;
  EXPECT_NE(refusal(scene).find("not seen: lower right"), std::string::npos) << refusal(scene);
  scene = usual_scene();
  scene.px_per_mm = 0.8;
  scene.sheet_at = {330, 450};
  EXPECT_NE(refusal(scene).find("come nearer"), std::string::npos) << refusal(scene);
}

TEST(PhotoRead, wishes_that_make_no_sense_name_their_place) {
  const std::string photo = hw::test::render(usual_scene());
  const auto where = [&](const ReadWish& wish) {
    const auto reading = read_photo(photo, wish);
    return reading ? std::string("read after all") : reading.error().where;
  };
  EXPECT_EQ(where({.line = {{0.5, 0.5}}}), "line");
  EXPECT_EQ(where({.line = {{0.5, 0.5}, {0.5, 1.5}}}), "line");
  EXPECT_EQ(where({.line = {{0.5, 0.5}, {0.5, std::nan("")}}}), "line");
  EXPECT_EQ(where({.line = {{0.5, 0.5}, {0.501, 0.501}}}), "line");
  EXPECT_EQ(where({.line = {{0.5, 0.1}, {0.5, 0.9}}, .length_cm = 0}), "length");
  EXPECT_EQ(where({.line = {{0.5, 0.1}, {0.5, 0.9}}, .width_share = 2}), "width");
}

TEST(PhotoRead, the_sheet_measures_the_strand_where_no_length_is_given) {
  PhotoScene scene = usual_scene();
  scene.tilt = 0;
  ReadWish wish = wish_for(scene);
  wish.length_cm.reset();
  const auto reading = read_photo(hw::test::render(scene), wish);
  ASSERT_TRUE(reading) << one_line(reading.error());
  EXPECT_TRUE(reading->length_by_chart);
  const double pixels =
      std::hypot(scene.line[1][0] - scene.line[0][0], scene.line[1][1] - scene.line[0][1]);
  EXPECT_NEAR(*reading->length_cm, pixels / scene.px_per_mm / 10, 0.2);
}

TEST(PhotoRead, the_same_photo_gives_the_same_numbers) {
  const std::string photo = hw::test::render(usual_scene());
  const auto one = read_photo(photo, wish_for(usual_scene()));
  const auto two = read_photo(photo, wish_for(usual_scene()));
  ASSERT_TRUE(one && two);
  for (std::size_t i = 0; i < one->stations.size(); ++i) {
    EXPECT_EQ(one->stations[i].lab.l, two->stations[i].lab.l);
  }
}

TEST(PhotoCompare, in_one_light_the_change_is_surer_than_either_photo) {
  PhotoScene before = usual_scene();
  before.light = colour::illuminant(colour::Illuminant::led_b3);
  PhotoScene after = before;
  after.exposure = 0.7;
  after.seed = 9;
  after.zones = {{0.4, strands()[2].reflectance}, {1, strands()[4].reflectance}};
  const auto change = compare_photos(hw::test::render(before), hw::test::render(after),
                                     wish_for(before), wish_for(after));
  ASSERT_TRUE(change) << one_line(change.error());
  EXPECT_TRUE(change->one_light) << change->light_apart;
  ASSERT_EQ(change->zones.size(), 2U);
  for (std::size_t z = 0; z < 2; ++z) {
    const ZoneChange& zone = change->zones[z];
    const auto one = colour::lab_of(before.zones[z].reflectance);
    const auto two = colour::lab_of(after.zones[z].reflectance);
    const Lab3 truth{two.l - one.l, two.a - one.a, two.b - one.b};
    for (std::size_t c = 0; c < 3; ++c) {
      EXPECT_LT(std::abs(zone.change[c] - truth[c]), 2 * zone.sd[c]) << z << c;
      EXPECT_LT(zone.sd[c], zone.apart_sd[c]);
      EXPECT_LT(zone.sd[c], change->before.zones[z].sd[c]) << z << c;
      EXPECT_LT(zone.sd[c], change->after.zones[z].sd[c]) << z << c;
    }
  }
}

TEST(PhotoCompare, in_two_lights_errors_add_up_and_it_is_said) {
  const PhotoScene before = usual_scene();
  PhotoScene after = usual_scene();
  after.light = colour::illuminant(colour::Illuminant::fl2);
  const auto change = compare_photos(hw::test::render(before), hw::test::render(after),
                                     wish_for(before), wish_for(after));
  ASSERT_TRUE(change) << one_line(change.error());
  EXPECT_FALSE(change->one_light) << change->light_apart;
  EXPECT_EQ(change->cautions.size(), 1U);
  EXPECT_GT(change->zones[0].sd[0], change->before.zones[0].sd[0]);
}

TEST(PhotoCompare, a_photo_without_a_chart_is_named) {
  const PhotoScene before = usual_scene();
  PhotoScene after = before;
  after.tags = false;
  const auto change = compare_photos(hw::test::render(before), hw::test::render(after),
                                     wish_for(before), wish_for(after));
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().where, "after");
}

}  // namespace
}  // namespace hw::photo::test
