// right: Minutes
// wrong: Celsius
// says: no match for|invalid operands
// Minutes add to minutes.
#include "huewright/base/units.h"

using namespace hw;

Minutes later(Minutes start, HW_TOKEN added) {
  return start + added;
}
