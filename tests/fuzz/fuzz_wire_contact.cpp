// Any bytes as contacts, as cards and as a table: people with names, each in the book or left out
// for a reason.
#include "fuzz_wire.h"
#include "huewright/wire/contact.h"

namespace {

bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
}

void check_line(std::size_t line, std::string_view text) {
  HW_CHECK(line >= 1);
  HW_CHECK(line <= static_cast<std::size_t>(std::ranges::count(text, '\n')) + 1);
}

void check(const hw::Result<hw::wire::Contacts>& contacts, std::string_view text) {
  if (!contacts) return hw::fuzz::check_error(contacts.error());
  for (const hw::wire::Contact& one : contacts->read) {
    check_line(one.line, text);
    HW_CHECK(!one.name.empty());
    for (const std::string* part :
         {&one.name, &one.phone, &one.email, &one.address, &one.language}) {
      HW_CHECK(std::none_of(part->begin(), part->end(), is_control));
      HW_CHECK(part->empty() || (part->front() != ' ' && part->back() != ' '));
    }
  }
  for (const hw::wire::LeftOut& one : contacts->left_out) {
    check_line(one.line, text);
    HW_CHECK(!one.why.empty());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  check(hw::wire::read_vcards(text), text);
  check(hw::wire::read_contact_table(text), text);
  return 0;
}
