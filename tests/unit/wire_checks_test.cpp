// A file of checks as the planner gets it.
#include <gmock/gmock.h>

#include "huewright/wire/checks_file.h"
#include "huewright/wire/json.h"
#include "support/demo_case.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

using plan::CheckReading;
using plan::Stretch;

ChecksFile file_of(const std::string& text) {
  auto file = decode<ChecksFile>(text);
  EXPECT_TRUE(file) << one_line(file.error());
  return *std::move(file);
}

/// What is wrong with a text as the checks of a head with roots and lengths.
std::string fault_of(const std::string& text) {
  const auto file = decode<ChecksFile>(text);
  if (!file) return one_line(file.error());
  const auto readings = readings_of(*file, test::plain_head());
  return readings ? std::string() : one_line(readings.error());
}

TEST(WireChecks, are_read_as_the_interface_writes_them) {
  const ChecksFile file =
      file_of(R"({"readings":[{"minute":20,"zone":"roots","level":4,"tone":"","seen":"wiped",)"
              R"("stretch":"springs","reader":""}]})");
  EXPECT_EQ(file.course, 1u);
  const auto readings = readings_of(file, test::plain_head());
  ASSERT_TRUE(readings) << one_line(readings.error());
  ASSERT_EQ(readings->size(), 1u);
  const CheckReading& reading = readings->front();
  EXPECT_EQ(reading.minute, 20);
  EXPECT_EQ(reading.zone, "roots");
  EXPECT_EQ(reading.level, 4);
  EXPECT_EQ(reading.tone, "");
  EXPECT_EQ(reading.seen, hair::Moisture::wiped);
  EXPECT_EQ(reading.stretch, Stretch::springs);
  EXPECT_FALSE(reading.lab.has_value());
  EXPECT_FALSE(reading.strand_test);
}

TEST(WireChecks, every_state_and_stretch_has_its_word) {
  const std::string before = R"({"readings":[{"minute":1,"zone":"roots","level":3,)";
  using hair::Moisture;
  for (const auto& [word, state] :
       {std::pair{"dry", Moisture::dry}, {"wiped", Moisture::wiped}, {"wet", Moisture::wet}}) {
    EXPECT_EQ(file_of(before + R"("seen":")" + word + "\"}]}").readings[0].seen, state);
  }
  for (const auto& [word, stretch] : {std::pair{"springs", Stretch::springs},
                                      {"slow", Stretch::slow},
                                      {"stays", Stretch::stays},
                                      {"snaps", Stretch::snaps}}) {
    const ChecksFile file = file_of(before + R"("stretch":")" + word + "\"}]}");
    EXPECT_EQ(file.readings[0].stretch, stretch);
    EXPECT_THAT(encode(file), testing::HasSubstr(std::string(R"("stretch":")") + word + "\""));
  }
  for (const std::string& tone : plan::tone_words()) {
    EXPECT_EQ(file_of(before + R"("tone":")" + tone + "\"}]}").readings[0].tone, tone);
  }
  EXPECT_FALSE(file_of(before + R"("stretch":""}]})").readings[0].stretch.has_value());
}

TEST(WireChecks, come_back_as_they_went_out) {
  const ChecksFile file =
      file_of(R"({"course":2,"readings":[{"minute":20,"zone":"ends","lab":[30,12,16],"seen":"wet",)"
              R"("stretch":"stays","reader":"Ada","strand_test":true},{"minute":2,"zone":"roots",)"
              R"("tone":"orange"}]})");
  EXPECT_EQ(encode(file_of(encode(file))), encode(file));
  EXPECT_EQ(file.readings[0].lab->a, 12);
  EXPECT_TRUE(file.readings[0].strand_test);
}

TEST(WireChecks, the_only_zone_of_a_head_needs_no_name) {
  const ChecksFile file = file_of(R"({"readings":[{"minute":20,"zone":"","level":4}]})");
  plan::Case head = test::plain_head();
  EXPECT_FALSE(readings_of(file, head));
  head.zones.resize(1);
  const auto readings = readings_of(file, head);
  ASSERT_TRUE(readings);
  EXPECT_EQ(readings->front().zone, "roots");
}

TEST(WireChecks, every_malformed_file_has_its_line) {
  const Table table = test::test_table("malformed/checks/messages.csv");
  ASSERT_GE(table.rows(), 10u);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string file = *table.text(row, "file");
    EXPECT_EQ(fault_of(test::test_text("malformed/checks/" + file)), *table.text(row, "message"))
        << file;
  }
}

}  // namespace
}  // namespace hw::wire
