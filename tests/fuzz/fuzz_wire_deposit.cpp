// Any bytes as a deposit request. Those that are one and cost little are simulated too.
#include "fuzz_wire.h"
#include "huewright/wire/deposit.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  auto request = fuzz::taken<wire::DepositRequest>(data, size);
  if (!request) return 0;
  // Time goes with members, minutes and swatches; none changes what is reached in the code.
  constexpr std::uint64_t kFewMembers = 2;
  constexpr double kFewMinutes = 60;
  constexpr std::size_t kFewColours = 4;
  request->members = std::min(request->members, kFewMembers);
  if (request->minutes.value() > kFewMinutes || request->colours.size() > kFewColours) return 0;
  if (request->minutes / request->every > kFewMinutes) return 0;
  InlineExecutor here;
  fuzz::check_answer(wire::answer(*request, here));
  return 0;
}
