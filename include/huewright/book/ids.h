#pragma once
// Ids that anyone can make without asking: sortable by the moment they were made in, so that new
// facts lie side by side on disk, and random behind that, so that two branches never make one
// twice.
#include <array>
#include <cstdint>
#include <string>

namespace hw::book {

/// 26 letters and digits: 48 bits of milliseconds since 1970, 80 bits of randomness, in Crockford's
/// base 32 (bib ulid_spec). milliseconds: 0 to 2^48 − 1. Worked: 0 and zero bytes give 26 times
/// "0".
[[nodiscard]] std::string id_of(std::uint64_t milliseconds,
                                const std::array<std::uint8_t, 10>& random);

/// An id made now, from the system's clock and randomness.
[[nodiscard]] std::string new_id();

}  // namespace hw::book
