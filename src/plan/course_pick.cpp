#include "course_pick.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

/// The bowls' words of one visit: "soap cap 1 : 2 : 1 with 6 % developer, then demi colour".
std::string bowl_words(const Case& head, const CourseBowl& bowl) {
  if (bowl.purpose != Purpose::lift) {
    if (!bowl.deposit) return std::string(name_of(bowl.purpose));
    std::string words = process::class_facts(bowl.deposit->dye_class).word;
    if (bowl.purpose == Purpose::gloss) return words + " gloss";
    if (bowl.purpose == Purpose::fill) return words + " filler";
    if (bowl.purpose == Purpose::tone) return words + " toner";
    words += " colour";
    if (bowl.deposit->dye_class == process::DyeClass::permanent) {
      words += fmt::format(" with {:g} %", bowl.deposit->developer_percent);
    }
    return words;
  }
  std::string ratio;
  std::string developer;
  bool soap = false;
  std::string lightener;
  for (const BowlPart& part : bowl.parts) {
    ratio += fmt::format("{}{:g}", ratio.empty() ? "" : " : ", part.parts);
    soap = soap || part.kind == process::PartKind::shampoo;
    const process::Product* product = product_of(head, part.id);
    if (product == nullptr) continue;
    if (part.kind == process::PartKind::lightener) {
      lightener = product->words.empty() ? product->id : product->words;
    }
    if (part.kind == process::PartKind::developer && product->peroxide) {
      developer = fmt::format(" with {:g} %", product->peroxide->value());
    }
  }
  const std::string what = lightener.empty() ? "developer and shampoo"
                           : soap            ? "soap cap"
                                             : "lightener";
  return fmt::format("{} {}{}{}{}", what, ratio, developer,
                     lightener.empty() ? "" : " (" + lightener + ")",
                     bowl.mixes > 1 ? ", fresh mix at half time" : "");
}

CourseKind kind_of(const Course& course) {
  bool lifts = false;
  bool soap = false;
  bool powder = false;
  bool twice = false;
  bool removes = false;
  bool only_gloss = true;
  for (const CourseBowl& bowl : course.bowls) {
    removes = removes || bowl.purpose == Purpose::remove;
    if (bowl.deposit && bowl.purpose != Purpose::gloss) only_gloss = false;
    if (bowl.purpose != Purpose::lift) continue;
    lifts = true;
    twice = twice || bowl.mixes > 1;
    for (const BowlPart& part : bowl.parts) {
      soap = soap || part.kind == process::PartKind::shampoo;
      powder = powder || part.kind == process::PartKind::lightener;
    }
  }
  if (course.bowls.empty()) return CourseKind::leave_alone;
  if (course.visits > 1) return CourseKind::staged;
  if (removes) return CourseKind::remove_then_colour;
  if (!lifts) return only_gloss ? CourseKind::gloss : CourseKind::colour_only;
  if (!powder) return CourseKind::shampoo_lift;
  if (twice) return CourseKind::lighten_twice;
  return soap ? CourseKind::soap_cap : CourseKind::lighten;
}

/// Courses of one kind still differ by the class of their last colour.
int sort_of(const Course& course) {
  int dye_class = -1;
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.deposit) dye_class = static_cast<int>(bowl.deposit->dye_class);
  }
  return static_cast<int>(course.kind) * 10 + dye_class;
}

double score_of(const Course& course) {
  constexpr double kDraft = 1.5;  // CIEDE2000: something must be met first; guess
  std::size_t lifts = 0;
  for (const CourseBowl& bowl : course.bowls) {
    lifts += bowl.purpose == Purpose::lift && bowl.visit == 1 ? 1 : 0;
  }
  return plan::score_of(course.expected_de00, course.wear_high, course.minutes.mid, lifts,
                        course.slack_min) +
         tender_cost(course.harsh_percent) + (course.draft ? kDraft : 0);
}

constexpr const char* kSame = "much the same";

/// "40 min shorter, gentler, nearer the target".
std::string against(const Course& course, const Course& first) {
  constexpr double kMinutes = 10;  // less is not worth a word
  constexpr double kWear = 0.02;   // share of cystine
  constexpr double kDe = 0.5;      // CIEDE2000
  std::vector<std::string> words;
  const double minutes = course.minutes.mid - first.minutes.mid;
  if (std::abs(minutes) >= kMinutes) {
    words.push_back(
        fmt::format("{:.0f} min {}", std::abs(minutes), minutes < 0 ? "shorter" : "longer"));
  }
  const double wear = course.wear_high - first.wear_high;
  if (std::abs(wear) >= kWear)
    words.emplace_back(wear < 0 ? "gentler on the hair" : "harder on the hair");
  const double de = course.expected_de00 - first.expected_de00;
  if (std::abs(de) >= kDe)
    words.emplace_back(de < 0 ? "nearer the target" : "further from the target");
  constexpr double kSlack = 3;  // min
  const double slack = course.slack_min - first.slack_min;
  if (std::abs(slack) >= kSlack) {
    words.emplace_back(slack > 0 ? "easier to stop in time" : "harder to stop in time");
  }
  const double cost = course.cost.mid - first.cost.mid;
  if (std::abs(cost) >= 1) words.emplace_back(cost < 0 ? "cheaper" : "dearer");
  return words.empty() ? kSame : fmt::format("{}", fmt::join(words, ", "));
}

std::string colour_words(const Course& course) {
  // Words for a difference: same within measurement, slight, clear, another shade (common
  // practice).
  const double de = course.expected_de00;
  const char* match = de < 1.5   ? "hardly told from the target"
                      : de < 3.0 ? "a slight difference from the target"
                      : de < 6.0 ? "a clear difference from the target"
                                 : "another shade than the target";
  return fmt::format("Expect {}; a close match {:.0f} times in 10 in the least likely zone", match,
                     10 * course.within_3);
}

std::string lift_words(const Course& course) {
  double chance = 1;
  double level = 10;
  bool lifts = false;
  for (const CourseZone& zone : course.zones) {
    if (!zone.after_lift) continue;
    lifts = true;
    chance = std::min(chance, zone.reached_half);
    level = std::min(level, zone.after_lift->level.mid);
  }
  if (!lifts) return "Leaves the hair as it is";
  return fmt::format(
      "Ends at level {:.1f} or lighter, within half a level of the aim {:.0f} times in 10", level,
      10 * chance);
}

}  // namespace

double score_of(double expected_de00, double wear_high, double minutes, std::size_t lift_bowls,
                double slack_min) {
  constexpr double kCalm = 10;    // min of slack that nobody has to hurry for
  constexpr double kHurry = 0.1;  // CIEDE2000 that each minute less is worth
  constexpr double kBowl = 0.4;   // CIEDE2000 that each lift bowl beside the first is worth
  // CIEDE2000 that the last of the fibre is worth; the fourth power makes the first third of it
  // cheap and the last third dear.
  constexpr double kAllWear = 8;
  constexpr double kHour = 0.6;  // CIEDE2000 that an hour is worth
  const double used = wear_high / kWearLimit;
  return expected_de00 + kAllWear * used * used * used * used + kHour * minutes / 60 +
         kBowl * (lift_bowls > 1 ? static_cast<double>(lift_bowls - 1) : 0) +
         kHurry * std::max(0.0, kCalm - slack_min);
}

double tender_cost(double harsh_percent) {
  constexpr double kPerPercent = 0.7;  // guess: a step of 3 % is worth about two of CIEDE2000
  return kPerPercent * harsh_percent;
}

double harsh_on(const Case& head, const ZoneCase& zone, const process::Mix& mix) {
  constexpr double kMildest = 3;  // % developer, the mildest of the usual bottles
  const bool tender = head.person.scalp == process::ScalpState::sensitive || zone.facts.thin_edges;
  if (!tender || zone.from_cm > 0 || !mix.developer_peroxide_mean) return 0;
  return std::max(0.0, mix.developer_peroxide_mean->value() - kMildest);
}

bool beats(const Course& a, const Course& b) {
  constexpr double kSameSlack = 2;  // min: a glance at the clock
  if (a.draft && !b.draft) return false;
  const bool no_worse = a.expected_de00 <= b.expected_de00 && a.wear_high <= b.wear_high &&
                        a.minutes.mid <= b.minutes.mid && a.cost.mid <= b.cost.mid &&
                        a.slack_min >= b.slack_min - kSameSlack &&
                        a.harsh_percent <= b.harsh_percent;
  const bool better = a.expected_de00 < b.expected_de00 || a.wear_high < b.wear_high ||
                      a.minutes.mid < b.minutes.mid || a.cost.mid < b.cost.mid ||
                      a.slack_min > b.slack_min + kSameSlack || a.harsh_percent < b.harsh_percent;
  return no_worse && better;
}

std::vector<std::size_t> picked(std::span<const Draft> drafts, std::size_t most) {
  const auto course = [&](std::size_t i) -> const Course& { return drafts[i].course; };
  std::vector<std::size_t> fair;
  double nearest = 1e300;
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    const bool beaten = std::any_of(drafts.begin(), drafts.end(), [&](const Draft& other) {
      return beats(other.course, course(i));
    });
    if (beaten) continue;
    fair.push_back(i);
    nearest = std::min(nearest, course(i).expected_de00);
  }
  std::stable_sort(fair.begin(), fair.end(), [&](std::size_t a, std::size_t b) {
    return score_of(course(a)) < score_of(course(b));
  });
  // So far behind the best that nobody would wear it for the sake of gentler hair. CIEDE2000;
  // guess.
  constexpr double kFarBehind = 4;
  std::vector<std::size_t> shown;
  for (const std::size_t i : fair) {
    if (shown.size() >= most) break;
    // The first that nothing has to be met for is shown however far behind it is.
    const bool first_ready =
        !course(i).draft && std::all_of(shown.begin(), shown.end(),
                                        [&](std::size_t other) { return course(other).draft; });
    if (course(i).expected_de00 > nearest + kFarBehind && !first_ready) continue;
    const bool alike = std::any_of(shown.begin(), shown.end(), [&](std::size_t other) {
      const bool same_class = sort_of(course(i)) % 10 == sort_of(course(other)) % 10;
      return sort_of(course(i)) == sort_of(course(other)) ||
             (same_class && against(course(i), course(other)) == kSame);
    });
    if (alike && !first_ready) continue;
    shown.push_back(i);
  }
  return shown;
}

void name_course(const Case& head, Course& course) {
  course.kind = kind_of(course);
  std::string name;
  int visit = 1;
  bool after_lift = false;
  for (const CourseBowl& bowl : course.bowls) {
    if (bowl.purpose == Purpose::strand_test) continue;  // the rule that asks for it says so
    const std::string words = bowl_words(head, bowl);
    const bool lift = bowl.purpose == Purpose::lift;
    // Bowls that lift different zones go on side by side; a colour comes after them.
    if (bowl.visit != visit) {
      name += fmt::format("; visit {}: {}", bowl.visit, words);
    } else if (name.find(words) == std::string::npos) {
      name += name.empty() ? words : (lift && after_lift ? " and " : ", then ") + words;
    }
    after_lift = lift;
    visit = bowl.visit;
  }
  course.name = name.empty() ? "leave alone and protect" : name;
}

std::string sentence_of(const Case& head, const Course& course, const Course& first) {
  std::string sentence = fmt::format("{}; up to {:.0f} % of what the fibre can give is used then.",
                                     head.target ? colour_words(course) : lift_words(course),
                                     100 * std::min(1.0, course.wear_high / kWearLimit));
  if (&course != &first) sentence += fmt::format(" Against the first: {}.", against(course, first));
  return sentence;
}

}  // namespace hw::plan
