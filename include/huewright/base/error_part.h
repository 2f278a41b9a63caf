#pragma once
// Parts of an error's text that the program says itself, so that they can be told in another
// language with the rest.
#include <string>

namespace hw {

/// Marks what is put into an error's text and is a text of the program itself: tools/check_messages
/// finds it by this name, retold() (base/language.h) tells it in another language.
template <class Text>
[[nodiscard]] constexpr Text error_part(Text english) {
  return english;
}

/// What the operating system says about a failed call, such as "the system says: Permission
/// denied". number: an errno.
[[nodiscard]] std::string system_words(int number);

}  // namespace hw
