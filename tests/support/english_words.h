#pragma once
// What is left in English of a text in another language. A word counts as English where the
// program's own sentences have it in English and no sentence of the other language does; so a
// sentence that was never translated is found by its "the", "with" or "hair", and words that two
// languages share, names and figures pass.
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/language.h"

namespace hw::test {

/// The words of a text, small, letters alone ("Bowl 1: 45 g" is bowl, g); {places} left out.
[[nodiscard]] std::vector<std::string> words_of(std::string_view text);

/// A text without its line breaks, in which each phrase that anybody chose (the words on a tube, a
/// title, where something was published) is "_".
[[nodiscard]] std::string in_one_line(std::string_view text,
                                      const std::vector<std::string>& phrases);

/// Every English word that is left, with what stands round it; phrases may stay.
[[nodiscard]] std::vector<std::string> english_left(Language language, std::string_view text,
                                                    const std::vector<std::string>& phrases);

}  // namespace hw::test
