// A bowl while it is poured: what is still to come, what a slip costs, what it would make now.
#include <algorithm>
#include <cmath>

#include "handlers.h"
#include "huewright/plan/course_chart.h"
#include "huewright/process/bowl.h"
#include "planning.h"

namespace hw::server {
namespace {

/// Grams of each part so far, in the order of the bowl. Errors: another product, grams below 0.
Result<std::vector<double>> poured_of(const Json& body, const plan::CourseBowl& bowl) {
  std::vector<double> grams(bowl.parts.size(), 0.0);
  const auto at = body.find("poured");
  if (at == body.end()) return grams;
  if (!at->is_array()) return fail(ErrorCode::malformed, "is no list", "poured", "send a list");
  for (std::size_t i = 0; i < at->size(); ++i) {
    const Json& one = (*at)[i];
    const std::string where = "poured[" + std::to_string(i) + "]";
    if (!one.is_object() || !one.contains("product") || !one["product"].is_string() ||
        !one.contains("grams") || !one["grams"].is_number() || one["grams"].get<double>() < 0 ||
        one["grams"].get<double>() > process::kMaxPartGrams) {
      return fail(ErrorCode::malformed, "is no product with its grams", where,
                  "send {\"product\": id, \"grams\": number}");
    }
    const auto part =
        std::ranges::find(bowl.parts, one["product"].get<std::string>(), &plan::BowlPart::id);
    if (part == bowl.parts.end()) {
      return fail(ErrorCode::unknown_name, "the bowl has no such product", where + ".product",
                  "pour what the plan names, or plan anew");
    }
    grams[static_cast<std::size_t>(part - bowl.parts.begin())] += one["grams"].get<double>();
  }
  return grams;
}

/// What a mix of these grams holds; empty where nothing is in yet.
std::optional<process::Mix> mix_of(const plan::CourseBowl& bowl, const plan::Case& head,
                                   std::span<const double> grams) {
  process::Bowl made;
  for (std::size_t i = 0; i < grams.size(); ++i) {
    if (grams[i] <= 0) continue;
    process::Part part;
    part.kind = bowl.parts[i].kind;
    part.grams = Grams(grams[i]);
    const process::Product* product = plan::product_of(head, bowl.parts[i].id);
    if (product != nullptr) part.peroxide = product->peroxide;
    made.parts.push_back(part);
  }
  const auto mix = process::mix_bowl(made);
  return mix ? std::optional(*mix) : std::nullopt;
}

/// The course with this bowl as it really is: shares of its shades, strength of its oxidant.
void pour_into(plan::CourseBowl& bowl, const process::Mix& mix, std::span<const double> grams) {
  for (auto& zone : bowl.applications) {
    for (process::Application& application : zone) {
      application.peroxide_percent = mix.peroxide.value();
      application.powder_percent = mix.powder.value();
    }
  }
  if (!bowl.deposit) return;
  double colour = 0, developer = 0;
  for (std::size_t i = 0; i < grams.size(); ++i) {
    if (bowl.parts[i].kind == process::PartKind::colour) colour += grams[i];
    if (bowl.parts[i].kind == process::PartKind::developer) developer += grams[i];
  }
  if (colour <= 0) {
    bowl.pours.clear();
    return;
  }
  for (process::Poured& pour : bowl.pours) {
    const auto part = std::ranges::find(bowl.parts, pour.shade.id, &plan::BowlPart::id);
    pour.share = part == bowl.parts.end()
                     ? 0
                     : grams[static_cast<std::size_t>(part - bowl.parts.begin())] / colour;
  }
  bowl.deposit->developer_parts = developer / colour;
}

/// The colour of each zone of the bowl when it comes off, with the bowl as it is.
Json zones_json(const Planned& made, const plan::Course& course, const plan::CourseBowl& bowl,
                Executor& threads) {
  constexpr std::size_t kColumns = 40, kRowsPerZone = 4;
  const plan::Case& head = made.answer.head;
  Json list = Json::array();
  for (const std::string& section : plan::sections_of(head)) {
    const bool here = std::ranges::any_of(bowl.zones, [&](const plan::BowlZone& zone) {
      return head.zones[zone.zone].section == section;
    });
    if (!here) continue;
    const auto chart = plan::strand_chart(
        plan::chart_course(head, made.answer.plan.zones, course, bowl.visit, section), kColumns,
        kRowsPerZone * head.zones.size(), head.ladder, threads);
    for (const plan::BowlZone& zone : bowl.zones) {
      const plan::ZoneCase& of = head.zones[zone.zone];
      if (of.section != section) continue;
      const colour::HairLab lab =
          plan::colour_at(chart, zone.times.stop_at, (of.from_cm + of.to_cm) / 2);
      Json one;
      one["zone"] = of.name;
      one["lab"] = {lab.l, lab.a, lab.b};
      one["paint"] = paint(lab, head.ladder);
      list.push_back(one);
    }
  }
  return list;
}

Json items_json(const plan::CourseBowl& bowl, const plan::Case& head, std::span<const double> grams,
                const plan::Rebalanced& rest) {
  Json items = Json::array();
  bool told = false;
  for (std::size_t i = 0; i < bowl.parts.size(); ++i) {
    const process::Product* product = plan::product_of(head, bowl.parts[i].id);
    const double still = std::abs(rest.still[i].grams);  // −0 is nothing
    Json one;
    one["product"] = bowl.parts[i].id;
    one["words"] = product == nullptr ? bowl.parts[i].id : product->words;
    one["kind"] = name_of(bowl.parts[i].kind);
    one["grams"] = bowl.poured.grams_of(bowl.parts[i].id);
    one["poured"] = grams[i];
    one["to_pour"] = still;
    one["next"] = !told && still > 0;
    one["shelf_g"] = product != nullptr && product->stock
                         ? Json(std::max(0.0, product->stock->value() - grams[i]))
                         : Json();
    told = told || still > 0;
    items.push_back(one);
  }
  return items;
}

}  // namespace

Result<Reply> bowl(Service& service, const Request& request) {
  const auto body = body_of(request, {"case", "client", "visit", "course", "bowl", "poured"});
  if (!body) return tl::unexpected(body.error());
  const auto asked = asked_of(service, *body, request);
  if (!asked) return tl::unexpected(asked.error());
  const auto made = planned(service, *asked);
  if (!made) return tl::unexpected(made.error());
  const auto which = course_of(*body, (*made)->answer.plan);
  if (!which) return tl::unexpected(which.error());
  plan::Course course = (*made)->answer.plan.courses[*which];
  if (course.bowls.empty()) {
    return fail(ErrorCode::unreachable, "the course mixes nothing", "course", "take another");
  }
  const auto number = whole_of(*body, "bowl", 1, 1, static_cast<long>(course.bowls.size()));
  if (!number) return tl::unexpected(number.error());
  plan::CourseBowl& bowl = course.bowls[static_cast<std::size_t>(*number) - 1];
  const plan::Case& head = (*made)->answer.head;
  const auto grams = poured_of(*body, bowl);
  if (!grams) return tl::unexpected(grams.error());
  const auto rest = plan::rebalance(bowl.parts, *grams, bowl.poured.grams, head.salon.scale_step_g);
  if (!rest) return tl::unexpected(rest.error());
  double poured_g = 0;
  for (const double one : *grams) poured_g += one;

  Json said;
  said["purpose"] = name_of(bowl.purpose);
  said["items"] = items_json(bowl, head, *grams, *rest);
  said["planned_g"] = bowl.poured.grams;
  said["total_g"] = rest->grams;
  said["poured_g"] = poured_g;
  said["more_g"] = rest->more_g;
  said["rebalanced"] = rest->more_g > 0;
  const auto mix = mix_of(bowl, head, *grams);
  said["peroxide_percent"] = mix ? Json(mix->peroxide.value()) : Json();
  said["planned_peroxide_percent"] = bowl.peroxide_percent;
  if (mix) pour_into(bowl, *mix, *grams);
  said["zones"] = mix ? zones_json(**made, course, bowl, service.threads()) : Json::array();
  return reply(said);
}

}  // namespace hw::server
