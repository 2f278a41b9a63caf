#pragma once
// Every fact of the book, or of one client, without holding them all.
#include <functional>
#include <string>

#include "huewright/book/store.h"

namespace hw::book {

/// Hands every fact over, those that make a subject first (a person, an erasure, a product), then
/// all others, each in the order of the book. client: what is about them and their visits; empty:
/// everything. Errors: io; whatever take says.
[[nodiscard]] Result<void> each_fact(Store& store, const std::string& client,
                                     const std::function<Result<void>(const Fact&)>& take);

}  // namespace hw::book
