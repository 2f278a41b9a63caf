// Photos over the wire: kept, read along a line, compared, and what is turned down on the way.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "huewright/colour/difference.h"
#include "huewright/colour/lab.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/photo_answer.h"
#include "openapi.h"
#include "server/client.h"
#include "server/running.h"
#include "support/photo_wish.h"

namespace hw::test {
namespace {

using nlohmann::json;
using server::Role;
using testing::HasSubstr;
using testing::Not;

const json kLine = {{{"x", 0.633}, {"y", 0.1}}, {{"x", 0.667}, {"y", 0.911}}};

class PhotoRoutes : public testing::Test {
 protected:
  [[nodiscard]] Answer post(const std::string& target, const std::string& body,
                            const std::string& type = "application/json") const {
    return asked(server_.port(), {.method = "POST",
                                  .target = target,
                                  .headers = {"Content-Type: " + type, language_},
                                  .body = body,
                                  .cookie = secret_});
  }
  [[nodiscard]] std::string keep(const std::string& jpeg) const {
    const Answer kept = post("/api/v1/photos", jpeg, "image/jpeg");
    EXPECT_EQ(kept.status, 200) << kept.body;
    return kept.status == 200 ? json::parse(kept.body)["sha256"] : "";
  }
  [[nodiscard]] std::string keep(const PhotoScene& scene) const { return keep(render(scene)); }
  [[nodiscard]] Answer read(const std::string& photo, const json& line = kLine,
                            const json& more = json::object()) const {
    json body{{"photo", photo}, {"line", line}, {"length_cm", 30}};
    body.update(more);
    return post("/api/v1/readings", body.dump());
  }
  /// Of a refused answer: its one line.
  static std::string line_of(const Answer& answer, int status) {
    EXPECT_EQ(answer.status, status) << answer.body;
    const json error = json::parse(answer.body)["error"];
    return error["where"].get<std::string>() + ": " + error["what"].get<std::string>() + "; " +
           error["mend"].get<std::string>();
  }

  Running server_{[](server::Settings& settings) { settings.limits.rates_times = 1000; }};
  std::string secret_ = server_.device(Role::colourist);
  std::string language_ = "Accept-Language: en";
};

TEST_F(PhotoRoutes, ReadsAKeptPhotoAsTheCommandLineDoes) {
  const PhotoScene scene = usual_scene();
  const std::string photo = keep(scene);
  const Answer answer = read(photo);
  ASSERT_EQ(answer.status, 200) << answer.body;
  const json said = json::parse(answer.body);
  ASSERT_EQ(said["zones"].size(), 2U);
  for (std::size_t z = 0; z < 2; ++z) {
    const json& zone = said["zones"][z];
    const colour::HairLab lab{zone["lab"][0], zone["lab"][1], zone["lab"][2]};
    EXPECT_LT(colour::delta_e_2000(lab, colour::lab_of(scene.zones[z].reflectance)), 2.5);
    EXPECT_LT(zone["level_low"], zone["level"]);
    EXPECT_LT(zone["level"], zone["level_high"]);
    EXPECT_THAT(zone["paint"]["srgb"].get<std::string>(), testing::MatchesRegex("#[0-9a-f]{6}"));
    // What goes into a case is what a case takes, and nothing else.
    EXPECT_EQ(zone["reading"].size(), 3U) << zone["reading"];
  }
  EXPECT_NEAR(said["zones"][1]["from_cm"].get<double>(), 12, 1);
  EXPECT_FALSE(said["stations"].empty());
  // The bytes that are kept, read here as `huewright read --json` reads them.
  const Answer bytes =
      asked(server_.port(), {.target = "/api/v1/photos/" + photo, .cookie = secret_});
  photo::ReadWish wish = wish_for(scene);
  wish.line = {{0.633, 0.1}, {0.667, 0.911}};
  json plain = json::parse(wire::encode(*photo::read_photo(bytes.body, wish)));
  json bare = said;
  for (const char* list : {"zones", "stations"}) {
    for (json& one : bare[list]) {
      for (const char* key : {"paint", "level", "level_low", "level_high"}) one.erase(key);
    }
  }
  EXPECT_EQ(bare, plain);
}

TEST_F(PhotoRoutes, KeepingAPhotoMovesNoColour) {
  // Written anew and upright: what is read of it is what the camera's own file gives.
  PhotoScene scene = usual_scene();
  scene.orientation = 6;
  scene.p3 = true;
  const std::string jpeg = render(scene);
  const auto before = photo::read_photo(jpeg, wish_for(scene));
  ASSERT_TRUE(before) << one_line(before.error());
  const json after = json::parse(read(keep(jpeg)).body);
  ASSERT_EQ(after["zones"].size(), 2U);
  EXPECT_EQ(after["photo"]["orientation"], 1);
  EXPECT_EQ(after["photo"]["width_px"], scene.width);
  for (std::size_t z = 0; z < 2; ++z) {
    const json& lab = after["zones"][z]["lab"];
    EXPECT_LT(colour::delta_e_2000(before->zones[z].lab, {lab[0], lab[1], lab[2]}), 0.5);
  }
}

TEST_F(PhotoRoutes, WithoutASheetThereAreWordsInTheLanguageOfThePageAndNoNumber) {
  PhotoScene scene = usual_scene();
  scene.tags = false;
  const std::string photo = keep(scene);
  for (const auto& [language, begins] : {std::pair{"en", "Somewhere from "},
                                         {"es", "Entre "},
                                         {"fr", "Quelque part entre "},
                                         {"pt", "Algures entre "}}) {
    language_ = std::string("Accept-Language: ") + language;
    const Answer answer = read(photo);
    ASSERT_EQ(answer.status, 200) << answer.body;
    const json said = json::parse(answer.body);
    const std::string words = said["words"];
    EXPECT_THAT(words, testing::StartsWith(begins));
    EXPECT_EQ(words.find_first_of("0123456789"), std::string::npos) << words;
    EXPECT_FALSE(said.contains("zones"));
    EXPECT_FALSE(said.contains("stations"));
    ASSERT_EQ(said["cautions"].size(), 1U);
    EXPECT_EQ(said["cautions"][0].get<std::string>().find("No sheet") == 0,
              language == std::string("en"));
  }
}

TEST_F(PhotoRoutes, WhatWouldMisleadIsTurnedDownInOneLine) {
  PhotoScene glaring = usual_scene();
  glaring.glare = 0.25;
  glaring.exposure = 0.6;
  EXPECT_THAT(line_of(read(keep(glaring)), 422), HasSubstr("chart: a lamp shines on the chart"));
  PhotoScene clipped = usual_scene();
  clipped.exposure = 1.3;
  EXPECT_THAT(line_of(read(keep(clipped)), 422), HasSubstr("too bright"));
  PhotoScene covered = usual_scene();
  covered.hidden_tag = 2;
  EXPECT_THAT(line_of(read(keep(covered)), 400), HasSubstr("not seen: lower right"));
}

TEST_F(PhotoRoutes, ALineThatIsNoneIsToldByItsPlace) {
  const std::string photo = keep(usual_scene());
  const json outside = {{{"x", 0.5}, {"y", 0.5}}, {{"x", 1.5}, {"y", 0.5}}};
  EXPECT_THAT(line_of(read(photo, outside), 422), HasSubstr("line[1].x"));
  EXPECT_THAT(line_of(read(photo, {{{"x", 0.5}, {"y", 0.5}}}), 422), HasSubstr("line"));
  const json edge = {{{"x", 0.0}, {"y", 0.0}}, {{"x", 0.0}, {"y", 0.01}}};
  EXPECT_THAT(line_of(read(photo, edge), 422), HasSubstr("too short"));
  EXPECT_THAT(line_of(read(photo, kLine, {{"length_cm", 900}}), 422), HasSubstr("length_cm"));
  EXPECT_THAT(line_of(read(photo, kLine, {{"chart", "pink"}}), 404), HasSubstr("chart"));
  EXPECT_THAT(line_of(read(photo, kLine, {{"chart", "grey"}}), 409), HasSubstr("another kind"));
}

TEST_F(PhotoRoutes, APhotoThatIsNotKeptIsUnknown) {
  const std::string line = line_of(read(std::string(64, 'a')), 404);
  EXPECT_THAT(line, HasSubstr("photo: is not among the photos that are kept"));
  EXPECT_THAT(line, Not(HasSubstr(server_.folder())));
  EXPECT_THAT(line_of(read("../book.db"), 400), HasSubstr("is no SHA-256"));
}

TEST_F(PhotoRoutes, HostileBytesAreTurnedDownOnBothWaysIn) {
  EXPECT_EQ(post("/api/v1/photos", "\xFF\xD8\xFF and no more", "image/jpeg").status, 400);
  // A folder that somebody filled by hand: a name that is a hash, bytes that are no photo.
  std::string half = render(usual_scene());
  half.resize(half.size() / 2);
  std::string wide("\xFF\xD8\xFF\xC0\x00\x11\x08\xFF\xDC\xFF\xDC\x03\x01\x22\x00\x02\x11\x01", 18);
  for (const std::string& bytes : {std::string("no photo"), half, wide, std::string()}) {
    const std::string name(64, 'b');
    std::ofstream(std::filesystem::path(server_.folder()) / "photos" / name, std::ios::binary)
        << bytes;
    const Answer answer = read(name);
    EXPECT_TRUE(answer.status == 400 || answer.status == 422) << answer.status << answer.body;
    EXPECT_THAT(answer.body, HasSubstr(R"({"error":{"what":")"));
  }
}

TEST_F(PhotoRoutes, OnlyWhoMayPlanMayRead) {
  const std::string photo = keep(usual_scene());
  secret_ = server_.device(Role::assistant);
  EXPECT_EQ(read(photo).status, 403);
  EXPECT_EQ(post("/api/v1/readings/change", "{}").status, 403);
  secret_.clear();
  EXPECT_EQ(read(photo).status, 401);
}

TEST_F(PhotoRoutes, TwoPhotosGiveTheChange) {
  PhotoScene scene = usual_scene();
  scene.zones[1].reflectance = strands()[3].reflectance;
  const json before{{"photo", keep(scene)}, {"line", kLine}, {"length_cm", 30}};
  scene.zones[1].reflectance = strands()[4].reflectance;
  scene.seed = 4;
  const json after{{"photo", keep(scene)}, {"line", kLine}, {"length_cm", 30}};
  const Answer answer =
      post("/api/v1/readings/change", json{{"before", before}, {"after", after}}.dump());
  ASSERT_EQ(answer.status, 200) << answer.body;
  const json said = json::parse(answer.body);
  EXPECT_EQ(said["one_light"], true);
  ASSERT_EQ(said["changes"].size(), 2U);
  const json& moved = said["changes"][1];
  EXPECT_GT(moved["levels"].get<double>(), 0.3);
  EXPECT_LT(moved["levels_low"], moved["levels"]);
  EXPECT_LT(moved["levels"], moved["levels_high"]);
  EXPECT_TRUE(said["changes"][1]["paint_after"].contains("srgb"));
  EXPECT_TRUE(said["after"]["zones"][0].contains("level_low"));
  scene.tags = false;
  const json bare{{"photo", keep(scene)}, {"line", kLine}};
  const std::string line = line_of(
      post("/api/v1/readings/change", json{{"before", before}, {"after", bare}}.dump()), 400);
  EXPECT_THAT(line, HasSubstr("after: no sheet is in the photo"));
}

TEST_F(PhotoRoutes, AColourHasALevelWordsAndAPaint) {
  const auto asked_for = [&](const std::string& lab) {
    return asked(server_.port(), {.target = "/api/v1/colours?lab=" + lab, .cookie = secret_});
  };
  // Lab (35, 14.5, 22.8) is level 5.8, dark blond, copper: the worked example of hair/words.h.
  const json said = json::parse(asked_for("35,14.5,22.8").body);
  EXPECT_NEAR(said["level"].get<double>(), 5.8, 0.05);
  EXPECT_EQ(said["words"], "dark blond");
  EXPECT_THAT(said["paint"]["words"].get<std::string>(), HasSubstr("copper"));
  for (const std::string bad : {"", "35", "35,14", "35,14,22,1", "35,14,x", "101,0,0", "nan,0,0"}) {
    EXPECT_THAT(line_of(asked_for(bad), 400), HasSubstr("is no Lab colour")) << bad;
  }
}

TEST_F(PhotoRoutes, OthersAreAnsweredWhilePhotosAreRead) {
  PhotoScene large = usual_scene();
  large.width *= 3;
  large.height *= 3;
  large.px_per_mm *= 3;
  large.strand_half_px *= 3;
  for (double& part : large.sheet_at) part *= 3;
  for (auto& point : large.line) point = {3 * point[0], 3 * point[1]};
  const std::string photo = keep(large);
  // More readings than there are threads: one is read, the rest are told to ask again, and a
  // third tablet is not kept waiting by any of them.
  std::vector<Answer> answers(4);
  std::vector<std::thread> tablets;
  for (Answer& answer : answers) {
    tablets.emplace_back([&] { answer = read(photo); });
  }
  const Answer health = asked(server_.port(), {.target = "/api/v1/health"});
  EXPECT_EQ(health.status, 200);
  for (std::thread& tablet : tablets) tablet.join();
  int read_ones = 0;
  for (const Answer& answer : answers) {
    read_ones += answer.status == 200 ? 1 : 0;
    if (answer.status != 200) {
      EXPECT_THAT(line_of(answer, 409), HasSubstr("ask again in a moment"));
    }
  }
  EXPECT_GE(read_ones, 1);
}

TEST_F(PhotoRoutes, TheSheetIsPrintedForEveryChartPaperAndLanguage) {
  const auto sheet = [&](const std::string& query) {
    return asked(server_.port(), {.target = "/api/v1/sheets/chart" + query, .cookie = secret_});
  };
  for (const std::string chart : {"before-2014", "after-2014", "grey"}) {
    for (const std::string paper : {"a4", "letter"}) {
      const Answer answer = sheet("?chart=" + chart + "&window=90x60&paper=" + paper);
      EXPECT_EQ(answer.status, 200) << answer.body;
      EXPECT_EQ(answer.header("content-type"), "application/pdf");
      EXPECT_THAT(answer.body, testing::StartsWith("%PDF-"));
    }
  }
  EXPECT_NE(sheet("?language=fr").body, sheet("?language=en").body);
  EXPECT_THAT(line_of(sheet("?chart=pink"), 404), HasSubstr("is no kind of chart"));
  EXPECT_THAT(line_of(sheet("?window=9"), 400), HasSubstr("window"));
  EXPECT_THAT(line_of(sheet("?window=999x9"), 422), HasSubstr("window"));
  EXPECT_EQ(sheet("?paper=wall").status, 404);
  EXPECT_EQ(sheet("?language=tlh").status, 404);
}

}  // namespace
}  // namespace hw::test
