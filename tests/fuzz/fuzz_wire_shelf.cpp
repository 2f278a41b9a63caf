// Any bytes as a shelf file.
#include "fuzz_wire.h"
#include "huewright/wire/case_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  (void)hw::fuzz::taken<hw::wire::ShelfFile>(data, size);
  return 0;
}
