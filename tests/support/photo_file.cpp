#include "support/photo_file.h"

#include <jpeglib.h>
#include <lcms2.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

namespace hw::test {
namespace {

std::string profile_bytes(bool p3) {
  const cmsCIExyY d65{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE srgb{{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
  const cmsCIExyYTRIPLE display{{0.680, 0.320, 1}, {0.265, 0.690, 1}, {0.150, 0.060, 1}};
  const cmsFloat64Number curve[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  cmsToneCurve* one = cmsBuildParametricToneCurve(nullptr, 4, curve);
  cmsToneCurve* curves[] = {one, one, one};
  cmsHPROFILE profile = cmsCreateRGBProfile(&d65, p3 ? &display : &srgb, curves);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  std::string bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  cmsFreeToneCurve(one);
  return bytes;
}
std::string exif_bytes(int orientation, bool flash) {
  using namespace std::string_literals;
  std::string exif = "Exif\0\0MM\0*\0\0\0\x08\0\x02"s;
  exif += "\x01\x12\0\x03\0\0\0\x01\0"s + static_cast<char>(orientation) + "\0\0"s;
  exif += "\x87\x69\0\x04\0\0\0\x01\0\0\0\x26\0\0\0\0"s;  // the EXIF table lies at 38
  exif += "\0\x01\x92\x09\0\x03\0\0\0\x01\0"s + static_cast<char>(flash ? 1 : 0) + "\0\0\0\0\0\0"s;
  return exif;
}

}  // namespace

std::size_t stored_at(int orientation, std::size_t x, std::size_t y, std::size_t w, std::size_t h) {
  switch (orientation) {
    case 2:
      return y * w + (w - 1 - x);
    case 3:
      return (h - 1 - y) * w + (w - 1 - x);
    case 4:
      return (h - 1 - y) * w + x;
    case 5:
      return x * h + y;
    case 6:
      return (w - 1 - x) * h + y;
    case 7:
      return (w - 1 - x) * h + (h - 1 - y);
    case 8:
      return x * h + (h - 1 - y);
    default:
      return y * w + x;
  }
}

std::string jpeg_of(const std::vector<std::uint8_t>& rgb, std::size_t w, std::size_t h,
                    const PhotoScene& scene) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &out, &size);
  info.image_width = static_cast<JDIMENSION>(w);
  info.image_height = static_cast<JDIMENSION>(h);
  info.input_components = 3;
  info.in_color_space = JCS_RGB;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, scene.quality, TRUE);
  jpeg_start_compress(&info, TRUE);
  const std::string exif = exif_bytes(scene.orientation, scene.flash);
  jpeg_write_marker(&info, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(exif.data()),
                    static_cast<unsigned>(exif.size()));
  if (scene.profile) {
    const std::string icc = profile_bytes(scene.p3);
    jpeg_write_icc_profile(&info, reinterpret_cast<const JOCTET*>(icc.data()),
                           static_cast<unsigned>(icc.size()));
  }
  std::vector<std::uint8_t> line(3 * w);
  while (info.next_scanline < info.image_height) {
    std::copy_n(rgb.begin() + static_cast<std::ptrdiff_t>(3 * w * info.next_scanline), 3 * w,
                line.begin());
    JSAMPROW row = line.data();
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  std::string bytes(reinterpret_cast<const char*>(out), size);
  std::free(out);
  jpeg_destroy_compress(&info);
  return bytes;
}

std::string ramp_jpeg(const std::string& making) {
  constexpr std::size_t kWide = 64;
  constexpr std::size_t kHigh = 48;
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &out, &size);
  info.image_width = kWide;
  info.image_height = kHigh;
  info.input_components = making == "cmyk" ? 4 : making == "grey" ? 1 : 3;
  info.in_color_space = making == "cmyk" ? JCS_CMYK : making == "grey" ? JCS_GRAYSCALE : JCS_RGB;
  jpeg_set_defaults(&info);
  if (making == "rgb") jpeg_set_colorspace(&info, JCS_RGB);
  if (making == "progressive") jpeg_simple_progression(&info);
  jpeg_set_quality(&info, 95, TRUE);
  jpeg_start_compress(&info, TRUE);
  const auto channels = static_cast<std::size_t>(info.input_components);
  std::vector<std::uint8_t> line(channels * kWide);
  while (info.next_scanline < info.image_height) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      line[i] = static_cast<std::uint8_t>(4 * (i / channels));
    }
    JSAMPROW row = line.data();
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  std::string bytes(reinterpret_cast<const char*>(out), size);
  std::free(out);
  jpeg_destroy_compress(&info);
  return bytes;
}

}  // namespace hw::test
