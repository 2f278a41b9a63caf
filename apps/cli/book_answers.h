#pragma once
// Lists of the book as JSON: each answer is an object with one list.
#include <string>
#include <vector>

#include "huewright/book/store.h"
#include "huewright/wire/json.h"

namespace hw::apps {

[[nodiscard]] std::string clients_json(const std::vector<book::ClientLine>& clients);
[[nodiscard]] std::string visits_json(const std::vector<book::VisitLine>& visits);
[[nodiscard]] std::string facts_json(const std::string& id, std::vector<book::Fact> facts);

}  // namespace hw::apps
