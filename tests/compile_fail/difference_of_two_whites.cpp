// right: D65
// wrong: D50
// says: no matching function
// CIEDE2000 of colours under two whites has no meaning.
#include "huewright/colour/difference.h"

using namespace hw::colour;

double difference(const Lab<D65, Deg10>& one, const Lab<HW_TOKEN, Deg10>& two) {
  return delta_e_2000(one, two);
}
