#include "plan_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "huewright/hair/words.h"
#include "huewright/process/rules.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kIndent = 4;

std::string colour_words(const colour::HairLab& lab, const hair::Ladder& ladder) {
  const auto words = hair::describe(lab, ladder);
  return fmt::format("{}, {}", words.level_name, words.tone);
}

/// Cells that the longest zone's name takes, with two spaces after it.
std::size_t zone_width(const plan::Case& head) {
  std::size_t width = 8;
  for (const plan::ZoneCase& zone : head.zones) width = std::max(width, zone.name.size());
  return width + 2;
}

std::string band_text(const Band& band) {
  return fmt::format("{:.1f} ({:.1f} to {:.1f})", band.mid, band.low, band.high);
}

/// "6 h 05", rounded to five minutes.
std::string hours_text(double minutes) {
  constexpr double kStep = 5;
  const auto whole = static_cast<int>(std::round(minutes / kStep) * kStep);
  return whole < 60 ? fmt::format("{} min", whole)
                    : fmt::format("{} h {:02}", whole / 60, whole % 60);
}

std::string block(const Look& look, const colour::HairLab& lab) {
  const std::string shown = swatch(look, lab, 4);
  return shown.empty() ? "" : shown + " ";
}

std::string refusals_text(const std::vector<process::Refusal>& refusals) {
  return findings_text({refusals, {}});
}

std::string today_text(const Look& look, const wire::PlanAnswer& answer) {
  std::string out = fmt::format("{:<{}}{:<10} {:<18}{}\n", "Today", zone_width(answer.head) + 2,
                                "cm", "level", look.swatches ? "     colour" : "colour");
  const plan::Case& head = answer.head;
  for (std::size_t z = 0; z < answer.plan.zones.size(); ++z) {
    const plan::ZoneBelief& zone = answer.plan.zones[z];
    colour::HairLab lab{};
    for (const auto& one : zone.pigmented) {  // white strands stand beside it as a share
      const double share = 1.0 / static_cast<double>(zone.pigmented.size());
      lab = {lab.l + share * one.l, lab.a + share * one.a, lab.b + share * one.b};
    }
    out += fmt::format(
        "  {:<{}}{:<10} {:<18}{}{}\n", zone.name, zone_width(head),
        fmt::format("{}-{}", plain(head.zones[z].from_cm, 1), plain(head.zones[z].to_cm, 1)),
        band_text(band_of(zone.level_now)), block(look, lab),
        zone.white_percent > 0
            ? fmt::format("{}, {:.0f} % white", hair::describe(lab, head.ladder).level_name,
                          zone.white_percent)
            : colour_words(lab, head.ladder));
  }
  return out + '\n';
}

std::string wish_text(const plan::Case& head) {
  if (!head.target) {
    return as_it_is(said(spoken(), "Wish: level {0}",
                         {decimal(spoken(), wished_level_of(head, head.zones.front()), 1)}));
  }
  std::string out =
      as_it_is(said(spoken(), "Wish: {0} ({1})",
                    {retold(spoken(), head.target->words),
                     retold(spoken(), colour_words(head.target->centre, head.ladder))}));
  return head.target->note.empty() ? out : out + wrapped(head.target->note, kIndent);
}

std::string product_words(const plan::Case& head, const std::string& id) {
  const process::Product* at = plan::product_of(head, id);
  if (at == nullptr) return retold(spoken(), id);  // water comes from no shelf
  return at->words.empty() ? id : at->words;
}

std::string bowl_text(const plan::CourseBowl& bowl, const plan::Case& head) {
  std::string grams;
  for (const plan::BowlPart& part : bowl.parts) {
    grams += fmt::format("{}{} g {}", grams.empty() ? "" : ", ",
                         decimal(spoken(), bowl.poured.grams_of(part.id), 1),
                         product_words(head, part.id));
  }
  std::string name(name_of(bowl.purpose));
  name[0] = static_cast<char>(name[0] - 'a' + 'A');
  if (bowl.purpose == plan::Purpose::strand_test) name = "Strand test";
  if (bowl.visit > 1) name = fmt::format("Visit {}: {}", bowl.visit, name_of(bowl.purpose));
  const auto colon = said(spoken(), ": ");
  std::string text = retold(spoken(), name) + std::string(colon) + grams;
  if (bowl.mixes > 1) {
    text += ", " + said(spoken(), "in {0} fresh mixes", {std::to_string(bowl.mixes)});
  }
  if (const std::size_t bowls = bowl.poured.bowls.size(); bowls > 1) {
    text += ", " + said(spoken(), "in {0} bowls one after another", {std::to_string(bowls)});
  }
  if (bowl.peroxide_percent > 0) {
    text += std::string(said(spoken(), "; ")) +
            said(spoken(), "{0} % peroxide", {decimal(spoken(), bowl.peroxide_percent, 1)});
  }
  return as_it_is(text + '.', kIndent + 2, "    ");
}

std::string clock_lines(const plan::CourseBowl& bowl, const plan::Case& head) {
  std::string out;
  for (const plan::BowlZone& zone : bowl.zones) {
    const plan::ZoneTimes& times = zone.times;
    std::string checks;
    if (!times.checks_at.empty()) {
      checks = fmt::format(", look from {:.0f} on", times.checks_at.front());
    }
    // As it is printed, in whole minutes.
    const bool doubt = std::lround(zone.stop_min.low) < std::lround(zone.stop_min.high);
    const std::string band = doubt ? fmt::format(" ({:.0f} to {:.0f} min on the hair)",
                                                 zone.stop_min.low, zone.stop_min.high)
                                   : "";
    const bool in_turn = times.in_order && times.wipe_from < times.stop_at - 1;
    const std::string off = in_turn ? fmt::format("off strand by strand from {:.0f} to {:.0f}",
                                                  times.wipe_from, times.stop_at)
                                    : fmt::format("off at {:.0f}", times.stop_at);
    out += fmt::format("      {:<{}}on at {:.0f}, {}{}{}\n", head.zones[zone.zone].name,
                       zone_width(head), times.apply_at, off, band, checks);
  }
  return out;
}

std::string zone_lines(const Look& look, const plan::Course& course, const plan::Case& head) {
  std::string out;
  for (const plan::CourseZone& zone : course.zones) {
    out += fmt::format("      {:<{}}{:<19}{}{}\n", zone.zone, zone_width(head),
                       band_text(zone.result.level), block(look, zone.result.lab),
                       colour_words(zone.result.lab, head.ladder));
    if (zone.after_lift && head.target) {
      out += fmt::format("      {:<{}}{:<19}{}after the lift\n", "", zone_width(head),
                         band_text(zone.after_lift->level), block(look, zone.after_lift->lab));
    }
  }
  return out;
}

/// "Washes take it 3 away by 10, 5 by 30" in words.
std::string fade_text(const plan::Course& course) {
  double at_10 = 0;
  double at_30 = 0;
  for (const plan::FadedZone& faded : course.fade) {
    if (faded.wash == 10) at_10 = std::max(at_10, faded.de00);
    if (faded.wash == 30) at_30 = std::max(at_30, faded.de00);
  }
  if (course.fade.empty()) return "";
  const auto words = [](double de) {
    return de < 1.5 ? "hardly to be seen" : de < 3 ? "slight" : de < 6 ? "clear" : "great";
  };
  return wrapped(fmt::format("Fade after 10 washes: {}; after 30: {}.", words(at_10), words(at_30)),
                 kIndent + 2, "    ");
}

std::string border_text(const plan::Course& course) {
  std::string out;
  for (const plan::BorderRisk& border : course.borders) {
    constexpr double kWorthSaying = 0.3;
    if (border.risk < kWorthSaying) continue;
    out += wrapped(fmt::format("A band could show between {} and {}: {:.0f} times in 10.",
                               border.from, border.to, 10 * border.risk),
                   kIndent + 2, "    ");
  }
  return out;
}

std::string money_text(const plan::Course& course) {
  std::string text = fmt::format("{} in the chair ({} to {})", hours_text(course.minutes.mid),
                                 hours_text(course.minutes.low), hours_text(course.minutes.high));
  if (course.visits > 1) text += fmt::format(" over {} visits", course.visits);
  if (!course.quote.sentence.empty()) {
    text += ". Quote: " + course.quote.sentence;
  } else if (course.cost.high > 0) {
    text += fmt::format(". Price {:.0f} to {:.0f}.", course.cost.low, course.cost.high);
  } else {
    text += '.';
  }
  return wrapped(text, kIndent, "");
}

/// What the clock and the care of each visit ask for; of the first course, the others are alike.
std::string day_text(const plan::Course& course) {
  std::string out;
  for (std::size_t visit = 0; visit < course.days.size(); ++visit) {
    if (course.days[visit].notes.empty()) continue;
    out += course.days.size() > 1 ? fmt::format("    Visit {}\n", visit + 1) : "    On the day\n";
    for (const std::string& note : course.days[visit].notes) out += wrapped(note, 8, "      - ");
  }
  return out;
}

std::string course_text(const Look& look, std::size_t number, const plan::Course& course,
                        const plan::Case& head) {
  std::string out =
      wrapped(course.name + (course.draft ? " (draft)" : ""), kIndent, fmt::format("{}.", number));
  out += wrapped(course.sentence, kIndent, "");
  out += money_text(course);
  for (const plan::CourseBowl& bowl : course.bowls) {
    out += bowl_text(bowl, head) + clock_lines(bowl, head);
  }
  out += "    Finish\n" + zone_lines(look, course, head);
  out += fade_text(course) + border_text(course);
  for (const std::string& note : course.notes) out += wrapped(note, kIndent + 2, "    ");
  if (number == 1) out += day_text(course);
  for (const auto& one : course.refusals)
    out += wrapped("Not until: " + one.text, kIndent + 2, "    ");
  return out + '\n';
}

std::string checked_text(const wire::PlanAnswer& answer) {
  if (!answer.checked) return "";
  std::string out;
  for (const plan::ZoneCheck& check : answer.checked->checks) {
    if (check.rinse_now) {
      out +=
          wrapped(fmt::format("Rinse the {} now, whatever the colour: the strand does not come "
                              "back.",
                              check.zone));
    }
    if (check.only_wet) {
      out +=
          wrapped(fmt::format("The {} were only read wet; wet hair looks darker, so that alone "
                              "moves no stop later.",
                              check.zone));
    }
  }
  if (!answer.checked->believable) {
    out += wrapped("A reading is far from anything this head should show: look again.");
  }
  return out.empty() ? out : out + '\n';
}

std::string look_next_text(const plan::HeadPlan& plan) {
  if (plan.look_next.empty()) return "";
  std::string out = "To know more\n";
  for (const plan::LookNext& look : plan.look_next) out += wrapped(look.sentence, 4, "  - ");
  return out + '\n';
}

/// "2025-06-18 09:30", on the clock of the visit.
std::string wall(const process::Moment& moment) {
  std::string text = process::iso_text(moment).substr(0, 16);
  text[10] = ' ';
  return text;
}

std::string test_text(const process::TestToMake& test) {
  if (test.only_read) {
    return fmt::format("it is on the skin; read it from {} on", wall(test.read_from));
  }
  if (test.too_late) {
    return fmt::format(
        "too late for this visit (it was to be on by {}); put on now it may be read "
        "from {} on, and the visit waits until then",
        wall(test.apply_by), wall(test.read_from));
  }
  return fmt::format(
      "put it on by {}, and read it 48 hours later; put on now it may be read from "
      "{} on",
      wall(test.apply_by), wall(test.read_from));
}

std::string tests_text(const plan::HeadPlan& plan) {
  if (plan.tests_to_make.empty()) return "";
  std::string out = "Skin tests to make before the visit\n";
  for (const process::TestToMake& test : plan.tests_to_make) {
    out += wrapped(test.colour.shade + ": " + test_text(test) + ".", 4, "  - ");
  }
  return out + '\n';
}

/// What may not be done: each reason once, with how many bowls it forbids.
std::string left_out_text(const plan::HeadPlan& plan) {
  std::vector<std::pair<std::string, std::vector<std::string>>> reasons;
  for (const plan::LeftOut& out : plan.left_out) {
    const std::string reason =
        out.refusals.empty() ? "What stands against the head." : out.refusals.front().text;
    auto at = std::find_if(reasons.begin(), reasons.end(),
                           [&](const auto& known) { return known.first == reason; });
    if (at == reasons.end()) at = reasons.insert(reasons.end(), {reason, {}});
    at->second.push_back(out.name);
  }
  std::string text = reasons.empty() ? "" : "Left out\n";
  for (const auto& [reason, names] : reasons) {
    text += wrapped(fmt::format("{} ({})", reason,
                                names.size() == 1 ? "one bowl: " + names.front()
                                                  : fmt::format("{} bowls", names.size())),
                    4, "  - ");
  }
  return reasons.empty() ? text : text + '\n';
}

std::string reach_text(const wire::PlanAnswer& answer) {
  if (answer.reach.empty()) return "";
  std::string today;
  std::string later;
  for (const plan::Reachable& one : answer.reach) {
    std::string& list = one.today ? today : later;
    list += (list.empty() ? "" : ", ") + one.look;
  }
  return wrapped("In reach today: " + (today.empty() ? "none of the list" : today) + '.') +
         (later.empty() ? "" : wrapped("Not today: " + later + '.')) + '\n';
}

/// Those of all courses, then those of some, with the numbers of these.
std::string cautions_text(const plan::HeadPlan& plan) {
  std::string out;
  for (const auto& one : plan.cautions) out += wrapped(one.text, 4, "  - ");
  std::vector<std::pair<std::string, std::string>> of_some;  // text, numbers
  for (std::size_t i = 0; i < plan.courses.size(); ++i) {
    for (const auto& one : plan.courses[i].cautions) {
      auto at = std::ranges::find(of_some, one.text, &decltype(of_some)::value_type::first);
      if (at == of_some.end()) at = of_some.insert(at, {one.text, ""});
      at->second += (at->second.empty() ? "" : ", ") + std::to_string(i + 1);
    }
  }
  for (const auto& [text, numbers] : of_some) out += wrapped(numbers + ": " + text, 4, "  - ");
  return out.empty() ? out : "To be seen to before anything goes on\n" + out + '\n';
}

std::string whys_text(const wire::PlanAnswer& answer) {
  if (!answer.whys) return "";
  std::string out = "What it rests on\n";
  for (const std::string& line : answer.plan.whys) out += wrapped(line, 4, "  - ");
  return out + '\n';
}

}  // namespace

std::string plan_report(const Look& look, const wire::PlanAnswer& answer) {
  const plan::HeadPlan& plan = answer.plan;
  std::string out = answer.head.title.empty() ? "" : as_it_is(answer.head.title) + '\n';
  out += refusals_text(plan.refusals);
  out += checked_text(answer);
  out += wish_text(answer.head);
  out += today_text(look, answer);
  out += answer.checked ? "The rest of the visit\n\n" : "Ways to it, best first\n\n";
  if (plan.courses.empty())
    out += wrapped("None that the rules, the shelf and the limits allow.") + '\n';
  for (std::size_t i = 0; i < plan.courses.size(); ++i) {
    out += course_text(look, i + 1, plan.courses[i], answer.head);
  }
  out += look_next_text(plan) + tests_text(plan) + reach_text(answer) + left_out_text(plan);
  out += cautions_text(plan) + whys_text(answer);
  out += wrapped(
      "Minutes count from the first strand of a visit. Figures in brackets should hold 8 times in "
      "10. What the fibre can give is for its whole life, on the high side.");
  return out + closing_text();
}

}  // namespace hw::apps
