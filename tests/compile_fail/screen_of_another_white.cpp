// right: D65
// wrong: D50
// says: cannot convert|could not convert|invalid initialization|no matching
// Only a colour in D65 at 10 degrees may be re-read under the white of the screen.
#include "huewright/colour/screen.h"

using namespace hw::colour;

ScreenColour show(const Lab<HW_TOKEN, Deg10>& lab) {
  return to_screen(lab, ScreenSpace::srgb);
}
