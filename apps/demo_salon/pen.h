#pragma once
// Facts as they are written down, with ids that the same seed makes again, and chance for all that
// people do.
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/book/fact.h"
#include "huewright/process/moment.h"

namespace hw::demo {

/// Draws one after another, of one stream.
class Chance {
 public:
  Chance(std::uint64_t seed, std::uint64_t stream) : draws_(seed), stream_(stream) {}
  double uniform() { return draws_.uniform(stream_, next_++); }
  double uniform(double low, double high) { return low + (high - low) * uniform(); }
  double normal() { return draws_.normal(stream_, next_++); }
  /// A factor round 1, lognormal. sd_ln: its spread.
  double factor(double sd_ln);
  bool one_in(double times) { return uniform() * times < 1; }
  std::size_t below(std::size_t count) { return draws_.below(count, stream_, next_++); }
  template <class List>
  const auto& pick(const List& list) {
    return list[below(std::size(list))];
  }

 private:
  Draws draws_;
  std::uint64_t stream_;
  std::uint64_t next_ = 0;
};

/// Makes ids as book::new_id does, of a stated moment and of seeded randomness.
class Pen {
 public:
  Pen(std::uint64_t seed, std::uint64_t stream) : chance_(seed, stream) {}
  std::string id(const process::Moment& at);
  /// A fact, kept in `facts`.
  template <class Body>
  book::Fact& note(const std::string& subject, const process::Moment& at, const std::string& by,
                   const Body& body) {
    facts.push_back(book::make_fact(id(at), subject, process::iso_text(at), by, body));
    return facts.back();
  }
  std::vector<book::Fact> facts;

 private:
  Chance chance_;
};

}  // namespace hw::demo
