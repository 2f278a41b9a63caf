// Any bytes as a case file: decoded, written again, and checked as a whole.
#include "fuzz_wire.h"
#include "huewright/wire/case_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto file = fuzz::taken<wire::CaseFile>(data, size);
  if (!file) return 0;
  const auto head = wire::ready(*file);
  if (!head) fuzz::check_error(head.error());
  return 0;
}
