#include "huewright/sheets/result_tiles_png.h"

#include <fmt/format.h>

#include <algorithm>

#include "chart_frame.h"
#include "huewright/base/check.h"
#include "huewright/colour/screen.h"
#include "huewright/hair/words.h"

namespace hw::sheets {
namespace {

constexpr Type kHead{16, true};
constexpr Type kSmall{13, false};
constexpr Type kFigure{15, true};
constexpr double kGroundL = 50;  // what hair is judged against
constexpr double kLeft = 40;
constexpr double kNames = 150;  // what the zone names take
constexpr double kRight = 28;
constexpr double kGap = 26;  // between lights
constexpr double kTop = 106;
constexpr double kTile = 96;    // height of a tile
constexpr double kMargin = 14;  // of the ground round the tiles
constexpr double kWords = 48;   // below the ground
constexpr double kRow = kTile + 2 * kMargin + kWords + 16;
constexpr double kFoot = 58;

struct Sheet {
  Canvas& canvas;
  const TilesPicture& picture;
  const hair::Ladder& ladder;
  bool all_on_screen = true;

  [[nodiscard]] std::string say(std::string_view english) const {
    return retold(picture.language, english);
  }
  [[nodiscard]] double panel_width() const {
    const double lights = plan::kTileLights;
    return (picture.width - kLeft - kNames - kRight - (lights - 1) * kGap) / lights;
  }
  [[nodiscard]] double panel_left(std::size_t light) const {
    return kLeft + kNames + static_cast<double>(light) * (panel_width() + kGap);
  }
};

std::string colour_words(const colour::HairLab& lab, const hair::Ladder& ladder) {
  const auto words = hair::describe(lab, ladder);
  return words.level_name + ", " + (words.warmth.empty() ? words.tone : words.warmth);
}

/// A tile with its level below it; a mark where the screen cannot show it.
void draw_tile(Sheet& sheet, const colour::HairLab& lab, const Box& box) {
  constexpr double kFigureAt = 19;
  const auto screen = colour::to_screen(lab, colour::ScreenSpace::srgb);
  sheet.canvas.fill(box, {screen.r, screen.g, screen.b, 1});
  const std::string level = fixed(sheet.picture.language, sheet.ladder.level_of(lab.l), 1);
  sheet.canvas.text(level, {box.x + box.w / 2, box.bottom() + kMargin + kFigureAt}, kFigure,
                    neutral(kPaleL), Align::centre);
  if (screen.in_gamut) return;
  sheet.all_on_screen = false;
  constexpr double kIn = 8;
  sheet.canvas.text("≈", {box.x + kIn, box.bottom() - kIn}, kHead, Frame::mark_ink(lab),
                    Align::left);
}

/// The three tiles of a zone in one light.
void draw_panel(Sheet& sheet, const plan::ZoneTiles& zone, std::size_t light, double y) {
  constexpr double kEndShare = 0.28;  // of the tiles' width; the likely one takes the rest
  constexpr double kWordsAt = 40;
  Canvas& canvas = sheet.canvas;
  const double x = canvas.snap(sheet.panel_left(light));
  const double width = canvas.snap(sheet.panel_width());
  canvas.fill({x, y, width, kTile + 2 * kMargin}, neutral(kGroundL));
  const double inner = width - 2 * kMargin;
  const double end = canvas.snap(inner * kEndShare);
  const double left = canvas.snap(x + kMargin);
  const double top = canvas.snap(y + kMargin);
  draw_tile(sheet, zone.lighter.seen[light], {left, top, end, kTile});
  draw_tile(sheet, zone.likely.seen[light], {left + end, top, inner - 2 * end, kTile});
  draw_tile(sheet, zone.darker.seen[light], {left + inner - end, top, end, kTile});
  const auto& daylight = zone.likely.seen[0];
  const std::string words = light == 0 ? colour_words(daylight, sheet.ladder)
                                       : plan::turn_words(daylight, zone.likely.seen[light]);
  canvas.text(canvas.fitted(sheet.say(words), width, kSmall),
              {x + width / 2, y + kTile + 2 * kMargin + kWordsAt}, kSmall, neutral(kPaleL),
              Align::centre);
}

void draw_heads(Sheet& sheet) {
  constexpr double kLightRise = 30;
  constexpr double kEndsRise = 9;
  constexpr double kEndShare = 0.28;
  Canvas& canvas = sheet.canvas;
  for (std::size_t light = 0; light < plan::kTileLights; ++light) {
    const plan::TileLight& lamp = plan::tile_lights()[light];
    const double x = sheet.panel_left(light);
    const double width = sheet.panel_width();
    canvas.text(fmt::format("{} ({})", sheet.say(lamp.words), colour::name_of(lamp.light)),
                {x + width / 2, kTop - kLightRise}, kHead, neutral(kPaleL), Align::centre);
    const double inner = width - 2 * kMargin;
    const double end = inner * kEndShare;
    const double centre = x + width / 2;
    canvas.text(sheet.say("lighter end"), {x + kMargin + end / 2, kTop - kEndsRise}, kSmall,
                neutral(kPaleL), Align::centre);
    canvas.text(sheet.say("likely"), {centre, kTop - kEndsRise}, kSmall, neutral(kPaleL),
                Align::centre);
    canvas.text(sheet.say("darker end"), {x + width - kMargin - end / 2, kTop - kEndsRise}, kSmall,
                neutral(kPaleL), Align::centre);
  }
}

void draw_zone(Sheet& sheet, const plan::ZoneTiles& zone, bool sections, double y) {
  constexpr double kNameAt = 40;
  constexpr double kLine = 19;
  constexpr double kBelow = 19;
  Canvas& canvas = sheet.canvas;
  const double room = kNames - kMargin;
  canvas.text(canvas.fitted(sheet.say(zone.zone), room, kHead), {kLeft, y + kNameAt}, kHead,
              neutral(kPaleL));
  if (sections) {
    canvas.text(canvas.fitted(sheet.say(zone.section), room, kSmall), {kLeft, y + kNameAt + kLine},
                kSmall, neutral(kPaleL));
  }
  for (std::size_t light = 0; light < plan::kTileLights; ++light) {
    draw_panel(sheet, zone, light, y);
  }
  canvas.text(sheet.say("level"), {kLeft, y + kTile + 2 * kMargin + kBelow}, kSmall,
              neutral(kPaleL));
}

void draw_foot(Sheet& sheet, double height) {
  constexpr double kFirst = 34;
  constexpr double kSecond = 14;
  Canvas& canvas = sheet.canvas;
  const Language language = sheet.picture.language;
  std::string first(said(language,
                         "Lighter and darker end: what should hold 8 times in 10. Lamps are shown "
                         "as an eye used to them sees the hair."));
  if (!sheet.all_on_screen) first += "  ≈ " + sheet.say("nearest a screen can show") + '.';
  const std::string second =
      sheet.say("What a model expects of this hair, not proof.") + ' ' +
      sheet.say(
          "Do a strand test; follow the makers' instructions and local law; the licensed "
          "professional decides.");
  canvas.text(first, {kLeft, height - kFirst}, kSmall, neutral(kPaleL));
  canvas.text(second, {kLeft, height - kSecond}, kSmall, neutral(kPaleL));
}

}  // namespace

Result<std::string> result_tiles_png(std::span<const plan::ZoneTiles> tiles,
                                     const TilesPicture& picture, const hair::Ladder& ladder) {
  HW_CHECK(!tiles.empty());
  ChartPicture size;
  size.width = picture.width;
  size.scale = picture.scale;
  if (auto sized = check_size(size); !sized) return tl::unexpected(sized.error());
  const double height = kTop + static_cast<double>(tiles.size()) * kRow + kFoot;
  Canvas canvas(picture.width, height, picture.scale);
  canvas.fill({0, 0, picture.width + 1, height + 1}, neutral(kSurroundL));
  Sheet sheet{canvas, picture, ladder};
  draw_title(canvas, picture.title, kLeft, picture.width - kLeft - kRight);
  draw_heads(sheet);
  const bool sections = std::any_of(tiles.begin(), tiles.end(), [&](const plan::ZoneTiles& zone) {
    return zone.section != tiles.front().section;
  });
  for (std::size_t z = 0; z < tiles.size(); ++z) {
    draw_zone(sheet, tiles[z], sections, kTop + static_cast<double>(z) * kRow);
  }
  draw_foot(sheet, height);
  return canvas.png();
}

Result<void> write_result_tiles_png(std::span<const plan::ZoneTiles> tiles,
                                    const TilesPicture& picture, const hair::Ladder& ladder,
                                    const std::string& path) {
  return write_png(result_tiles_png(tiles, picture, ladder), path);
}

}  // namespace hw::sheets
