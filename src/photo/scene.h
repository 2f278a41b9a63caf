#pragma once
// A photo on its way to a reading: picture, sheet, light, patches; then the strand by some fit.
#include <memory>

#include "camera_fit.h"
#include "light_field.h"
#include "strand.h"

namespace hw::photo {

/// What the sheet tells of the light and the camera.
struct ChartView {
  FoundSheet found;
  LightField light;
  std::vector<FitPatch> patches;  ///< light taken out; empty for a grey card
  Rgb grey{};                     ///< of a grey card
  ChartFacts facts;
};

struct Scene {
  Picture picture;
  Profile profile;
  FileFacts facts;
  std::optional<ChartView> chart = {};
};

/// Decodes a photo and looks at the sheet, if there is one. Errors: as read_photo.
[[nodiscard]] Result<std::unique_ptr<Scene>> open_scene(std::string_view bytes,
                                                        const ReadWish& wish);
/// The fit on the scene's own chart; facts of the chart are filled. Errors: as fit_camera.
[[nodiscard]] Result<CameraFit> fit_scene(ChartView& chart, const Profile& profile);
/// Fills the errors and words of a fit into what is said of the chart.
void describe_fit(const CameraFit& fit, ChartFacts& facts);

/// How errors of one photo are put together.
struct ZoneError {
  Covariance fit{};  ///< of the fit at the zone's colour
  Lab3 light{};      ///< what 1 sd of more light on the hair does
  Lab3 shine{};      ///< what kUnseenShine does
  Lab3 own{};        ///< 1 sd of the mean by the hair's and the picture's scatter
};
struct ZoneRead {
  PhotoZone zone;
  ZoneError error;
};
struct StrandRead {
  std::vector<Station> stations;
  std::vector<double> light_sd;  ///< of ln of light, per station
  std::optional<double> length_cm = {};
  bool length_by_chart = false;
};
/// Stations of the strand by a fit. factor: of all numbers first. Errors: as read_photo, "line".
[[nodiscard]] Result<StrandRead> read_strand(const Scene& scene, const CameraFit& fit,
                                             double factor, const ReadWish& wish);
/// One zone of it: stations from to before `to`, which run from share to share of the line.
[[nodiscard]] ZoneRead read_zone(const StrandRead& strand, const CameraFit& fit, std::size_t from,
                                 std::size_t to);
/// Lab of stations as plain numbers.
[[nodiscard]] std::vector<Lab3> plain(const std::vector<Station>& stations);

/// Error of a wish, where "line", "length" or "width".
[[nodiscard]] Result<void> check_wish(const ReadWish& wish);
/// What is said of any photo.
[[nodiscard]] std::vector<std::string> cautions_of(const Scene& scene, const ReadWish& wish);

}  // namespace hw::photo
