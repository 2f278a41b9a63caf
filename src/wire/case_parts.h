#pragma once
// The pieces of a case file: person, zone, product.
#include "huewright/plan/case.h"
#include "huewright/wire/fields.h"

namespace hw::wire {

void describe_person(Object& object, process::Person& person);

}  // namespace hw::wire

// describe() of a list's entries is found through their types.
namespace hw::process {
void describe(wire::Object& object, Product& product);
void describe(wire::Object& object, OwnLimit& limit);
}  // namespace hw::process
namespace hw::plan {
void describe(wire::Object& object, ZoneCase& zone);
void describe(wire::Object& object, Reading& reading);
}  // namespace hw::plan
