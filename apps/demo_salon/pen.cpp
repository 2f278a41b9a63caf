#include "pen.h"

#include "huewright/base/elementary.h"
#include "huewright/book/ids.h"

namespace hw::demo {

double Chance::factor(double sd_ln) {
  return exp_portable(sd_ln * normal());
}

std::string Pen::id(const process::Moment& at) {
  constexpr std::uint64_t kMsPerSecond = 1000;
  std::array<std::uint8_t, 10> random{};
  for (std::uint8_t& byte : random) byte = static_cast<std::uint8_t>(chance_.below(256));
  const auto seconds = static_cast<std::uint64_t>(at.utc.time_since_epoch().count());
  return book::id_of(seconds * kMsPerSecond + chance_.below(kMsPerSecond), random);
}

}  // namespace hw::demo
