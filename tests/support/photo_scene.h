#pragma once
// A renderer of its own for photos whose truth is known: spectra under a light, through a camera,
// the phone's own processing, a lens, noise, a tilted view, and JPEG. It shares no function with
// the floor under test: geometry, colour processing and encoding are written here once more.
#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "huewright/colour/spectrum.h"

namespace hw::test {

using colour::Spectrum;

/// Sensitivities of red, green and blue: bell shapes, centre and width.
struct Camera {
  std::string name;
  std::array<double, 3> centre_nm;
  std::array<double, 3> sd_nm;
  double cross = 0;  ///< share of its neighbours' light that each channel sees besides
};
/// Three cameras, of the shapes that published sensors have (peaks about 600, 530, 460 nm: from
/// memory).
const std::vector<Camera>& cameras();

struct StrandZone {
  double to_share = 1;  ///< of the line
  Spectrum reflectance{};
};

/// A page of paper as a printer left it: grey, row by row from the upper left.
struct PrintedPage {
  std::size_t width = 0, height = 0;  ///< pixels
  double px_per_mm = 1;
  std::vector<std::uint8_t> grey;      ///< 0 black, 255 paper
  std::array<double, 2> window_at_mm;  ///< upper left corner of the window, from the page's
};

struct PhotoScene {
  int window_width_mm = 90, window_height_mm = 60;
  int kind = 0;  ///< 0 before 2014, 1 after, 2 grey card: as the tags say it
  std::array<int, 4> tag_ids{};
  std::shared_ptr<const PrintedPage> printed = {};  ///< in the place of the renderer's own sheet
  bool tags = true, turned = false;
  int hidden_tag = -1;  ///< one that a hand covers
  std::size_t width = 1200, height = 900;
  Spectrum light{};
  Camera camera;
  bool p3 = false;      ///< Display P3 with its profile; else sRGB with its own
  bool profile = true;  ///< embed it
  int orientation = 1;
  double exposure = 0.8;    ///< of a perfect white, linear, 1 clips
  double noise = 0.01;      ///< 1 sd of a white pixel's light
  double vignette = 0.2;    ///< light lost in the corners
  double slope_x = 0;       ///< ln of light over the frame's width
  double tone = 1;          ///< exponent that bends tones after all else
  double glare = 0;         ///< light added in the middle of the chart, white is 1
  double strand_glare = 0;  ///< light added on the strand
  bool cream = false;       ///< the sheet is printed on cream paper
  double shadow = 0;        ///< share of light that a hand takes from the right half of the sheet
  double degrees = 4;       ///< turned in the view
  double tilt = 0.0002;     ///< perspective, per mm
  double px_per_mm = 3.6;
  std::array<double, 2> sheet_at{330, 450};                        ///< middle of the sheet, pixels
  std::vector<std::array<double, 2>> line{{760, 90}, {800, 820}};  ///< strand, scalp to tip, pixels
  double strand_half_px = 30;
  double hair_texture = 0.08;  ///< 1 sd of ln of light between strands
  double strand_light = 0;     ///< ln of the strand's light over the sheet's: how it hangs
  double chart_apart = 0;      ///< 1 sd of ln of a patch's reflectance: no chart is the average one
  std::vector<StrandZone> zones;
  int quality = 92;
  std::uint64_t seed = 1;
  std::uint64_t chart_seed = 0;  ///< which chart of an edition it is; 0: another for each seed
  bool flash = false;
};

/// Millimetres from the window's upper left corner, of a pixel of the upright picture.
std::array<double, 2> sheet_mm(const PhotoScene& scene, double x, double y);
/// The photo as the bytes of a JPEG.
std::string render(const PhotoScene& scene);
/// Points of the strand's line as shares of the upright picture, x and y in turn.
std::vector<double> line_shares(const PhotoScene& scene);

/// Reflectances of hair-like strands: a rise from `low` to `high` round a wavelength.
Spectrum strand_spectrum(double low, double high, double middle_nm, double width_nm);
/// A named set of them from black to pale yellow, copper, red and silver.
struct NamedSpectrum {
  std::string name;
  Spectrum reflectance;
};
const std::vector<NamedSpectrum>& strands();

/// Spectra of the 24 patches (pascale2012).
const std::vector<Spectrum>& patch_spectra();

}  // namespace hw::test
