#include "huewright/base/random.h"

#include "huewright/base/elementary.h"

namespace hw {
namespace {

constexpr std::uint64_t mix(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

constexpr std::uint64_t word(std::uint64_t seed, std::uint64_t stream, std::uint64_t index) {
  return mix(mix(mix(seed) ^ stream) ^ index);
}

}  // namespace

double Draws::uniform(std::uint64_t stream, std::uint64_t index) const {
  // 52 random bits centred in their cell: never 0, never 1.
  return (static_cast<double>(word(seed_, stream, index) >> 12) + 0.5) * 0x1p-52;
}

double Draws::normal(std::uint64_t stream, std::uint64_t index) const {
  return normal_quantile(uniform(stream, index));
}

std::uint64_t Draws::below(std::uint64_t count, std::uint64_t stream, std::uint64_t index) const {
  const auto at = static_cast<std::uint64_t>(uniform(stream, index) * static_cast<double>(count));
  return at < count ? at : count - 1;
}

}  // namespace hw
