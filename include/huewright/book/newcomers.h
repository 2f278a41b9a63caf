#pragma once
// Clients on their way in from another program: looked at first, then added.
#include <span>
#include <string>
#include <vector>

#include "huewright/book/record_file.h"
#include "huewright/book/store.h"
#include "huewright/wire/contact.h"

namespace hw::book {

struct Newcomer {
  wire::Contact contact;
  std::string known_as;  ///< id of the client who is there already, or "line 7" of the same file
  std::string wrong;     ///< why it cannot be added, one line; empty: it can
  [[nodiscard]] bool can_come() const { return known_as.empty() && wrong.empty(); }
};

/// Who of the contacts is new. The same person: the same words in the name, and the same telephone
/// digits or the same e-mail, or one of the two states neither. House rule. Errors: io.
[[nodiscard]] Result<std::vector<Newcomer>> look_at(Store& store,
                                                    std::span<const wire::Contact> contacts);

/// Adds those who can come, in batches of 500, each in or out as a whole. Gives how many.
/// Errors: io.
[[nodiscard]] Result<std::size_t> add_newcomers(Store& store, std::span<const Newcomer> newcomers,
                                                const Hand& hand);

}  // namespace hw::book
