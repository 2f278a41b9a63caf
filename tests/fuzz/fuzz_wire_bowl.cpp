// Any bytes as a bowl request, and the answer to those that are one.
#include "fuzz_wire.h"
#include "huewright/wire/bowl.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto request = fuzz::taken<wire::BowlRequest>(data, size);
  if (request) fuzz::check_answer(wire::answer(*request));
  return 0;
}
