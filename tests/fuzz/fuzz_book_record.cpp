// Any bytes as a record file: every fact of it, filled in, is one.
#include "fuzz_book.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto file = fuzz::taken<book::RecordFile>(data, size);
  if (!file) return 0;
  const auto facts = book::filled(file->facts, "subject", fuzz::hand());
  HW_CHECK(facts.size() == file->facts.size());
  for (const book::Fact& fact : facts) fuzz::check_fact(fact);
  return 0;
}
