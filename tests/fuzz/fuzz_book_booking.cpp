// Any bytes as a visit to be booked.
#include "fuzz_book.h"
#include "huewright/book/visit_facts.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto booking = fuzz::taken<book::BookedFact>(data, size);
  if (!booking) return 0;
  fuzz::check_fact(book::make_fact("f", "v", fuzz::hand().at, "Ines", *booking));
  return 0;
}
