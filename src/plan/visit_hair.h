#pragma once
// The hair of a whole head at one moment of a plan, and parts of its members.
#include <span>
#include <vector>

#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"

namespace hw::plan {

/// One entry per zone of the case.
using HeadHair = std::vector<process::LiftMembers>;

/// Some members of a zone, in the order of `picked` (indices below members.size()).
[[nodiscard]] process::LiftMembers some_members(const process::LiftMembers& members,
                                                std::span<const std::size_t> picked);

/// Members on which courses are first judged; docs/adr/0011-courses.md.
inline constexpr std::size_t kRoughMembers = 64;

/// At most `keep` members of each zone, evenly spaced and the same in all zones: members are
/// independent draws, so any of them stand for all.
[[nodiscard]] HeadHair thinned(const HeadHair& hair, std::size_t keep);

/// Hair of a belief.
[[nodiscard]] HeadHair hair_of(std::span<const ZoneBelief> zones);

/// Colours of all members, as seen or of the pigmented strands alone [D65/10°].
[[nodiscard]] std::vector<colour::HairLab> colours_of(const process::LiftMembers& members,
                                                      process::Whites whites);
/// Depth of those colours [levels].
[[nodiscard]] std::vector<double> levels_of(const Case& head,
                                            std::span<const colour::HairLab> labs);

/// Members whose L* lies nearest a quantile: a twentieth of them, at least one. p: 0–1.
[[nodiscard]] std::vector<std::size_t> near_quantile(std::span<const colour::HairLab> labs,
                                                     double p);
/// Mean colour of some members.
[[nodiscard]] colour::HairLab mean_of(std::span<const colour::HairLab> labs,
                                      std::span<const std::size_t> picked);
/// What is known of a colour: its level band, and colours near the median, 10 and 90 % of L*.
[[nodiscard]] ColourBand colour_band(const Case& head, std::span<const colour::HairLab> labs);

}  // namespace hw::plan
