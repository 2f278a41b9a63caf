// right: D65
// wrong: A
// says: no matching function
// The older formulae refuse the same mix.
#include "huewright/colour/difference.h"

using namespace hw::colour;

double difference(const Lab<D65, Deg2>& one, const Lab<HW_TOKEN, Deg2>& two) {
  return delta_e_76(one, two) + delta_e_94(one, two) + delta_e_cmc(one, two);
}
