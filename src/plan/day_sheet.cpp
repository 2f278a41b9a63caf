#include "huewright/plan/day_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "day_parts.h"

namespace hw::plan {
namespace {

Band sum_of(const Band& a, const Band& b) {
  return {a.low + b.low, a.mid + b.mid, a.high + b.high};
}

/// What must not be blended in any bowl, added to what stands against the course.
void check_blends(const Case& head, Course& course) {
  std::vector<std::vector<process::Refusal>> lists{course.refusals};
  for (const CourseBowl& bowl : course.bowls) {
    std::vector<process::Ingredient> parts;
    for (const BowlPart& part : bowl.parts) {
      const process::Product* product = product_of(head, part.id);
      parts.push_back({part.kind, product != nullptr && product->protein,
                       product != nullptr && product->label_allows_mixing});
    }
    lists.push_back(process::check_blend(parts, head.settings));
  }
  course.refusals = process::merged(lists);
}

/// What more hands save, in the notes of each visit.
void say_hands(const Case& head, Course& course) {
  if (head.salon.hands < 2) return;
  Case alone = head;
  alone.salon.hands = 1;
  Course slow = course;
  const auto visits = lay_visits(alone, slow);
  for (std::size_t v = 0; v < course.days.size(); ++v) {
    VisitDay& day = course.days[v];
    if (!visits) {
      day.notes.push_back(fmt::format("It takes {} pairs of hands at once.", head.salon.hands));
      continue;
    }
    day.notes.push_back(fmt::format(
        "{} pairs of hands work side by side: about {:.0f} min less than one pair would take.",
        head.salon.hands, (*visits)[v].day.minutes.mid - day.minutes.mid));
  }
}

}  // namespace

Result<std::vector<LaidVisit>> lay_visits(const Case& head, Course& course) {
  std::vector<MixOrder> orders;
  for (CourseBowl& bowl : course.bowls) {
    auto order = weigh_out(head, bowl);
    if (!order) return tl::unexpected(order.error());
    orders.push_back(*std::move(order));
  }
  std::vector<LaidVisit> visits;
  for (int visit = 1; visit <= course.visits; ++visit) {
    Stock left = stock_of(head);  // what a visit used is ordered again before the next
    std::vector<DayStage> stages = stages_of(course, visit);
    if (const auto run = run_clock(head, course, stages); !run) return tl::unexpected(run.error());
    for (DayStage& stage : stages) {
      for (const std::size_t at : stage.bowls) {
        const auto poured = pour(head, course.bowls[at], orders[at], left, stage.notes);
        if (!poured) return tl::unexpected(poured.error());
      }
    }
    auto laid = lay_visit(head, course, orders, stages);
    if (!laid) return tl::unexpected(laid.error());
    visits.push_back(*std::move(laid));
  }
  return visits;
}

Result<void> lay_out(const Case& head, Course& course) {
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.visit < 1 || bowl.visit > course.visits) {
      return fail(ErrorCode::out_of_range, fmt::format("there is no visit {}", bowl.visit),
                  fmt::format("{}.visit", name_of(bowl.purpose)), "say 1 to the visits planned");
    }
  }
  const auto visits = lay_visits(head, course);
  if (!visits) return tl::unexpected(visits.error());
  course.days.clear();
  course.minutes = {};
  course.cost = {};
  std::vector<VisitMoney> money;
  for (const LaidVisit& visit : *visits) {
    course.days.push_back(visit.day);
    course.minutes = sum_of(course.minutes, visit.day.minutes);
    course.cost = sum_of(course.cost, visit.money.price);
    money.push_back(visit.money);
  }
  course.quote = quote_for(money, head.salon.deposits);
  auto year = year_of(head, course, *visits);
  if (!year) return tl::unexpected(year.error());
  course.year_cost = *year;
  check_blends(head, course);
  say_hands(head, course);
  return {};
}

}  // namespace hw::plan
