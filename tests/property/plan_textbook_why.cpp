#include "property/plan_textbook_why.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace hw::test {
namespace {

using plan::Course;
using plan::CourseBowl;
using plan::Purpose;
using process::PartKind;

bool has(const CourseBowl& bowl, PartKind kind) {
  return std::any_of(bowl.parts.begin(), bowl.parts.end(),
                     [&](const plan::BowlPart& part) { return part.kind == kind; });
}

bool is_oxidative(const CourseBowl& bowl) {
  return has(bowl, PartKind::colour) && bowl.peroxide_percent > 0;
}

/// Strongest bottle of a bowl [% by mass]; 0 without one.
double bottle_of(const plan::Case& head, const CourseBowl& bowl) {
  double most = 0;
  for (const plan::BowlPart& part : bowl.parts) {
    const process::Product* product = product_of(head, part.id);
    if (part.kind == PartKind::developer && product != nullptr && product->peroxide) {
      most = std::max(most, product->peroxide->value());
    }
  }
  return most;
}

bool fills(const Course& course, std::size_t zone) {
  return std::any_of(course.bowls.begin(), course.bowls.end(), [&](const CourseBowl& bowl) {
    return bowl.purpose == Purpose::fill &&
           std::any_of(bowl.zones.begin(), bowl.zones.end(),
                       [&](const plan::BowlZone& one) { return one.zone == zone; });
  });
}

bool speaks_of_filling(const Course& course) {
  return std::any_of(course.notes.begin(), course.notes.end(), [](const std::string& note) {
    return note.find("fill") != std::string::npos;
  });
}

/// Bowls of a course that a rule of the textbook forbids.
bool breaks(const plan::Case& head, const Course& course, const TextBar& bar) {
  return std::any_of(course.bowls.begin(), course.bowls.end(), [&](const CourseBowl& bowl) {
    switch (bar.what) {
      case Barred::everything:
        return true;
      case Barred::oxidative_colour:
        return is_oxidative(bowl);
      case Barred::scalp_lightener:
        return has(bowl, PartKind::lightener) && bowl.on_scalp;
      case Barred::lightener:
        return has(bowl, PartKind::lightener);
      case Barred::peroxide_on_zone:
        return bowl.peroxide_percent > 0 &&
               std::any_of(bowl.zones.begin(), bowl.zones.end(),
                           [&](const auto& one) { return head.zones[one.zone].name == bar.zone; });
    }
    return false;
  });
}

std::vector<std::string> faults_of(const plan::Case& head, const TextbookAnswer& book,
                                   const plan::HeadPlan& plan) {
  std::vector<std::string> faults;
  for (const TextBar& bar : book.bars) {
    for (const Course& course : plan.courses) {
      if (!breaks(head, course, bar)) continue;
      if (bar.never) faults.push_back(course.name + " in spite of: " + bar.why.words);
      if (!bar.never && !course.draft) {
        faults.push_back(course.name + " does not wait for: " + bar.why.words);
      }
    }
  }
  if (plan.courses.empty()) return faults;
  const Course& first = plan.courses.front();
  for (std::size_t zone = 0; zone < book.zones.size(); ++zone) {
    if (book.zones[zone].fill && !fills(first, zone) && !speaks_of_filling(first)) {
      faults.push_back(book.zones[zone].name + ": a filler is due and nothing is said of it");
    }
  }
  return faults;
}

/// The shelf cut to what a way needs; empty where a shelf cannot say it.
std::optional<plan::Case> cut_to(const plan::Case& head, Method way) {
  if (way == Method::gentle_lift || way == Method::several_visits) return {};
  plan::Case cut = head;
  std::erase_if(cut.shelf, [&](const process::Product& one) {
    if (one.kind == PartKind::shampoo) return true;
    if (one.kind == PartKind::lightener) return way != Method::lighten;
    if (one.kind != PartKind::colour) return false;
    const bool permanent = one.dye_class == process::DyeClass::permanent;
    return way == Method::permanent ? !permanent : way != Method::lighten && permanent;
  });
  return cut;
}

std::string set_against(const std::string& which, const Course& own, const Course& first) {
  std::string words = fmt::format("{} ends at {}", which, levels_of(own));
  if (first.expected_de00 > 0) {
    words +=
        fmt::format(", off by {:.1f} against {:.1f} DE00", own.expected_de00, first.expected_de00);
  }
  return words + fmt::format(", wear {:.2f} against {:.2f}, {:.0f} against {:.0f} min",
                             own.wear_high, first.wear_high, own.minutes.mid, first.minutes.mid);
}

const Course* course_of(const plan::Case& head, const plan::HeadPlan& plan, Method way) {
  for (const Course& course : plan.courses) {
    if (method_of(head, course) == way) return &course;
  }
  return nullptr;
}

/// What the textbook's own way would give by the planner's model.
std::string own_way(const plan::Case& head, Method way, const plan::HeadPlan& plan,
                    Executor& executor) {
  const std::string words(words_of(way));
  const Course& first = plan.courses.front();
  if (const Course* shown = course_of(head, plan, way)) {
    return set_against(
        fmt::format("the book's way is course {}: it", shown - plan.courses.data() + 1), *shown,
        first);
  }
  const auto cut = cut_to(head, way);
  if (!cut) {
    return fmt::format(
        "no course of {} is among those kept; the first reaches {} at wear {:.2f} "
        "of {:.2f}",
        words, levels_of(first), first.wear_high, head.limits.wear);
  }
  const auto alone = plan::plan_head(*cut, executor);
  if (!alone) return fmt::format("{} cannot be mixed: {}", words, alone.error().message);
  if (const Course* own = course_of(*cut, *alone, way)) {
    return set_against(words + ", planned alone,", *own, first);
  }
  for (const plan::LeftOut& one : alone->left_out) {
    if (!one.refusals.empty()) return words + ": rule forbids: " + one.refusals.front().id;
  }
  return words + ", planned alone, gives no course";
}

void minutes_why(const TextMinutes& book, const plan::Case& head, const CourseBowl& bowl,
                 std::vector<std::string>& why) {
  if (book.high <= 0) return;
  for (const plan::BowlZone& zone : bowl.zones) {
    const double got = zone.stop_min.mid;
    // Half a minute: what a clock in a salon is read to.
    if (got >= book.low - 0.5 && got <= book.high + 0.5) continue;
    why.push_back(fmt::format("{} on {} {:.0f} min, book {:.0f} to {:.0f}",
                              plan::name_of(bowl.purpose), head.zones[zone.zone].name, got,
                              book.low, book.high));
    return;
  }
}

/// Roots that go on before the lengths on virgin hair.
void order_why(const plan::Case& head, const CourseBowl& bowl, std::vector<std::string>& why) {
  std::optional<double> roots, lengths;
  for (const plan::BowlZone& zone : bowl.zones) {
    auto& which = head.zones[zone.zone].from_cm <= 0 ? roots : lengths;
    which = std::min(which.value_or(zone.times.apply_at), zone.times.apply_at);
  }
  if (!roots || !lengths) return;
  const double later = *roots - *lengths;
  // 20 ± 8 min is what counts as the book's stagger; hot_roots_page with the room of the reading.
  if (later >= 12 && later <= 28) return;
  why.push_back(later >= 0 ? fmt::format("roots {:.0f} min after the lengths, book 20", later)
                           : fmt::format("roots first, lengths {:.0f} min later, book the other "
                                         "way about",
                                         -later));
}

void detail_why(const plan::Case& head, const TextbookAnswer& book, const Course& course,
                std::vector<std::string>& why) {
  bool lift_seen = false;
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.visit > 1) break;
    if (bowl.purpose == Purpose::lift) {
      minutes_why(book.lift_minutes, head, bowl, why);
      if (book.roots_later && !lift_seen) order_why(head, bowl, why);
      lift_seen = true;
    } else if (bowl.purpose != Purpose::fill && bowl.purpose != Purpose::strand_test) {
      minutes_why(book.colour_minutes, head, bowl, why);
    }
    const double bottle = bottle_of(head, bowl);
    const bool counts = bowl.purpose == Purpose::lift || book.method == Method::permanent;
    // Off the scalp 30 volume is in use, 40 avoided: common practice, no source.
    const double most = bowl.on_scalp ? book.developer_high : std::max(book.developer_high, 9.0);
    if (counts && book.developer_high > 0 && bottle > most) {
      why.push_back(fmt::format("developer {:.0f} %, book at most {:.0f} %", bottle, most));
    }
  }
  for (std::size_t zone = 0; zone < head.zones.size(); ++zone) {
    if (fills(course, zone) == book.zones[zone].fill) continue;
    why.push_back(head.zones[zone].name + (book.zones[zone].fill ? ": no filler, and the notes say "
                                                                   "why"
                                                                 : ": filled, by the level that "
                                                                   "the model sees"));
  }
}

void bars_why(const TextbookAnswer& book, const plan::HeadPlan& plan,
              std::vector<std::string>& why) {
  for (const TextBar& bar : book.bars) {
    const auto kind = bar.never ? process::RefusalKind::never : process::RefusalKind::not_until;
    std::string id;
    const auto look = [&](const std::vector<process::Refusal>& list) {
      for (const process::Refusal& one : list) {
        if (one.kind == kind && id.find(one.id) == std::string::npos) {
          id += (id.empty() ? "" : ", ") + one.id;
        }
      }
    };
    look(plan.refusals);
    if (id.empty() && !plan.courses.empty()) look(plan.courses.front().refusals);
    const std::string both = bar.never ? "refused by both" : "both wait";
    why.push_back(id.empty() ? "only the book stops: " + bar.why.words : both + ": rule " + id);
  }
}

}  // namespace

Method method_of(const plan::Case& head, const Course& course) {
  if (course.visits > 1) return Method::several_visits;
  switch (course.kind) {
    case plan::CourseKind::leave_alone:
      return Method::nothing;
    case plan::CourseKind::gloss:
      return Method::gloss;
    case plan::CourseKind::soap_cap:
    case plan::CourseKind::shampoo_lift:
      return Method::gentle_lift;
    case plan::CourseKind::lighten:
    case plan::CourseKind::lighten_twice:
    case plan::CourseKind::remove_then_colour:
      return Method::lighten;
    case plan::CourseKind::staged:
      return Method::several_visits;
    case plan::CourseKind::colour_only:
      break;
  }
  for (const CourseBowl& bowl : course.bowls) {
    for (const plan::BowlPart& part : bowl.parts) {
      const process::Product* product = product_of(head, part.id);
      const bool permanent =
          product != nullptr && product->dye_class == process::DyeClass::permanent;
      if (permanent && bowl.purpose != Purpose::fill) return Method::permanent;
    }
    if (bowl.purpose == Purpose::tone) return Method::gloss;
  }
  return Method::deposit;
}

std::string levels_of(const Course& course) {
  std::string words;
  for (const plan::CourseZone& zone : course.zones) {
    const bool coloured = zone.result.level.mid > 0;
    const plan::ColourBand& end = coloured          ? zone.result
                                  : zone.after_lift ? *zone.after_lift
                                                    : zone.now;
    words += fmt::format("{}{:.1f}", words.empty() ? "" : ", ", end.level.mid);
  }
  return words;
}

Compared compare(const plan::Case& head, const TextbookAnswer& book, const plan::HeadPlan& plan,
                 Executor& executor) {
  Compared found;
  found.faults = faults_of(head, book, plan);
  bars_why(book, plan, found.why);
  if (plan.courses.empty()) {
    found.first_choice = found.agrees = book.method == Method::nothing;
    if (!found.agrees) found.why.push_back("the plan has no course");
    return found;
  }
  const Course& first = plan.courses.front();
  const Method way = method_of(head, first);
  found.first_choice = way == book.method;
  found.agrees = book.allows(way);
  if (!found.first_choice) {
    found.why.push_back(fmt::format("{}: book {}, plan {}",
                                    found.agrees ? "both are taught" : "another way",
                                    words_of(book.method), words_of(way)));
    found.why.push_back(own_way(head, book.method, plan, executor));
  }
  detail_why(head, book, first, found.why);
  if (found.why.empty()) found.why.emplace_back("same");
  return found;
}

}  // namespace hw::test
