#pragma once
// What the program's own sentences say, in the language of who asks.
#include <string_view>

#include "huewright/base/language.h"
#include "route.h"

namespace hw::server {

/// The first language of a field Accept-Language (RFC 9110, 12.5.4) that the program speaks, by its
/// weight; English where there is none. field: anything.
[[nodiscard]] Language language_wanted(std::string_view field);

/// Tells the sentences of an answer in JSON again: refusals, notes, names of courses, words of a
/// colour. What people wrote, facts, cases and names stay, so that what a page sends back is what
/// it was. Other answers, and what is no JSON, stay as they are.
void tell(Reply& reply, Language language);

}  // namespace hw::server
