#pragma once
// Most that one `lift` computes; house rules, no source: far more than a day in the chair, little
// enough that no request can fill the memory.
#include <cstddef>
#include <cstdint>
#include <limits>

namespace hw::wire {

inline constexpr double kMostMinutes = 1440;               // min, per application: one day
inline constexpr std::size_t kMostApplications = 20;       // 1
inline constexpr std::uint64_t kMostMembers = 8192;        // 1
inline constexpr std::size_t kMostRows = 20000;            // 1
inline constexpr std::size_t kMostMemberRows = 5'000'000;  // rows × members: about 300 MB
inline constexpr std::uint64_t kMostSeed = std::numeric_limits<std::uint64_t>::max();

}  // namespace hw::wire
