#pragma once
// The shelf behind the chairs: tubes that are bought, opened, spoilt and counted.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "huewright/book/next_case.h"
#include "huewright/book/store.h"
#include "pen.h"
#include "town_clock.h"

namespace hw::demo {

class StoreRoom {
 public:
  explicit StoreRoom(std::uint64_t seed);
  /// Everything comes onto the shelf for the first time, is priced and counted.
  void furnish(std::span<const process::Product> shelf, const process::Moment& at);
  /// Every other Monday morning: what ran low is ordered, what is due is counted, something was
  /// dropped. shelf: as the ledger has it. Error: io.
  [[nodiscard]] Result<void> look_round(book::Store& store, std::span<const book::OnShelf> shelf,
                                        Date monday);
  /// Tubes that had to be opened for these pours. facts: of a week, in their order.
  void open_tubes(std::span<const book::Fact> facts);
  /// What was written down since it was last taken.
  [[nodiscard]] std::vector<book::Fact> take();

 private:
  void buy(const std::string& id, int packs, const process::Moment& at);
  void count(std::span<const book::OnShelf> shelf, const process::Moment& at);
  std::string lot(const std::string& id);

  Pen pen_;
  Chance chance_;
  std::map<std::string, book::ProductFact> products_;
  std::map<std::string, double> in_tube_;  ///< left of the open one [g]
  std::map<std::string, process::Moment> on_the_way_;
  int turns_ = 0;
};

}  // namespace hw::demo
