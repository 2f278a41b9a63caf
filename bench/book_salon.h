#pragma once
// A made-up salon of any size, the same each time: names of syllables, some of them common; visits
// in the order of time, those of one client far apart. No share in it is measured: all are guesses
// that make searching harder rather than easier.
#include <cstdint>
#include <string>
#include <vector>

#include "huewright/base/random.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/fact.h"
#include "huewright/book/visit_facts.h"
#include "huewright/process/product.h"

namespace hw::bench {

inline constexpr std::size_t kVisitsOfRegular = 60;

class Salon {
 public:
  /// shelf: what is poured; not empty. plan: what the visits of regulars keep.
  Salon(std::size_t clients, std::vector<process::Product> shelf, book::PlanFact plan);

  [[nodiscard]] std::size_t clients() const { return clients_; }
  [[nodiscard]] std::size_t visits() const;  ///< five a client
  /// The first ones; each has 60 visits, with a plan in each visit or, the second half, in none.
  [[nodiscard]] std::size_t regulars() const;
  [[nodiscard]] std::string client_id(std::size_t i) const;
  [[nodiscard]] std::string visit_id(std::size_t i) const;
  [[nodiscard]] book::PersonFact person(std::size_t i) const;

  [[nodiscard]] std::vector<book::Fact> facts_of_shelf() const;
  /// A person and what was asked once.
  [[nodiscard]] std::vector<book::Fact> facts_of_client(std::size_t i) const;
  /// One visit from booking to payment: 13 facts, 14 with a plan.
  [[nodiscard]] std::vector<book::Fact> facts_of_visit(std::size_t i) const;
  /// A fact of work under way, for one visit.
  [[nodiscard]] book::Fact fact_under_way(std::size_t visit, std::uint64_t i) const;

 private:
  [[nodiscard]] std::size_t client_of(std::size_t visit) const;
  [[nodiscard]] std::string id_at(double minute, std::uint64_t stream, std::uint64_t i) const;
  std::size_t clients_;
  std::vector<process::Product> shelf_;
  book::PlanFact plan_;
  Draws draws_;
};

}  // namespace hw::bench
