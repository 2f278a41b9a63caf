// The case of the next visit, visit after visit.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "huewright/book/next_case.h"
#include "support/demo_case.h"

namespace hw::book {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kCmPerDay = 256e-4;  // as the case's habits have it

/// A shelf with one demi colour.
std::vector<OnShelf> shelf() {
  OnShelf demi;
  demi.product.product.id = "demi";
  demi.product.product.kind = process::PartKind::colour;
  demi.product.product.dye_class = process::DyeClass::demi;
  demi.product.product.level = 5;
  return {demi};
}

/// A finished visit that coloured some zones.
VisitState coloured(const std::string& starts_at, const wire::CaseFile& file,
                    const std::vector<std::string>& zones) {
  VisitState visit;
  visit.id = starts_at;
  visit.stage = VisitStage::finished;
  visit.booked.starts_at = starts_at;
  PlanFact plan;
  plan.case_json = wire::encode(file);
  visit.plan = plan;
  visit.bowls = {{"1", {{"demi", 40}}, 0, zones}};
  for (const plan::ZoneCase& zone : file.head.zones) {
    OutcomeFact outcome;
    outcome.zone = zone.name;
    outcome.level = zone.from_cm <= 0 ? 4.0 : 5.0;
    visit.outcomes[zone.name] = outcome;
  }
  return visit;
}

wire::CaseFile first_case() {
  wire::CaseFile file;
  file.head = test::plain_head();
  for (process::Product& product : file.head.shelf) product.level = 0;  // as a file leaves it out
  return file;
}

std::vector<std::string> names(const wire::CaseFile& file) {
  std::vector<std::string> all;
  for (const plan::ZoneCase& zone : file.head.zones) all.push_back(zone.name);
  return all;
}

NextCase next(const std::vector<VisitState>& visits, const std::string& at) {
  auto made = next_case({}, visits, shelf(), *process::moment_from_iso(at));
  EXPECT_TRUE(made) << one_line(made.error());
  return made ? *std::move(made) : NextCase{};
}

TEST(BookNextCase, never_has_more_than_two_zones_beyond_the_first_ones) {
  std::vector<VisitState> visits;
  wire::CaseFile file = first_case();
  const double first_length = file.head.zones.back().to_cm;
  int month = 1;
  for (; month <= 8; ++month) {
    visits.insert(visits.begin(),
                  coloured("2025-0" + std::to_string(month) + "-01T10:00Z", file, names(file)));
    file = next(visits, "2025-0" + std::to_string(month + 1) + "-01T10:00Z").file;
    ASSERT_TRUE(wire::ready(file)) << one_line(wire::ready(file).error());
  }
  EXPECT_THAT(names(file), ElementsAre("regrowth", "last regrowth", "roots", "lengths"));
  const auto& zones = file.head.zones;
  for (std::size_t i = 1; i < zones.size(); ++i) {
    EXPECT_NEAR(zones[i].from_cm, zones[i - 1].to_cm, 1e-9) << zones[i].name;
  }
  // 243 days from January to September, 31 of them in August.
  EXPECT_NEAR(zones[0].to_cm, 31 * kCmPerDay, 1e-9);
  EXPECT_NEAR(zones[3].to_cm, first_length + 243 * kCmPerDay, 1e-9);
  EXPECT_EQ(zones[0].past.demi_colours, 0);
  EXPECT_EQ(zones[1].past.demi_colours, 1);
  EXPECT_EQ(zones[2].past.demi_colours, 8);
  EXPECT_EQ(zones[0].readings[0].level, 2);  // natural, as it was first read
}

TEST(BookNextCase, counts_old_regrowth_with_its_neighbour_by_length) {
  std::vector<VisitState> visits;
  wire::CaseFile file = first_case();
  for (const char* at : {"2025-01-01T10:00Z", "2025-02-12T10:00Z", "2025-03-26T10:00Z"}) {
    if (!visits.empty()) file = next(visits, at).file;
    visits.insert(visits.begin(), coloured(at, file, names(file)));
  }
  const NextCase made = next(visits, "2025-05-07T10:00Z");
  // The last regrowth was at level 5, 42 days long; the roots behind it at 5 as well.
  const double grown = 42 * kCmPerDay;
  EXPECT_NEAR(made.file.head.zones[2].to_cm - made.file.head.zones[2].from_cm, 2.5 + grown, 1e-9);
  EXPECT_THAT(made.told, testing::Contains(HasSubstr("roots: 1.1 cm that grew before")));
  // Of another depth it counts by its length, in lightness.
  visits.front().outcomes["last regrowth"].level = 8;
  const auto& zones = next(visits, "2025-05-07T10:00Z").file.head.zones;
  const hair::Ladder ladder = hair::default_ladder();
  const double lstar = (grown * ladder.lstar_of(8) + 2.5 * ladder.lstar_of(5)) / (grown + 2.5);
  EXPECT_NEAR(*zones[2].readings[0].level, ladder.level_of(lstar), 1e-9);
}

TEST(BookNextCase, new_hair_joins_roots_that_were_left_alone) {
  const auto visit = coloured("2025-01-01T10:00Z", first_case(), {"lengths"});
  const auto& zones = next({visit}, "2025-02-12T10:00Z").file.head.zones;
  ASSERT_EQ(zones.size(), 2U);
  EXPECT_EQ(zones[0].from_cm, 0);
  EXPECT_NEAR(zones[0].to_cm, 2.5 + 42 * kCmPerDay, 1e-9);
  EXPECT_NEAR(zones[1].from_cm, zones[0].to_cm, 1e-9);
}

TEST(BookNextCase, what_a_photo_read_lives_on_with_its_doubt) {
  wire::CaseFile file = first_case();
  plan::Reading photo;
  photo.by = plan::Reader::photo;
  photo.lab = colour::HairLab{20, 4, 6};
  photo.covariance = {4, 0, 0, 0, 1, 0, 0, 0, 1};
  file.head.zones[0].readings = {photo};
  auto visit = coloured("2025-01-01T10:00Z", file, {"lengths"});
  visit.outcomes.erase("roots");  // nobody read what nothing was put on
  const NextCase made = next({visit}, "2025-02-12T10:00Z");
  const plan::Reading& roots = made.file.head.zones[0].readings.front();
  EXPECT_EQ(roots.by, plan::Reader::photo);
  EXPECT_EQ(roots.covariance, photo.covariance);
  EXPECT_NEAR(roots.lab->l, 20, 1e-9);
  // And it is a case: a photo gives lab and covariance.
  const auto back = wire::decode<wire::CaseFile>(wire::encode(made.file));
  ASSERT_TRUE(back) << one_line(back.error());
  EXPECT_TRUE(wire::ready(*back));
}

TEST(BookNextCase, remembers_the_natural_level_over_a_visit_too_soon_for_regrowth) {
  wire::CaseFile file = first_case();
  std::vector<VisitState> visits = {coloured("2025-01-01T10:00Z", file, names(file))};
  file = next(visits, "2025-01-11T10:00Z").file;  // 0.26 cm: no zone of its own
  EXPECT_THAT(names(file), ElementsAre("roots", "lengths"));
  visits.insert(visits.begin(), coloured("2025-01-11T10:00Z", file, names(file)));
  file = next(visits, "2025-03-01T10:00Z").file;
  EXPECT_THAT(names(file), ElementsAre("regrowth", "roots", "lengths"));
  EXPECT_EQ(file.head.zones[0].readings[0].level, 2);
  EXPECT_EQ(file.head.zones[0].past.demi_colours, 0);
}

TEST(BookNextCase, asks_for_a_reading_where_nobody_knows_the_natural_level) {
  wire::CaseFile file = first_case();
  file.head.zones.front().past.permanent_colours = 1;
  const NextCase made =
      next({coloured("2025-01-01T10:00Z", file, {"roots", "lengths"})}, "2025-03-01T10:00Z");
  EXPECT_THAT(names(made.file), ElementsAre("roots", "lengths"));
  EXPECT_EQ(made.file.head.zones[0].from_cm, 0);
  EXPECT_THAT(made.told, testing::Contains(HasSubstr("no natural level is known: read it")));
}

TEST(BookNextCase, stays_a_case_whatever_a_recorded_plan_foresaw) {
  auto visit = coloured("2025-01-01T10:00Z", first_case(), {"roots"});
  visit.outcomes["roots"].lab = {98, 120, -120};
  // No washes yet, two colours at none, and a fade past white.
  visit.plan->zones = {{"roots", 5, {}, {}, {10, 0, 0}, {{0, {20, 60, -60}}, {0, {90, 90, -90}}}}};
  const NextCase made = next({visit}, "2025-01-01T12:00Z");
  ASSERT_TRUE(made.file.head.zones.front().readings.front().lab);
  const auto again = wire::decode<wire::CaseFile>(wire::encode(made.file));
  EXPECT_TRUE(again) << one_line(again.error());
  // The later moment has the earlier date.
  const auto early = next({visit}, "2024-12-31T23:00-12:00").file;
  EXPECT_TRUE(wire::decode<wire::CaseFile>(wire::encode(early)));
}

TEST(BookNextCase, a_short_cut_leaves_what_grew_since) {
  auto visit = coloured("2025-01-01T10:00Z", first_case(), {"roots", "lengths"});
  visit.trimmed_cm[""] = 14.5;  // of 15
  const auto file = next({visit}, "2025-02-12T10:00Z").file;
  EXPECT_THAT(names(file), ElementsAre("regrowth", "roots"));
  EXPECT_NEAR(file.head.zones[1].to_cm, 0.5 + 42 * kCmPerDay, 1e-9);
  visit.trimmed_cm[""] = 15;
  EXPECT_THAT(names(next({visit}, "2025-02-12T10:00Z").file), ElementsAre("regrowth"));
}

}  // namespace
}  // namespace hw::book
