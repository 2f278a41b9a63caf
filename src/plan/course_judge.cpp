#include "course_judge.h"

#include <algorithm>

#include "zone_lift.h"

namespace hw::plan {
namespace {

process::ApplicationFacts facts_of(const Case& head, const CourseBowl& bowl) {
  process::ApplicationFacts facts;
  facts.bowl.on_scalp = bowl.on_scalp;
  double whole = 0;
  for (const BowlPart& part : bowl.parts) whole += part.parts;
  for (const BowlPart& part : bowl.parts) {
    process::Part poured{part.kind, Grams(100 * part.parts / whole)};
    const process::Product* product = product_of(head, part.id);
    if (part.kind == process::PartKind::developer && product != nullptr) {
      poured.peroxide = product->peroxide;
    }
    facts.bowl.parts.push_back(poured);
  }
  if (const auto mix = process::mix_bowl(facts.bowl)) facts.mix = *mix;
  facts.minutes = Minutes(bowl.deposit->minutes);
  facts.is_oxidative_colour = bowl.deposit->developer_parts > 0;
  return facts;
}

}  // namespace

std::vector<process::ColourMeant> meant_in(const Case& head, const CourseBowl& bowl) {
  std::vector<process::ColourMeant> meant;
  for (const process::Poured& pour : bowl.pours) {
    const process::Product* product = product_of(head, pour.shade.id);
    if (product == nullptr) continue;
    meant.push_back({{product->name.empty() ? product->id : product->name, product->id},
                     product->test_each_use});
  }
  return meant;
}

std::vector<process::Refusal> judge_colour(const Case& head, const CourseBowl& bowl,
                                           const HeadHair& before, const HeadHair& after) {
  const process::ApplicationFacts facts = facts_of(head, bowl);
  process::Person person = head.person;
  std::vector<std::vector<process::Refusal>> findings;
  if (head.tests && head.visit_at && facts.is_oxidative_colour) {
    // The dated tests say more than one word; that word then has nothing to add.
    const auto meant = meant_in(head, bowl);
    findings.push_back(check_skin_tests(*head.tests, meant, *head.visit_at, head.settings));
    person.skin_test = process::SkinTest::clear;
  }
  for (const BowlZone& zone : bowl.zones) {
    const ZoneCase& about = head.zones[zone.zone];
    process::HairFacts hair = about.facts;
    // Hair that is worn already may still be coloured by what takes nothing more from it.
    const double added = mean(after[zone.zone].wear) - mean(before[zone.zone].wear);
    if (added >= kNoWear) {
      hair.wear_high_90 = quantile(after[zone.zone].wear, 0.9);
      hair.wet_strength_ratio =
          strength_left_low(head, about, before[zone.zone].wear, after[zone.zone].wear);
    }
    findings.push_back(check_application(person, hair, facts, head.settings));
  }
  return process::merged(findings);
}

}  // namespace hw::plan
