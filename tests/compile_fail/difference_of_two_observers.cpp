// right: Deg10
// wrong: Deg2
// says: no matching function
// Nor has one of colours seen by two observers.
#include "huewright/colour/difference.h"

using namespace hw::colour;

double difference(const Lab<D65, Deg10>& one, const Lab<D65, HW_TOKEN>& two) {
  return delta_e_2000(one, two);
}
