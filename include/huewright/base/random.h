#pragma once
// Randomness without hidden state: a draw is a pure function of (seed, stream, index), so members
// can be drawn in any order, on any thread, and come out the same.
#include <cstdint>

namespace hw {

/// Counter-based generator: two rounds of the SplitMix64 finaliser (Steele, Lea & Flood 2014) over
/// seed, stream and index. Streams name what is drawn; indices are members.
class Draws {
 public:
  constexpr explicit Draws(std::uint64_t seed) : seed_(seed) {}
  /// Uniform in (0, 1) [1].
  [[nodiscard]] double uniform(std::uint64_t stream, std::uint64_t index) const;
  /// Standard normal [1].
  [[nodiscard]] double normal(std::uint64_t stream, std::uint64_t index) const;
  /// Whole number in [0, count). count: > 0.
  [[nodiscard]] std::uint64_t below(std::uint64_t count, std::uint64_t stream,
                                    std::uint64_t index) const;
  [[nodiscard]] constexpr std::uint64_t seed() const { return seed_; }

 private:
  std::uint64_t seed_;
};

}  // namespace hw
