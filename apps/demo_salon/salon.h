#pragma once
// A whole invented salon: three chairs, two years, told by the model with a human hand.
#include <string>
#include <vector>

#include "client.h"
#include "huewright/book/folder.h"

namespace hw::demo {

struct SalonWish {
  std::string cases;  ///< the folder with the heads and shelves
  std::string program = "0";
  std::size_t clients = 60;
  std::size_t visits = 400;
  std::size_t members = 64;
  std::uint64_t seed = 1;
  Date until;  ///< the last day
};

struct SalonMade {
  std::int64_t facts = 0;
  std::vector<TrueEnd> ends;        ///< of visits carried out by a course of one visit
  std::vector<std::string> faults;  ///< visits that could not be planned; none as a rule
};

/// Fills an empty book. The same wish gives the same book, whatever the executor. Errors: a wish
/// outside what three chairs can do (out_of_range); a book with something in it (conflict); cases
/// that cannot be read; io.
[[nodiscard]] Result<SalonMade> make_salon(book::Folder& folder, const SalonWish& wish,
                                           Executor& executor);

}  // namespace hw::demo
