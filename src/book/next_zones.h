#pragma once
// The zones of a head at the next visit: faded, grown, cut, their past one visit longer.
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/book/next_case.h"

namespace hw::book {

/// What passed since a visit.
struct Since {
  double days = 0, washes = 0, grown_cm = 0;
};

/// The hair of a section as it last grew in, untouched, from plans before this one; none: nobody
/// ever looked at it.
using NaturalHair = std::function<std::optional<plan::ZoneCase>(const std::string& section)>;

struct NextZone {
  plan::ZoneCase zone;
  std::string wish_of;  ///< name of the zone of before whose wish it keeps
};

/// The zones of the next visit, section by section in the order of the case. head: as the last
/// visit was planned. told: gets a line for each thing that is no longer as it was. New hair before
/// coloured hair is a zone "regrowth"; that of the visit before is "last regrowth" then, and that
/// of two visits before is counted with the zone behind it, so that a head never has more than two
/// zones beyond its first ones.
[[nodiscard]] std::vector<NextZone> next_zones(const plan::Case& head, const VisitState& visit,
                                               const Since& since, const NaturalHair& natural,
                                               std::span<const OnShelf> shelf,
                                               std::vector<std::string>& told);

/// Nothing was ever done to it.
[[nodiscard]] bool untouched(const plan::ZoneCase& zone);
/// A product of the shelf by its id; null where there is none.
[[nodiscard]] const process::Product* product_on(std::span<const OnShelf> shelf,
                                                 const std::string& id);

}  // namespace hw::book
