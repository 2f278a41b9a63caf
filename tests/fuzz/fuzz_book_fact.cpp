// Any bytes as a line of an exported book.
#include "fuzz_book.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto fact = hw::fuzz::taken<hw::book::Fact>(data, size);
  if (fact) hw::fuzz::check_fact(*fact);
  return 0;
}
