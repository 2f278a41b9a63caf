// Any bytes as a product for the shelf.
#include "fuzz_book.h"
#include "huewright/book/shelf_facts.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace hw;
  const auto product = fuzz::taken<book::ProductFact>(data, size);
  if (!product) return 0;
  fuzz::check_fact(book::make_fact("f", product->product.id, fuzz::hand().at, "Ines", *product));
  return 0;
}
