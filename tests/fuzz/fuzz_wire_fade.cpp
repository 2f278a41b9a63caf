// Any bytes as a fade request.
#include "fuzz_wire.h"
#include "huewright/wire/fade.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  (void)hw::fuzz::taken<hw::wire::FadeRequest>(data, size);
  return 0;
}
