#include "huewright/book/ids.h"

#include <sys/random.h>

#include <chrono>

#include "huewright/base/check.h"

namespace hw::book {

std::string id_of(std::uint64_t milliseconds, const std::array<std::uint8_t, 10>& random) {
  constexpr std::string_view kDigits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  constexpr int kTimeDigits = 10;
  constexpr int kRandomDigits = 16;
  std::string id(kTimeDigits + kRandomDigits, '0');
  for (int i = kTimeDigits - 1; i >= 0; --i) {
    id[static_cast<std::size_t>(i)] = kDigits[milliseconds & 31U];
    milliseconds >>= 5U;
  }
  for (std::size_t digit = 0; digit < kRandomDigits; ++digit) {
    const std::size_t bit = digit * 5;
    const std::size_t byte = bit / 8;
    const unsigned wide = static_cast<unsigned>(random[byte]) << 8U |
                          (byte + 1 < random.size() ? random[byte + 1] : 0U);
    id[kTimeDigits + digit] = kDigits[(wide >> (11U - bit % 8)) & 31U];
  }
  return id;
}

std::string new_id() {
  std::array<std::uint8_t, 10> random{};
  HW_CHECK(getrandom(random.data(), random.size(), 0) == static_cast<ssize_t>(random.size()));
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return id_of(static_cast<std::uint64_t>(
                   std::chrono::duration_cast<std::chrono::milliseconds>(now).count()),
               random);
}

}  // namespace hw::book
