// right: HairLab
// wrong: PrintLab
// says: no matching function
// A reading in D65 at 10 degrees against one in D50 at 2 degrees, as graphic arts use.
#include "huewright/colour/difference.h"

using namespace hw::colour;
using PrintLab = Lab<D50, Deg2>;

double difference(const HairLab& one, const HW_TOKEN& two) {
  return delta_e_2000(one, two);
}
