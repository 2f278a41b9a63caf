// right: HairXyz
// wrong: HairLab
// says: no matching function
// Lab of Lab.
#include "huewright/colour/lab.h"

using namespace hw::colour;

HairLab read(const HW_TOKEN& values) {
  return xyz_to_lab(values);
}
