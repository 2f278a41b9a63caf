// Cases of the rules about dates, blends and the canvas, for the tests of the rule table.
#include <chrono>
#include <string>

#include "process_rules_cases.h"

namespace hw::process::test {
namespace {

using S = Situation&;
using std::chrono::hours;
using std::chrono::minutes;

const ColourName kOurs{"cream colour", "soft brown"};
const ColourName kOther{"cream colour", "deep red"};

/// A moment so many days and hours after a Monday at ten in summer.
Moment day(int days, int hour = 0) {
  using std::chrono::sys_days;
  const auto monday = sys_days(std::chrono::year(2025) / std::chrono::June / 2) + hours(8);
  return {monday + std::chrono::days(days) + hours(hour), minutes(120)};
}

/// Soft brown, tested on day 0, read clear on day 2, asked about on day 3.
void tested(S s) {
  s = quiet_colour();
  s.record.skin_tests = {{kOurs, day(0), day(2), SkinTest::clear}};
  s.meant = {{kOurs}};
  s.at = day(3);
}

/// A change of the tested situation that raises a rule, and the nearest that does not.
RuleCase dated(std::string id, std::string name, Change raises, Change quiet) {
  return {std::move(id), std::move(name), [raises](S s) { tested(s), raises(s); },
          [quiet](S s) { tested(s), quiet(s); }};
}

}  // namespace

std::vector<RuleCase> dated_cases() {
  return {
      dated(
          "skin_test_missing", "no test of anything", [](S s) { s.record.skin_tests.clear(); },
          [](S) {}),
      dated(
          "skin_test_of_another_colour", "another shade tested",
          [](S s) { s.record.skin_tests[0].colour = kOther; }, [](S) {}),
      dated(
          "skin_test_of_another_colour", "the same shade of another product",
          [](S s) { s.record.skin_tests[0].colour.product = "oil colour"; }, [](S) {}),
      dated(
          "skin_test_unread", "waiting on the skin",
          [](S s) {
            s.record.skin_tests[0].read.reset();
            s.record.skin_tests[0].result = SkinTest::not_done;
          },
          [](S) {}),
      dated(
          "skin_test_read_early", "a second short of 48 hours against 48",
          [](S s) { s.record.skin_tests[0].read->utc -= std::chrono::seconds(1); }, [](S) {}),
      dated(
          "skin_test_read_late", "an hour more than 7 days against 7 days",
          [](S s) { s.record.skin_tests[0].read = day(7, 1), s.at = day(8); },
          [](S s) { s.record.skin_tests[0].read = day(7), s.at = day(8); }),
      dated(
          "skin_test_lapsed", "85 days after the reading against 84",
          [](S s) { s.at = day(2 + 85); }, [](S s) { s.at = day(2 + 84, 9); }),
      dated(
          "skin_test_lapsed", "85 days after the last use against 84",
          [](S s) {
            s.record.visits = {{day(50), {kOurs}}};
            s.at = day(50 + 85);
          },
          [](S s) {
            s.record.visits = {{day(50), {kOurs}}};
            s.at = day(50 + 84);
          }),
      dated(
          "skin_test_colour_changed", "another shade in between against both shades",
          [](S s) {
            s.record.visits = {{day(2, 5), {kOther}}};
          },
          [](S s) {
            s.record.visits = {{day(2, 5), {kOther, kOurs}}};
          }),
      dated(
          "skin_test_each_use", "used once against not yet",
          [](S s) {
            s.meant[0].test_each_use = true;
            s.record.visits = {{day(2, 5), {kOurs}}};
          },
          [](S s) { s.meant[0].test_each_use = true; }),
      dated(
          "skin_test_positive", "of another colour",
          [](S s) {
            s.record.skin_tests.push_back({kOther, day(0), day(1), SkinTest::positive});
          },
          [](S s) {
            s.record.skin_tests.push_back({kOther, day(0), day(2), SkinTest::clear});
          }),
  };
}

std::vector<RuleCase> care_cases() {
  const auto treatment = [](bool protein, bool label) {
    return Ingredient{PartKind::treatment, protein, label};
  };
  return {
      {"added_without_label", "a treatment with its label silent against its label's yes",
       [=](S s) {
         s.blend = {{PartKind::colour}, {PartKind::developer}, treatment(false, false)};
       },
       [=](S s) {
         s.blend = {{PartKind::colour}, {PartKind::developer}, treatment(false, true)};
       }},
      {"added_without_label", "shampoo in colour against shampoo in a soap cap",
       [](S s) {
         s.blend = {{PartKind::colour}, {PartKind::developer}, {PartKind::shampoo}};
       },
       [](S s) {
         s.blend = {
             {PartKind::lightener}, {PartKind::developer}, {PartKind::shampoo}, {PartKind::water}};
       }},
      {"added_without_label", "conditioner in a soap cap against with direct colour",
       [](S s) {
         s.blend = {{PartKind::lightener}, {PartKind::conditioner}};
       },
       [](S s) {
         s.blend = {{PartKind::colour}, {PartKind::conditioner}};
       }},
      {"protein_treatment_blended", "with a mask against by itself",
       [=](S s) {
         s.blend = {treatment(true, true), {PartKind::conditioner}};
       },
       [=](S s) { s.blend = {treatment(true, true)}; }},
      {"zone_not_read_dry", "one of two zones",
       [](S s) {
         s.canvas = {{"roots", true}, {"ends", false}};
       },
       [](S s) {
         s.canvas = {{"roots", true}, {"ends", true}};
       }},
      {"canvas_not_clean", "demi against permanent",
       [](S s) {
         s.canvas = {{"ends", true, false}}, s.deposit = DyeClass::demi;
       },
       [](S s) {
         s.canvas = {{"ends", true, false}}, s.deposit = DyeClass::permanent;
       }},
      {"canvas_not_clean", "direct on product against cleansed",
       [](S s) {
         s.canvas = {{"ends", true, false}}, s.deposit = DyeClass::direct;
       },
       [](S s) {
         s.canvas = {{"ends", true, true}}, s.deposit = DyeClass::direct;
       }},
      {"old_colour_not_lifted", "0.51 levels lighter against 0.5",
       [](S s) {
         s.reach = {true, 0.51, {}};
       },
       [](S s) {
         s.reach = {true, 0.5, {}};
       }},
      {"old_colour_not_lifted", "old colour against none",
       [](S s) {
         s.reach = {true, 2, {}};
       },
       [](S s) {
         s.reach = {false, 2, {}};
       }},
      {"colour_alone_cannot", "level 10.1 against 10",
       [](S s) {
         s.reach = {false, 3, 10.1};
       },
       [](S s) {
         s.reach = {false, 3, 10.0};
       }},
  };
}

}  // namespace hw::process::test
