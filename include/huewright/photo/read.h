#pragma once
// A photo of hair read beside a chart: colour along a strand, zones, and how sure each is. Without
// a chart there are words and no number: a telephone's own colours are off by a level and more.
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/photo/chart_sheet.h"
#include "huewright/photo/jpeg.h"

namespace hw::photo {

/// A point of the upright picture, as shares of its width and height [0 to 1].
struct PointShare {
  double x = 0;
  double y = 0;
};

struct ReadWish {
  std::vector<PointShare> line;  ///< from scalp to tip, 2 to 100 points; empty: whole middle
  std::optional<double> length_cm = {};  ///< of the strand along it, stretched, 1 to 200
  double width_share = 0.012;            ///< of the strip read, share of the long side, 0.002–0.2
  std::optional<ChartKind> chart = {};   ///< another chart in the window than the sheet says
};

using Lab3 = std::array<double, 3>;
using Covariance = std::array<double, 9>;  ///< of L*, a*, b*, row by row

/// What no rendered frame tells and every band allows for: shine that a telephone sees on a strand
/// and an instrument does not. 1 sd of the light it adds, white is 1: the surface terms of the
/// colour law lie between 0.0175 and 0.031 (scanavez_2000 and src/plan/belief.cpp), and an even
/// spread over that range has this sd. That the two see as different surfaces is a guess.
inline constexpr double kUnseenShine = 0.004;

/// What was read of the file itself.
struct FileFacts {
  std::size_t width = 0, height = 0;  ///< pixels, upright
  int orientation = 1;                ///< the tag that was obeyed
  std::string colour_space;           ///< of the profile, or "sRGB"
  bool colour_space_assumed = false;
  std::optional<double> exposure_s = {};
  std::optional<int> iso = {};
  std::optional<bool> flash = {};
};

/// A patch, as the fit on the others would have read it.
struct PatchError {
  std::string name;
  double de00 = 0;  ///< CIEDE2000
};

struct ChartFacts {
  ChartSheet sheet;
  std::string model;                ///< what was fitted, in words
  std::vector<PatchError> patches;  ///< left-one-out errors; empty for a grey card
  double median_de00 = 0, most_de00 = 0;
  double uneven = 1;                  ///< brightest over darkest light over the sheet [1]
  bool turned = false;                ///< the chart lies upside down
  std::vector<std::string> left_out;  ///< patches that were not used, with the reason
};

/// Colour at one place of the strand.
struct Station {
  double share = 0;  ///< of the line, from the scalp, 0–1
  colour::HairLab lab;
};

/// A stretch of one colour. The likelihood of its true colour is normal: mean lab, covariance.
struct PhotoZone {
  double from_share = 0, to_share = 1;
  std::optional<double> from_cm = {}, to_cm = {};  ///< where the length is known
  colour::HairLab lab;                             ///< D65, 10 degrees
  Covariance covariance{};                         ///< of all errors: chart, light, place, hair
  Lab3 sd{};                                       ///< 1 sd of each axis
  Lab3 shine{};                                    ///< the part of it that is kUnseenShine
  Lab3 spread{};                                   ///< of the hair itself along the stretch, 1 sd
  std::string words;
};

struct PhotoReading {
  FileFacts file;
  std::optional<ChartFacts> chart = {};
  std::optional<double> length_cm = {};
  bool length_by_chart = false;   ///< measured in the plane of the sheet, not given
  std::vector<Station> stations;  ///< empty without a chart
  std::vector<PhotoZone> zones;   ///< empty without a chart
  std::string words;              ///< without a chart: what it looks like, from … to …
  std::vector<std::string> cautions;
};

/// Reads a photo. bytes: of a JPEG. Errors: those of decode_jpeg; of the wish (where "line",
/// "length", "width"); where "chart": tags missing, patches too small, clipped, too dark, shining,
/// unlike their colours, light too uneven; where "line": the hair there is clipped or too dark.
[[nodiscard]] Result<PhotoReading> read_photo(std::string_view bytes, const ReadWish& wish = {});

/// How a stretch changed between two photos.
struct ZoneChange {
  double from_share = 0, to_share = 1;
  std::optional<double> from_cm = {}, to_cm = {};
  colour::HairLab before, after;
  Lab3 change{};    ///< after minus before
  Lab3 sd{};        ///< of the change, 1 sd
  Lab3 shine{};     ///< the part of it that is kUnseenShine
  Lab3 apart_sd{};  ///< what it would be if nothing were shared
  double de00 = 0;  ///< CIEDE2000
};

struct PhotoChange {
  PhotoReading before, after;
  bool one_light = false;  ///< the same light and camera, so errors are shared
  double light_apart = 0;  ///< how far the two photos' patches are apart, CIEDE2000, median
  std::vector<ZoneChange> zones;
  std::vector<std::string> cautions;
};

/// Reads two photos of one strand and takes the difference. Where one light and camera took both,
/// both are read by one fit on both charts, and what that fit gets wrong cancels. Errors: those of
/// read_photo (where: "before …" or "after …"); missing, when one shows no chart.
[[nodiscard]] Result<PhotoChange> compare_photos(std::string_view before, std::string_view after,
                                                 const ReadWish& wish_before,
                                                 const ReadWish& wish_after);

}  // namespace hw::photo
