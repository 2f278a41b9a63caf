#include "salon.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "huewright/base/check.h"
#include "huewright/book/drills.h"
#include "huewright/book/salon.h"
#include "huewright/book/visit_facts.h"
#include "store_room.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kSettings = 1'900'000'000, kIds = 1'700'000'000,
                        kHidden = 1'800'000'000;  // streams

/// Facts on their way into the book, by the moment they happened.
class Diary {
 public:
  void add(std::vector<book::Fact> facts) {
    for (book::Fact& fact : facts) {
      const auto at = process::moment_from_iso(fact.at);
      HW_CHECK(at.has_value());
      pages_.push_back({at->utc, count_++, std::move(fact)});
    }
  }
  /// All that happened before an instant, in order; they leave the diary.
  std::vector<book::Fact> before(std::chrono::sys_seconds end) {
    const auto due =
        std::ranges::stable_partition(pages_, [&](const Page& page) { return page.at < end; });
    std::vector<Page> taken(pages_.begin(), due.begin());
    pages_.erase(pages_.begin(), due.begin());
    std::ranges::sort(taken, {}, [](const Page& page) { return std::pair(page.at, page.place); });
    std::vector<book::Fact> facts;
    for (Page& page : taken) facts.push_back(std::move(page.fact));
    return facts;
  }

 private:
  struct Page {
    std::chrono::sys_seconds at;
    std::size_t place = 0;
    book::Fact fact;
  };
  std::vector<Page> pages_;
  std::size_t count_ = 0;
};

/// Work of a fortnight: a client's consultations and visits in their order.
struct Task {
  process::Moment at;
  std::size_t slot = 0;
  bool consult = false;
};

/// When a visit is decided: a cancelled one three days ahead.
process::Moment decided(const Slot& slot) {
  constexpr double kThreeDays = 3 * 1440;
  return slot.fate.cancelled ? later(starts(slot), -kThreeDays) : starts(slot);
}

class Years {
 public:
  Years(book::Folder& folder, const SalonWish& wish, Executor& executor, Stock stock)
      : folder_(folder), wish_(wish), executor_(executor), room_(wish.seed) {
    salon_.seed = wish.seed;
    salon_.members = wish.members;
    salon_.program = wish.program;
    salon_.people = colourists(wish.seed);
    salon_.slots = schedule(wish.clients, wish.visits, wish.until, wish.seed);
    furnish(stock);
  }

  Result<SalonMade> live() {
    const auto last = std::chrono::sys_days(wish_.until);
    for (auto monday = monday_; monday <= last; monday += kFortnight) {
      const auto end =
          std::min(monday + kFortnight, std::chrono::sys_days(last + std::chrono::days(1)));
      if (auto lived = live_until(Date(monday), end); !lived) {
        return tl::unexpected(lived.error());
      }
    }
    if (auto gone = forget_one(); !gone) return tl::unexpected(gone.error());
    if (auto tried = practise(); !tried) return tl::unexpected(tried.error());
    const auto count = folder_.store().count_facts();
    if (!count) return tl::unexpected(count.error());
    made_.facts = *count;
    return std::move(made_);
  }

 private:
  void furnish(const Stock& stock) {
    constexpr int kWeeksAhead = 4;
    Date first = salon_.slots.front().date;
    for (const Slot& slot : salon_.slots) {
      if (std::chrono::sys_days(slot.date) < std::chrono::sys_days(first)) first = slot.date;
    }
    const auto day = std::chrono::sys_days(first) - std::chrono::weeks(kWeeksAhead);
    monday_ = day - (std::chrono::weekday(day) - std::chrono::Monday);
    constexpr int kMorning = 8 * 60;
    room_.furnish(stock.shelf, town_time(Date(monday_), kMorning));
    set_up(town_time(Date(monday_), kMorning));
    const double rate_sd = std::hypot(plan::factor_prior(plan::FactorKind::client_rate).sd_between,
                                      plan::factor_prior(plan::FactorKind::salon_rate).sd_between);
    clients_.resize(wish_.clients);
    for (std::size_t i = 0; i < clients_.size(); ++i) {
      Client& client = clients_[i];
      Chance chance(wish_.seed, kHidden + i);
      constexpr double kGrowthSd = 0.12, kWashSd = 0.15;  // ln, between people and what they say
      client.number = i;
      client.first = first_head(stock, wish_.seed, i);
      client.hidden = {rate_sd * chance.normal(), chance.factor(kGrowthSd), chance.factor(kWashSd)};
    }
    name_visits();
  }

  /// What the owner says of the salon on its first day. Prices are invented.
  void set_up(const process::Moment& at) {
    book::SalonFact set;
    set.name = "Three Chairs";
    for (const Colourist& one : salon_.people) {
      set.people.push_back(one.name);
      set.chairs.push_back(one.chair);
    }
    set.plan.prices.labour_per_hour = 38;
    set.plan.prices.overhead = 9;
    set.plan.prices.product_allowance = 12;
    set.plan.prices.margin = 0.15;
    set.plan.deposits = {{100, 40}, {350, 90}};
    Pen pen(wish_.seed, kSettings);
    pen.note(std::string(book::kSalonSubject), at, salon_.people.front().name, set);
    diary_.add(std::move(pen.facts));
  }

  /// Ids of clients and visits, made when each first calls or books.
  void name_visits() {
    for (const Slot& slot : salon_.slots) {
      Pen pen(wish_.seed, kIds + slot.ordinal);
      constexpr int kDaysAhead = 14, kNoon = 12 * 60;
      const process::Moment at = town_time(process::days_later(slot.date, -kDaysAhead), kNoon);
      Client& client = clients_[slot.client];
      if (slot.nth == 0) client.id = pen.id(at);
      salon_.visit_ids.push_back(pen.id(at));
    }
    for (const Slot& slot : salon_.slots) {
      if (slot.nth == 0) diary_.add(first_call(salon_, slot, clients_[slot.client]).facts);
    }
  }

  /// The clients who have something to do in these days, with what, in their order.
  std::vector<std::vector<Task>> tasks_between(std::chrono::sys_seconds from,
                                               std::chrono::sys_seconds to) const {
    std::vector<std::vector<Task>> by_client(clients_.size());
    for (const Slot& slot : salon_.slots) {
      const auto add = [&](const process::Moment& at, bool is_consult) {
        if (at.utc < from || at.utc >= to) return;
        by_client[slot.client].push_back({at, slot.ordinal, is_consult});
      };
      if (const auto at = consult_at(slot)) add(*at, true);
      add(decided(slot), false);
    }
    std::erase_if(by_client, [](const auto& tasks) { return tasks.empty(); });
    for (auto& tasks : by_client) std::ranges::stable_sort(tasks, {}, &Task::at);
    return by_client;
  }

  /// A fortnight: long enough for all threads to have work, too short for a client to come twice.
  Result<void> live_until(Date monday, std::chrono::sys_seconds end) {
    const auto shelf = book::shelf_of(folder_.store());
    if (!shelf) return tl::unexpected(shelf.error());
    salon_.shelf = *shelf;
    if (!shelf->empty()) {
      if (auto round = room_.look_round(folder_.store(), *shelf, monday); !round) return round;
    }
    const auto start = std::chrono::sys_seconds(std::chrono::sys_days(monday));
    const auto tasks = tasks_between(start, end);
    std::vector<std::vector<Written>> written(tasks.size());
    executor_.run(tasks.size(), [&](std::size_t i) {
      for (const Task& task : tasks[i]) {
        const Slot& slot = salon_.slots[task.slot];
        Client& client = clients_[slot.client];
        written[i].push_back(task.consult ? consult(salon_, slot, client)
                                          : visit(salon_, slot, client));
      }
    });
    bool taught = false;
    for (std::vector<Written>& of_client : written) {
      for (Written& one : of_client) {
        diary_.add(std::move(one.facts));
        std::ranges::move(one.ends, std::back_inserter(made_.ends));
        if (!one.fault.empty()) made_.faults.push_back(one.fault);
        if (one.lesson) taught = learn_from(*one.lesson) || taught;
      }
    }
    return write_down(end, taught);
  }

  /// Keeps a lesson for later plans: of the latest visits, as many as a plan looks at.
  bool learn_from(const book::LessonFact& lesson) {
    plan::Facts& all = salon_.lessons;
    all.visits.insert(all.visits.end(), lesson.visits.begin(), lesson.visits.end());
    all.amounts.insert(all.amounts.end(), lesson.amounts.begin(), lesson.amounts.end());
    const auto keep_latest = [](auto& list) {
      if (list.size() > kLessons) list.erase(list.begin(), list.end() - kLessons);
    };
    keep_latest(all.visits);
    keep_latest(all.amounts);
    return !lesson.visits.empty() || !lesson.amounts.empty();
  }

  Result<void> write_down(std::chrono::sys_seconds end, bool taught) {
    diary_.add(room_.take());
    std::vector<book::Fact> facts = diary_.before(end);
    room_.open_tubes(facts);
    diary_.add(room_.take());
    diary_.add(std::move(facts));
    facts = diary_.before(end);
    if (taught) {
      const auto learned = plan::learn(salon_.lessons);
      if (!learned) return tl::unexpected(learned.error());
      const process::Moment night = later({end, town_offset(end)}, -30);
      Pen pen(wish_.seed, kIds + 500'000 + static_cast<std::uint64_t>(turns_));
      pen.note(
          std::string(book::kSalonName), night, "the desk",
          book::LearnedFact{static_cast<double>(learned->version), book::factors_json(*learned)});
      facts.push_back(std::move(pen.facts.front()));
    }
    ++turns_;
    const auto kept = folder_.store().append(facts);
    if (!kept) return tl::unexpected(kept.error());
    return {};
  }

  /// On the last evening everybody tries her eye on strands of the drill.
  Result<void> practise() {
    constexpr std::size_t kStrands = 12;
    constexpr int kFirst = 20 * 60 + 10;  // minute of the day, after the desk has closed
    constexpr double kScreen = 0.3;  // levels: what this salon's screens do to everybody; guess
    Pen pen(wish_.seed, kIds + 910'000);
    Chance chance(wish_.seed, kIds + 920'000);
    const double screen = kScreen * chance.normal();
    const double spread = plan::drill_constants().spread_sd;
    int minute = kFirst;
    for (const Colourist& who : salon_.people) {
      for (std::size_t i = 0; i < kStrands; ++i) {
        const auto seed = static_cast<std::uint64_t>(chance.below(std::size_t{1} << 32U));
        const double shown = plan::drill_strand(seed, hair::default_ladder()).level;
        const double read = shown + who.bias + screen + spread * chance.normal();
        const double answer = std::clamp(std::round(read * 2) / 2, 1.0, 10.0);
        pen.note(std::string(book::kDrillSubject), town_time(wish_.until, minute++), who.name,
                 book::drill_fact(who.name, seed, answer, {}, hair::default_ladder()));
      }
    }
    const auto kept = folder_.store().append(pen.facts);
    if (!kept) return tl::unexpected(kept.error());
    return {};
  }

  /// One client who came once asked to be forgotten, and is.
  Result<void> forget_one() {
    std::vector<std::size_t> visits(clients_.size(), 0);
    for (const Slot& slot : salon_.slots) ++visits[slot.client];
    const auto least = std::ranges::min_element(visits) - visits.begin();
    const Client& client = clients_[static_cast<std::size_t>(least)];
    if (clients_.size() < 2) return {};
    constexpr int kEvening = 20 * 60;
    Pen pen(wish_.seed, kIds + 900'000);
    const book::Fact& erased = pen.note(client.id, town_time(wish_.until, kEvening), "the desk",
                                        book::ErasedFact{"asked for it in writing"});
    return folder_.store().erase_client(client.id, erased);
  }

  static constexpr std::ptrdiff_t kLessons = 80;
  static constexpr std::chrono::weeks kFortnight{2};

  book::Folder& folder_;
  const SalonWish& wish_;
  Executor& executor_;
  StoreRoom room_;
  Salon salon_;
  std::vector<Client> clients_;
  Diary diary_;
  SalonMade made_;
  std::chrono::sys_days monday_;
  int turns_ = 0;
};

}  // namespace

Result<SalonMade> make_salon(book::Folder& folder, const SalonWish& wish, Executor& executor) {
  if (wish.clients < 1 || wish.visits < wish.clients || wish.visits > kMostVisits ||
      wish.visits > kMostEach * wish.clients) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} visits of {} clients", wish.visits, wish.clients), "--visits",
                fmt::format("give 1 to {} a client, and {} at most", kMostEach, kMostVisits));
  }
  const auto count = folder.store().count_facts();
  if (!count) return tl::unexpected(count.error());
  if (*count > 0) {
    return fail(ErrorCode::conflict, "the folder holds a book already", folder.path(),
                "name a folder that is not there yet");
  }
  auto stock = read_cases(wish.cases);
  if (!stock) return tl::unexpected(stock.error());
  return Years(folder, wish, executor, *std::move(stock)).live();
}

}  // namespace hw::demo
