// Any bytes as a lift request. Those that are one and cost little are simulated too.
#include "fuzz_wire.h"
#include "huewright/wire/lift.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  auto request = fuzz::taken<wire::LiftRequest>(data, size);
  if (!request) return 0;
  // Time goes with members and minutes; neither changes what is reached in the code.
  constexpr std::uint64_t kFewMembers = 2;
  constexpr double kFewMinutes = 60;
  request->members = std::min(request->members, kFewMembers);
  for (const auto& application : request->applications) {
    if (application.minutes.value() / request->every.value() > kFewMinutes) return 0;
    if (application.minutes.value() > kFewMinutes) return 0;
  }
  InlineExecutor here;
  fuzz::check_answer(wire::answer(*request, here));
  return 0;
}
