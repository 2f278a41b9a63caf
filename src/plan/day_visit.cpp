// One visit: its blocks with known minutes, twists, hood, care, and what it costs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "day_parts.h"
#include "figures.h"
#include "huewright/hair/fibre.h"
#include "huewright/plan/amounts.h"
#include "huewright/process/dry.h"

namespace hw::plan {
namespace {

constexpr double kMinutes = 1e-9;  // below this a stage takes no time

Band plus(const Band& a, const Band& b) {
  const auto squares = [](double x, double y) { return std::sqrt(x * x + y * y); };
  const double mid = a.mid + b.mid;
  return {std::max(0.0, mid - squares(a.mid - a.low, b.mid - b.low)), mid,
          mid + squares(a.high - a.mid, b.high - b.mid)};
}

Band times(const Band& band, double factor) {
  return {band.low * factor, band.mid * factor, band.high * factor};
}

/// Minutes of putting on, by how far the pace of hands may lie off.
Band of_hands(double minutes) {
  const Band pace = work_rate("grams_per_min");
  return {minutes * pace.mid / pace.high, minutes, minutes * pace.mid / pace.low};
}

/// Mixing, putting on, chemistry and rinse of a stage. What the chemistry may take longer or less
/// and what hands may are doubts that know nothing of each other.
Band whole_stage(const DayStage& stage) {
  const double clock = stage.rinse_at - stage.starts_at;
  const Band hands = of_hands(stage.hands_on);
  Band run{clock - stage.chemistry_early, clock, clock + stage.chemistry_late};
  run = plus(run, {hands.low - hands.mid, 0, hands.high - hands.mid});
  return plus(plus(run, times(work_rate("mixing"), stage.mixings)), work_rate("rinse"));
}

Band putting_on(const DayStage& stage) {
  const double clock = stage.applied_by - stage.starts_at;
  const Band hands = of_hands(stage.hands_on);
  const Band on{std::max(0.0, clock + hands.low - hands.mid), clock,
                clock + hands.high - hands.mid};
  return plus(on, work_rate("mixing"));
}

Band processing(const DayStage& stage) {
  const double left = std::max(0.0, stage.rinse_at - stage.applied_by);
  return plus({left, left, left}, work_rate("rinse"));
}

process::WetStretch worst_stretch(const Case& head) {
  process::WetStretch worst = process::WetStretch::not_tested;
  const auto weight = [](process::WetStretch stretch) {
    switch (process::meaning_of(stretch)) {
      case process::StretchMeaning::lacks_protein:
        return 2;
      case process::StretchMeaning::lacks_moisture:
        return 1;
      case process::StretchMeaning::balanced:
        break;
    }
    return 0;
  };
  for (const ZoneCase& zone : head.zones) {
    const process::WetStretch here = zone.facts.stretch.worst;
    if (weight(here) > weight(worst)) worst = here;
  }
  return worst;
}

std::optional<process::DyeClass> class_of(const Case& head, const Course& course,
                                          const DayStage& stage) {
  std::optional<process::DyeClass> found;
  for (const std::size_t at : stage.bowls) {
    for (const BowlPart& part : course.bowls[at].parts) {
      const process::Product* product = product_of(head, part.id);
      if (product != nullptr && product->dye_class) found = product->dye_class;
    }
  }
  return found;
}

std::vector<process::CareStep> care_of(const Case& head, const Course& course,
                                       const std::vector<DayStage>& stages) {
  using process::After;
  std::vector<process::CareStep> care;
  const auto add = [&](std::vector<process::CareStep> steps) {
    for (process::CareStep& step : steps) care.push_back(std::move(step));
  };
  const process::WetStretch stretch = worst_stretch(head);
  if (cleansed_first(head, course, stages)) add(process::care_after(After::lightener, stretch));
  for (const DayStage& stage : stages) {
    if (stage.work == Work::lift) add(process::care_after(After::lightener, stretch));
    if (stage.work == Work::fill) {
      add({{"wipe", "Wipe the filler off; do not rinse, the colour goes straight over it.", 1, 0,
            0}});
    }
    if (stage.work != Work::colour) continue;
    add(process::care_after(After::deposit, stretch, class_of(head, course, stage)));
  }
  return care;
}

/// Mean stretched length of the strands, over the head [cm].
double mean_length_cm(const Case& head, double hair_g) {
  constexpr double kGramsPerTexCm = 1e-5;  // tex is grams per kilometre
  const double strands = head.scalp_area_cm2 * head.hairs_per_cm2;
  return hair_g / (strands * hair::tex({.diameter_um = head.strand_um}) * kGramsPerTexCm);
}

double head_hair_g(const Case& head) {
  double hair = 0;
  for (const double grams : zone_mass_g(head)) hair += grams;
  return hair;
}

/// Twists and hood, or drying loose where no twists are wished or hair is too short for them.
Result<void> style(const Case& head, bool lightened, VisitDay& day) {
  constexpr double kShortest = 3;  // cm stretched that can be twisted: process/style.h
  constexpr int kMostHands = 4;    // round one head: process/style.h
  constexpr double kOpened = 1.9;  // once lightened: process/dry.h
  const double hair = head_hair_g(head);
  const double opened = lightened ? kOpened : 1;
  const double length = mean_length_cm(head, hair);
  process::HoodTask hood;
  hood.hair_g = hair;
  hood.water = process::water_held(process::Wetness::towel_dry, opened);
  hood.twisted = false;
  if (head.style.twists && length >= kShortest) {
    process::TwistTask task;
    task.scalp_cm2 = head.scalp_area_cm2;
    task.stretched_cm = length;
    task.hairs_per_cm2 = head.hairs_per_cm2;
    task.hair_g = hair;
    task.hands = std::min(head.salon.hands, kMostHands);
    auto twists = process::twist_plan(task, head.style.parting_cm);
    if (!twists) return tl::unexpected(twists.error());
    hood.water = process::water_held(process::Wetness::damp, opened);
    hood.leave_in_g = twists->leave_in_g.mid;
    hood.foam_g = twists->foam_g.mid;
    hood.twisted = true;
    day.twists = *std::move(twists);
    day.notes.push_back(day.twists->advice);
  } else if (head.style.twists) {
    day.notes.push_back("The hair is too short to twist.");
  }
  const auto minutes = process::hood_minutes(hood);
  if (!minutes) return tl::unexpected(minutes.error());
  day.hood_min = *minutes;
  return {};
}

std::string lift_words(const Course& course, const std::vector<DayStage>& stages) {
  std::string words;
  for (const DayStage& stage : stages) {
    if (stage.work != Work::lift && stage.work != Work::strand_test) continue;
    for (const std::size_t at : stage.bowls) {
      const Purpose purpose = course.bowls[at].purpose;
      const std::string one =
          purpose == Purpose::strand_test ? "strand test" : std::string(name_of(purpose));
      if (words.find(one) == std::string::npos) words += (words.empty() ? "" : ", ") + one;
    }
  }
  return words + ": mix, put on, process, rinse";
}

Result<Day> day_blocks(const Case& head, const Course& course, const std::vector<DayStage>& stages,
                       const VisitDay& day) {
  Band lift, apply, process, wash;
  int washes = cleansed_first(head, course, stages) ? 1 : 0;
  for (const DayStage& stage : stages) {
    if (stage.work == Work::lift || stage.work == Work::strand_test) {
      lift = plus(lift, whole_stage(stage));
      washes += stage.work == Work::lift ? 1 : 0;
    } else {
      apply = plus(apply, putting_on(stage));
      process = plus(process, processing(stage));
    }
  }
  std::vector<std::string> wanted{"consultation", "hood", "finish"};
  std::vector<KnownBlock> known{{"hood", day.hood_min}};
  const auto add = [&](const char* id, const Band& minutes) {
    if (minutes.mid <= kMinutes) return;
    wanted.emplace_back(id);
    known.push_back({id, minutes});
  };
  if (washes > 0) {
    const std::vector<std::string> one{"wash"};
    const auto usual = day_of(one, {}, head.salon.hands);
    if (!usual) return usual;
    for (int i = 0; i < washes; ++i) wash = plus(wash, usual->parts.front().block.minutes);
  }
  add("lift", lift);
  add("wash", wash);
  add("colour_apply", apply);
  add("colour_process", process);
  if (day.twists) add("style", day.twists->minutes);
  auto laid = day_of(wanted, known, head.salon.hands);
  if (!laid) return laid;
  for (DayPart& part : laid->parts) {
    if (part.block.id == "lift") part.block.words = lift_words(course, stages);
    if (part.block.id == "hood" && !day.twists) part.block.words = "drying";
  }
  return laid;
}

std::vector<UsedProduct> products_of(const Case& head, const Course& course,
                                     const std::vector<MixOrder>& orders,
                                     const std::vector<DayStage>& stages) {
  std::vector<UsedProduct> used;
  for (const DayStage& stage : stages) {
    for (const std::size_t at : stage.bowls) {
      const CourseBowl& bowl = course.bowls[at];
      const MixOrder& order = orders[at];
      for (const BowlPart& part : bowl.parts) {
        const process::Product* product = product_of(head, part.id);
        const double grams = bowl.poured.grams_of(part.id);
        if (product == nullptr || grams <= 0) continue;
        // The likely need is mixed first and the rest kept at hand: poured is the high end.
        const auto need = [&](double edge) { return grams * std::min(1.0, edge / order.order_g); };
        used.push_back(
            {part.id, {need(order.grams.low), need(order.grams.mid), grams}, product->price_per_g});
      }
    }
  }
  return used;
}

void add_notes(const Case& head, const Course& course, const std::vector<DayStage>& stages,
               VisitDay& day) {
  bool said_dry = false;
  for (const DayStage& stage : stages) {
    for (const std::string& note : stage.notes) {
      const bool said = std::find(day.notes.begin(), day.notes.end(), note) != day.notes.end();
      if (!note.empty() && !said) day.notes.push_back(note);
    }
    if (stage.work != Work::colour || said_dry) continue;
    said_dry = true;
    const bool washed = cleansed_first(head, course, stages) || stages.front().work == Work::lift;
    std::vector<process::Canvas> canvas;
    for (const ZoneCase& zone : head.zones) canvas.push_back({zone.name, false, washed});
    for (const std::size_t at : stage.bowls) {
      for (const process::Refusal& asked : ready_for_colour(head, course.bowls[at], canvas)) {
        if (std::find(day.notes.begin(), day.notes.end(), asked.text) == day.notes.end()) {
          day.notes.push_back(asked.text);
        }
      }
    }
  }
  if (day.care.empty()) return;
  const auto& wash = process::care_figure("wash_water");
  const auto& last = process::care_figure("last_rinse_water");
  day.notes.push_back(
      fmt::format("Wash with water of {:g} to {:g} °C, rinse last with {:g} to {:g} °C (guess).",
                  wash.low, wash.high, last.low, last.high));
}

}  // namespace

std::vector<process::Refusal> ready_for_colour(const Case& head, const CourseBowl& bowl,
                                               std::span<const process::Canvas> zones) {
  std::vector<process::Canvas> asked;
  for (const BowlZone& zone : bowl.zones) {
    const std::string& name = head.zones[zone.zone].name;
    const auto at = std::find_if(zones.begin(), zones.end(),
                                 [&](const process::Canvas& one) { return one.zone == name; });
    asked.push_back(at == zones.end() ? process::Canvas{name, false, true} : *at);
  }
  process::DyeClass dye_class = process::DyeClass::permanent;
  for (const BowlPart& part : bowl.parts) {
    const process::Product* product = product_of(head, part.id);
    if (product != nullptr && product->dye_class) dye_class = *product->dye_class;
  }
  return process::check_colour_bowl(asked, dye_class, head.settings);
}

Result<LaidVisit> lay_visit(const Case& head, const Course& course,
                            const std::vector<MixOrder>& orders,
                            const std::vector<DayStage>& stages) {
  LaidVisit laid;
  laid.day.care = care_of(head, course, stages);
  add_notes(head, course, stages, laid.day);
  const bool lightened = std::any_of(course.bowls.begin(), course.bowls.end(), is_lightener) ||
                         std::any_of(head.zones.begin(), head.zones.end(),
                                     [](const ZoneCase& zone) { return zone.past.lightened > 0; });
  if (const auto styled = style(head, lightened, laid.day); !styled) {
    return tl::unexpected(styled.error());
  }
  auto day = day_blocks(head, course, stages, laid.day);
  if (!day) return tl::unexpected(day.error());
  laid.day.day = *std::move(day);
  laid.day.minutes = laid.day.day.minutes;
  const auto money =
      visit_money(products_of(head, course, orders, stages), laid.day.minutes, head.salon.prices);
  if (!money) return tl::unexpected(money.error());
  laid.money = *money;
  laid.day.price = money->price;
  return laid;
}

}  // namespace hw::plan
