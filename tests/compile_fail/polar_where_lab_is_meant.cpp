// right: HairLab
// wrong: HairLch
// says: no matching function
// L, C, h are not L, a, b.
#include "huewright/colour/difference.h"

using namespace hw::colour;

double difference(const HairLab& one, const HW_TOKEN& two) {
  return delta_e_76(one, two);
}
