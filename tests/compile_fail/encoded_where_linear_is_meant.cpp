// right: LinearRgb
// wrong: EncodedRgb
// says: no matching function
// Encoded numbers are no amounts of light.
#include "huewright/colour/rgb.h"

using namespace hw::colour;

Xyz<ScreenD65, Deg2> light_of(const HW_TOKEN<Srgb>& rgb) {
  return rgb_to_xyz(rgb);
}
