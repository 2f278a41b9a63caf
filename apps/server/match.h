#pragma once
// Which route an address names.
#include <span>
#include <string>
#include <vector>

#include "route.h"
#include "target.h"

namespace hw::server {

/// The route that a path names, with what stands for each {…}; and the methods it knows.
struct Match {
  const Route* route = nullptr;  ///< null: no route of this method
  std::vector<std::string> parts;
  std::string allow;  ///< "GET, HEAD, POST"; empty: no such path
};
/// all: own routes and those of the handlers may be asked one after the other, into the same match.
void match_in(std::span<const Route> all, std::string_view method, const Target& target,
              Match& match);

}  // namespace hw::server
