// Any bytes as a photo: either a mendable error in one line, or a picture of the size it says. The
// tail of the input is read as an EXIF block and as a colour profile besides, so that the fuzzer
// need not learn to wrap them.
#include <cstdint>
#include <string_view>

#include "huewright/base/check.h"
#include "huewright/photo/jpeg.h"
#include "profile.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace std::string_view_literals;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const hw::photo::JpegLimits limits{.bytes = 1U << 20U, .pixels = 1U << 18U, .scans = 16};
  const auto picture = hw::photo::decode_jpeg(bytes, limits);
  if (!picture) {
    HW_CHECK(!picture.error().message.empty());
    HW_CHECK(hw::one_line(picture.error()).find('\n') == std::string::npos);
  } else {
    HW_CHECK(picture->rgb.size() == 3 * picture->width * picture->height);
    const hw::photo::Picture turned = hw::photo::upright(*picture);
    HW_CHECK(turned.rgb.size() == picture->rgb.size() && turned.exif.orientation == 1);
    (void)hw::photo::profile_of(*picture);
    const auto kept = hw::photo::clean_jpeg(bytes, 64, limits);
    HW_CHECK(kept && hw::photo::decode_jpeg(*kept).has_value());
  }
  const hw::photo::Exif exif = hw::photo::read_exif(bytes);
  HW_CHECK(exif.orientation >= 1 && exif.orientation <= 8);
  HW_CHECK(!exif.exposure_s || *exif.exposure_s > 0);
  const std::string block = std::string("Exif\0\0"sv) + std::string(bytes);
  HW_CHECK(hw::photo::read_exif(block).orientation >= 1);
  hw::photo::Picture with_profile;
  with_profile.icc = bytes;
  (void)hw::photo::profile_of(with_profile);
  return 0;
}
