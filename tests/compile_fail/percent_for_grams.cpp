// right: Grams
// wrong: Percent
// says: no matching function|could not convert|cannot convert
// A share is not a mass.
#include "huewright/base/units.h"

using namespace hw;

Grams total(Grams one, Grams two) {
  return one + two;
}
Grams both(Grams one, HW_TOKEN two) {
  return total(one, two);
}
