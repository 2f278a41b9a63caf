// What is written, read again by an independent library (libical), which is first held against the
// samples of the standard itself.
#include <gmock/gmock.h>
#include <libical/ical.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "huewright/wire/calendar.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

using Component = std::unique_ptr<icalcomponent, void (*)(icalcomponent*)>;

Component parsed(const std::string& text) {
  return {icalparser_parse_string(text.c_str()), icalcomponent_free};
}

std::vector<icalcomponent*> events_of(const Component& whole) {
  std::vector<icalcomponent*> events;
  for (auto* event = icalcomponent_get_first_component(whole.get(), ICAL_VEVENT_COMPONENT);
       event != nullptr;
       event = icalcomponent_get_next_component(whole.get(), ICAL_VEVENT_COMPONENT)) {
    events.push_back(event);
  }
  return events;
}

std::string text_or_empty(const char* text) {
  return text == nullptr ? "" : text;
}

CalendarEntry visit() {
  using namespace std::chrono_literals;
  CalendarEntry entry;
  entry.uid = "01J9-visit@huewright";
  entry.starts = std::chrono::sys_days(std::chrono::year(2025) / 3 / 30) + 8h;
  entry.length = 270min;
  entry.summary = "Ana Bell";
  return entry;
}

const std::chrono::sys_seconds kStamp = std::chrono::sys_days(std::chrono::year(2025) / 1 / 2);

// Expected value: the description of RFC 5545 section 4, example 1.
TEST(WireCalendar, gives_the_text_of_the_standard_back) {
  const auto file = nlohmann::json::parse(test::test_text("calendar/rfc5545_samples.json"));
  const auto& sample = file["cases"][0];
  const auto expected = sample["expected"]["DESCRIPTION_unescaped"].get<std::string>();
  const auto published = parsed(sample["text"].get<std::string>());
  ASSERT_EQ(events_of(published).size(), 1U);
  // The sample ends with a line end that the expected text leaves out.
  EXPECT_THAT(text_or_empty(icalcomponent_get_description(events_of(published)[0])),
              testing::StartsWith(
                  "Networld+Interop Conference and Exhibit\nAtlanta World Congress Center\n"));
  CalendarEntry entry = visit();
  entry.description = expected;
  const auto back = parsed(write_calendar({&entry, 1}, kStamp));
  ASSERT_EQ(events_of(back).size(), 1U);
  EXPECT_EQ(text_or_empty(icalcomponent_get_description(events_of(back)[0])), expected);
}

TEST(WireCalendar, is_read_back_by_another_library) {
  std::vector<CalendarEntry> entries{visit(), visit(), visit()};
  entries[1].uid = "2";
  entries[1].day = std::chrono::year(2025) / 12 / 31;
  entries[1].summary = "Refresh: Zoë, \"twists\"; \\ 50 % <b>\nsecond line";
  entries[2].uid = "3";
  entries[2].summary =
      std::string(40, 'x') + std::string(60, 'y') + "é髪é髪é髪é髪é髪é髪é髪é髪é髪é髪é髪";
  const std::string text = write_calendar(entries, kStamp);
  const auto back = parsed(text);
  ASSERT_NE(back.get(), nullptr);
  EXPECT_EQ(icalcomponent_count_errors(back.get()), 0);
  EXPECT_NE(icalrestriction_check(back.get()), 0);
  const auto events = events_of(back);
  ASSERT_EQ(events.size(), 3U);
  EXPECT_STREQ(icaltime_as_ical_string(icalcomponent_get_dtstart(events[0])), "20250330T080000Z");
  EXPECT_STREQ(icaltime_as_ical_string(icalcomponent_get_dtend(events[0])), "20250330T123000Z");
  EXPECT_STREQ(icalcomponent_get_uid(events[0]), "01J9-visit@huewright");
  EXPECT_STREQ(icaltime_as_ical_string(icalcomponent_get_dtstart(events[1])), "20251231");
  EXPECT_STREQ(icaltime_as_ical_string(icalcomponent_get_dtend(events[1])), "20260101");
  EXPECT_EQ(text_or_empty(icalcomponent_get_summary(events[1])), entries[1].summary);
  EXPECT_EQ(text_or_empty(icalcomponent_get_summary(events[2])), entries[2].summary);
}

// RFC 5545 section 3.1: lines of at most 75 octets, ended by CRLF; a character is never cut.
TEST(WireCalendar, folds_at_75_octets_and_never_inside_a_character) {
  CalendarEntry entry = visit();
  entry.summary.clear();
  for (int i = 0; i < 60; ++i) entry.summary += "髪é";
  const std::string text = write_calendar({&entry, 1}, kStamp);
  std::size_t longest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    ASSERT_NE(end, std::string::npos);
    longest = std::max(longest, end - at);
    EXPECT_NE(static_cast<unsigned char>(text[at]) & 0xC0U, 0x80U);
    if (text[at] == ' ') {
      EXPECT_NE(static_cast<unsigned char>(text[at + 1]) & 0xC0U, 0x80U);
    }
    at = end + 2;
  }
  EXPECT_LE(longest, 75U);
  EXPECT_GE(longest, 72U);
}

}  // namespace
}  // namespace hw::wire
