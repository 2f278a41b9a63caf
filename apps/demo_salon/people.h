#pragma once
// Invented people. Given and family names are put together by chance from many languages; phones
// are numbers that regulators keep for fiction, e-mail ends in names that nobody can own.
#include <array>
#include <string>

#include "huewright/book/client_facts.h"

namespace hw::demo {

/// Who works at a chair, and how.
struct Colourist {
  std::string name, chair;
  double bias = 0;          ///< of the eye [levels]
  bool instrument = false;  ///< reads the finish with one
  double pace = 1;          ///< minutes taken over those of the plan
};

/// Three of them. seed: of their eyes.
[[nodiscard]] std::array<Colourist, 3> colourists(std::uint64_t seed);

/// The person of a client, no two of the first thousand of one name.
[[nodiscard]] book::PersonFact person(std::uint64_t seed, std::size_t client);

}  // namespace hw::demo
