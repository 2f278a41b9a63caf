#pragma once
// What a server is asked about photos that it keeps.
#include <string>

#include "huewright/photo/read.h"
#include "huewright/wire/json.h"

namespace hw::wire {

/// A line on a kept photo, read along.
struct PhotoLine {
  std::string photo;  ///< SHA-256 of its bytes, 64 hex digits
  photo::ReadWish wish;
};
/// Two photos of one strand, taken in one light.
struct PhotoPair {
  PhotoLine before, after;
};

void describe(Object& object, PhotoLine& line);
void describe(Object& object, PhotoPair& pair);

}  // namespace hw::wire
