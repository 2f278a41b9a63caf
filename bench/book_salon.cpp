#include "book_salon.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "huewright/book/ids.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/process/moment.h"

namespace hw::bench {
namespace {

using namespace book;

constexpr std::uint64_t kSeed = 20250514;
constexpr double kMinutes = 8.0 * 365 * 24 * 60;  // that all visits are spread over: eight years
constexpr std::size_t kGiven = 3000;              // names there are
constexpr std::size_t kFamily = 20000;
constexpr std::string_view kHand = "Ines";

// What is drawn.
enum Stream : std::uint64_t {
  kGivenName,
  kFamilyName,
  kPhone,
  kPost,
  kAsked,
  kComes,
  kPoured,
  kReadOn,
  kPaid,
  kUnderWay,
  kIdOfClient,
  kIdOfVisit,
  kIdOfFact,
};

constexpr std::array<std::string_view, 24> kSyllables{
    "ba", "ri", "no", "lé", "ma", "tu", "xe", "do", "ña", "vi", "so", "ke",
    "la", "ör", "mi", "pa", "en", "du", "fe", "ja", "ur", "zo", "hi", "ge"};

/// The k-th name of its kind: syllables, as many as `least` or one more.
std::string name_of(std::size_t k, std::size_t least, std::uint64_t kind) {
  const Draws draws(kSeed + 1 + kind);
  const std::size_t count = least + draws.below(2, 0, k);
  std::string name;
  for (std::size_t i = 0; i < count; ++i) {
    name += kSyllables[draws.below(kSyllables.size(), 1 + i, k)];
  }
  return name;
}

/// A rank of `count`, the first of them most often: its share falls with the root of the rank, so
/// that the commonest of 3,000 is one in 55, and of 20,000 one in 140.
std::size_t rank(const Draws& draws, std::size_t count, std::uint64_t stream, std::uint64_t i) {
  const double u = draws.uniform(stream, i);
  return std::min(count - 1, static_cast<std::size_t>(u * u * static_cast<double>(count)));
}

std::chrono::sys_seconds moment_at(double minute) {
  using namespace std::chrono;
  return sys_seconds(sys_days(2017y / January / 2)) + seconds(static_cast<long>(minute * 60));
}

std::string text_at(double minute) {
  return process::iso_text(process::Moment{moment_at(minute), std::chrono::minutes(60)});
}

ReadingFact reading(const std::string& zone, const std::string& when, double level) {
  ReadingFact fact;
  fact.zone = zone;
  fact.when = when;
  fact.level = level;
  fact.reader = "eye";
  return fact;
}

double minute_of_visit(std::size_t i, std::size_t visits) {
  return kMinutes * static_cast<double>(i) / static_cast<double>(visits);
}

}  // namespace

Salon::Salon(std::size_t clients, std::vector<process::Product> shelf, PlanFact plan)
    : clients_(clients), shelf_(std::move(shelf)), plan_(std::move(plan)), draws_(kSeed) {}

std::size_t Salon::visits() const {
  constexpr std::size_t kVisitsPerClient = 5;
  return clients_ * kVisitsPerClient;
}

std::size_t Salon::regulars() const {
  constexpr std::size_t kOneIn = 1000;
  constexpr std::size_t kLeast = 20;
  return std::max(kLeast, clients_ / kOneIn);
}

std::string Salon::id_at(double minute, std::uint64_t stream, std::uint64_t i) const {
  std::array<std::uint8_t, 10> random{};
  for (std::size_t k = 0; k < random.size(); ++k) {
    random[k] = static_cast<std::uint8_t>(draws_.below(256, stream, i * random.size() + k));
  }
  const auto since = std::chrono::milliseconds(moment_at(minute).time_since_epoch()).count();
  return id_of(static_cast<std::uint64_t>(since), random);
}

// Everybody came in the first year.
std::string Salon::client_id(std::size_t i) const {
  const double part = static_cast<double>(i) / static_cast<double>(clients_);
  return id_at(part * kMinutes / 8, kIdOfClient, i);
}

std::string Salon::visit_id(std::size_t i) const {
  return id_at(minute_of_visit(i, visits()), kIdOfVisit, i);
}

std::size_t Salon::client_of(std::size_t visit) const {
  const std::size_t stride = visits() / (regulars() * kVisitsOfRegular);
  if (stride > 0 && visit % stride == 0 && visit / stride < regulars() * kVisitsOfRegular) {
    return visit / stride % regulars();
  }
  return regulars() + draws_.below(clients_ - regulars(), kComes, visit);
}

PersonFact Salon::person(std::size_t i) const {
  constexpr std::array<std::string_view, 4> kPosts{"post.example", "mail.example", "home.example",
                                                   "nord.example"};
  auto given = name_of(rank(draws_, kGiven, kGivenName, i), 2, 0);
  auto family = name_of(rank(draws_, kFamily, kFamilyName, i), 3, 1);
  PersonFact person;
  person.email =
      fmt::format("{}.{}{}@{}", given, family, draws_.below(100, kPost, i), kPosts[i % 4]);
  // ASCII letters alone start a word here, so only these are made capital.
  for (std::string* name : {&given, &family}) {
    if ((*name)[0] >= 'a' && (*name)[0] <= 'z') (*name)[0] = static_cast<char>((*name)[0] - 32);
  }
  person.name = given + ' ' + family;
  person.phone = fmt::format("0{} {:07}", 300 + draws_.below(60, kPhone, i),
                             draws_.below(9999999, kPhone, ~i));
  person.language = "en";
  person.birth_band = "adult";
  person.address = fmt::format("Lane {}", draws_.below(400, kAsked, i));
  return person;
}

std::vector<Fact> Salon::facts_of_shelf() const {
  std::vector<Fact> facts;
  for (const process::Product& product : shelf_) {
    const auto id = [&] { return id_at(0, kIdOfFact, facts.size()); };
    const std::string by(kHand);
    ProductFact body{.product = product, .size_g = 60, .price = 9};
    body.product.stock = {};
    facts.push_back(make_fact(id(), product.id, text_at(0), by, body));
    facts.push_back(make_fact(id(), product.id, text_at(0), by, MovementFact{90000, "bought", {}}));
  }
  return facts;
}

std::vector<Fact> Salon::facts_of_client(std::size_t i) const {
  const std::string id = client_id(i);
  const double minute = static_cast<double>(i) / static_cast<double>(clients_) * kMinutes / 8;
  std::vector<Fact> facts;
  const auto add = [&](const auto& body) {
    facts.push_back(make_fact(id_at(minute, kIdOfFact, 1000 + i * 10 + facts.size()), id,
                              text_at(minute), std::string(kHand), body));
  };
  add(person(i));
  add(ConsentFact{"service", "given", "I was told what is done and agree to it."});
  const std::string& product = shelf_[i % shelf_.size()].id;
  add(SkinTestFact{product, product, "", text_at(minute), text_at(minute + 2880), "clear"});
  return facts;
}

std::vector<Fact> Salon::facts_of_visit(std::size_t i) const {
  const std::string id = visit_id(i);
  const std::size_t client = client_of(i);
  const double start = minute_of_visit(i, visits());
  std::vector<Fact> facts;
  const auto add = [&](double minute, const auto& body) {
    // Behind the ids of the shelf and of all clients.
    const std::uint64_t number = 1000 + clients_ * 10 + i * 20 + facts.size();
    facts.push_back(make_fact(id_at(start + minute, kIdOfFact, number), id, text_at(start + minute),
                              std::string(kHand), body));
  };
  const double level = 3 + 4 * draws_.uniform(kReadOn, i);
  const double part = 20 + 60 * draws_.uniform(kPoured, i);
  const double money = 60 + static_cast<double>(draws_.below(120, kPaid, i));
  const auto product = [&](std::uint64_t k) {
    return shelf_[draws_.below(shelf_.size(), kPoured, ~(i * 4 + k))].id;
  };
  add(0, BookedFact{.client = client_id(client),
                    .starts_at = text_at(start),
                    .minutes = 150,
                    .chair = "2",
                    .wish = "lighter by the ends, no brassy border",
                    .from_card = {}});
  add(1, reading("roots", "before", level));
  add(2, reading("ends", "before", level + 1));
  if (client < regulars() / 2) add(3, plan_);
  add(4, PriceFact{money, "lift and gloss"});
  add(10, PourFact{"1", product(0), "L204", part});
  add(10, PourFact{"1", product(1), "D77", 2 * part});
  add(12, ApplyFact{"1", "ends"});
  add(50, RinseFact{"", "level reached"});
  add(90, OutcomeFact{"roots", level + 2, "golden", {}, "eye", {}});
  add(90, OutcomeFact{"ends", level + 3, "beige", {}, "eye", {}});
  add(95, PaymentFact{money, "visit", "card"});
  add(96, AftercareFact{"Cool water, no sun for two days.", {}, {}});
  add(97, FinishedFact{});
  return facts;
}

Fact Salon::fact_under_way(std::size_t visit, std::uint64_t i) const {
  const double minute = kMinutes + static_cast<double>(i);
  const std::string fact = id_at(minute, kUnderWay, i);
  const std::string id = visit_id(visit);
  const std::string by(kHand);
  if (i % 3 == 0) {
    const std::string& product = shelf_[draws_.below(shelf_.size(), kUnderWay, ~i)].id;
    return make_fact(fact, id, text_at(minute), by, PourFact{"1", product, "", 30});
  }
  if (i % 3 == 1) return make_fact(fact, id, text_at(minute), by, ApplyFact{"1", "roots"});
  return make_fact(fact, id, text_at(minute), by, reading("roots", "check", 7));
}

}  // namespace hw::bench
