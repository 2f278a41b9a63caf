#include "profile.h"

#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "huewright/colour/rgb.h"

namespace hw::photo {
namespace {

using colour::operator*;

struct CloseProfile {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
struct DeleteContext {
  void operator()(cmsContext context) const { cmsDeleteContext(context); }
};
using Context = std::unique_ptr<std::remove_pointer_t<cmsContext>, DeleteContext>;

tl::unexpected<Error> unreadable(std::string what) {
  return fail(ErrorCode::malformed, std::move(what), "photo",
              "send the photo as the camera wrote it, or export it in sRGB");
}

Profile srgb() {
  Profile profile;
  profile.name = "sRGB";
  profile.assumed = true;
  for (std::size_t i = 0; i < 256; ++i) {
    const double light =
        colour::decode(static_cast<double>(i) / 255, colour::Srgb::space().transfer);
    for (auto& curve : profile.light) curve[i] = light;
  }
  // IEC 61966-2-1 primaries, Bradford to the D50 of ICC.1.
  const auto to_d50 = colour::adaptation_matrix(colour::ScreenD65::kWhite, {96.42, 100, 82.49});
  profile.to_xyz = to_d50 * colour::Srgb::space().to_xyz;
  return profile;
}

std::string description(void* handle) {
  std::array<char, 80> text{};
  const auto size = static_cast<cmsUInt32Number>(text.size());
  if (cmsGetProfileInfoASCII(handle, cmsInfoDescription, "en", "US", text.data(), size) == 0) {
    return "unnamed";
  }
  std::string name(text.data());
  for (char& letter : name) {
    if (letter < ' ' || letter > '~') letter = '?';
  }
  return name.empty() ? "unnamed" : name;
}

}  // namespace

Result<Profile> profile_of(const Picture& picture) {
  if (picture.icc.empty()) {
    Profile profile = srgb();
    profile.assumed = picture.exif.says_srgb != true;
    return profile;
  }
  const Context context(cmsCreateContext(nullptr, nullptr));
  if (!context) return unreadable("there is no memory for its colour profile");
  const std::unique_ptr<void, CloseProfile> handle(cmsOpenProfileFromMemTHR(
      context.get(), picture.icc.data(), static_cast<cmsUInt32Number>(picture.icc.size())));
  if (!handle) return unreadable("its colour profile is damaged");
  if (cmsGetColorSpace(handle.get()) != cmsSigRgbData) {
    return unreadable("its colour profile is not for RGB");
  }
  if (cmsIsMatrixShaper(handle.get()) == 0) {
    return unreadable("its colour profile is a table, and only a matrix with curves is read");
  }
  Profile profile;
  profile.name = description(handle.get());
  constexpr std::array kCurves{cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
  constexpr std::array kColumns{cmsSigRedColorantTag, cmsSigGreenColorantTag,
                                cmsSigBlueColorantTag};
  for (std::size_t c = 0; c < 3; ++c) {
    const auto* curve = static_cast<const cmsToneCurve*>(cmsReadTag(handle.get(), kCurves[c]));
    const auto* column = static_cast<const cmsCIEXYZ*>(cmsReadTag(handle.get(), kColumns[c]));
    if (curve == nullptr || column == nullptr) return unreadable("its colour profile is damaged");
    for (std::size_t i = 0; i < 256; ++i) {
      const double light = cmsEvalToneCurveFloat(curve, static_cast<cmsFloat32Number>(i) / 255.0F);
      if (!std::isfinite(light)) return unreadable("its colour profile is damaged");
      profile.light[c][i] = std::clamp(light, 0.0, 1.0);
    }
    if (!std::isfinite(column->X + column->Y + column->Z)) {
      return unreadable("its colour profile is damaged");
    }
    profile.to_xyz[0][c] = column->X;
    profile.to_xyz[1][c] = column->Y;
    profile.to_xyz[2][c] = column->Z;
  }
  return profile;
}

}  // namespace hw::photo
