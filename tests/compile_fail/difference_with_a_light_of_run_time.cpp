// right: HairLab
// wrong: ViewedLab
// says: no matching function
// A colour whose light is known only at run time is not a hair colour.
#include "huewright/colour/difference.h"

using namespace hw::colour;

double difference(const HairLab& one, const HW_TOKEN& two) {
  return delta_e_2000(one, two);
}
