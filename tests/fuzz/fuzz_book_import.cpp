// Any bytes as the book.jsonl of an exported folder. Whatever came of it, the book is whole, and
// goes out, in and out again as the same bytes.
#include "fuzz_book.h"
#include "huewright/book/transfer.h"

namespace {

using namespace hw;

std::unique_ptr<book::Folder> empty_book(const std::string& path) {
  auto folder = book::Folder::open(path, {.full_sync = false});
  HW_CHECK(folder.has_value());
  return *std::move(folder);
}

std::string exported(book::Folder& folder, const std::string& to) {
  const auto facts = book::export_book(folder, to);
  HW_CHECK(facts.has_value() && *facts == *folder.store().count_facts());
  return fuzz::bytes_of(to + "/book.jsonl");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::Sandbox home("fuzz-import");
  home.clear();
  const std::string from = home.path() + "/from";
  std::filesystem::create_directory(from);
  fuzz::put_file(from + "/book.jsonl", {reinterpret_cast<const char*>(data), size});
  const auto one = empty_book(home.path() + "/one");
  const auto read = book::import_book(*one, from);
  if (!read) fuzz::check_error(read.error());
  const auto count = one->store().count_facts();
  HW_CHECK(count.has_value());
  if (read) HW_CHECK(*count <= *read);
  if (*count == 0) return 0;
  const auto findings = one->store().examine();
  HW_CHECK(findings.has_value() && findings->empty());
  const std::string out = exported(*one, home.path() + "/out");
  const auto two = empty_book(home.path() + "/two");
  const auto again = book::import_book(*two, home.path() + "/out");
  HW_CHECK(again.has_value() && *again == *count);
  HW_CHECK(exported(*two, home.path() + "/again") == out);
  return 0;
}
