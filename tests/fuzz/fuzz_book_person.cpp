// Any bytes as a client to be added.
#include "fuzz_book.h"
#include "huewright/book/client_facts.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto person = fuzz::taken<book::PersonFact>(data, size);
  if (!person) return 0;
  fuzz::check_fact(book::make_fact("f", "c", fuzz::hand().at, "Ines", *person));
  return 0;
}
