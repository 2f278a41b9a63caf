// Any bytes as a file of checks: decoded, written again, and matched with a head of two zones.
#include "fuzz_wire.h"
#include "huewright/wire/checks_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto file = fuzz::taken<wire::ChecksFile>(data, size);
  if (!file) return 0;
  plan::Case head;
  head.zones.resize(2);
  head.zones[0].name = "roots";
  head.zones[1].name = "ends";
  const auto readings = wire::readings_of(*file, head);
  if (!readings) fuzz::check_error(readings.error());
  return 0;
}
