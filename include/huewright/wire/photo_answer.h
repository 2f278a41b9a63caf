#pragma once
// What `read` answers: a photo, or the change between two.
#include "huewright/photo/read.h"
#include "huewright/wire/json.h"

namespace hw::photo {

void describe(wire::Object& object, PhotoReading& reading);
void describe(wire::Object& object, PhotoChange& change);

}  // namespace hw::photo
