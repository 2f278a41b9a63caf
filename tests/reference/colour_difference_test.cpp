// Colour differences against published pairs and independent implementations.
#include "colour_rows.h"
#include "huewright/colour/difference.h"

namespace hw::colour::test {
namespace {

using hw::test::Source;
using hw::test::test_table;

HairLab lab_at(const Table& table, std::size_t row, char which) {
  const auto part = [&](char c) { return num(table, row, std::string{c, which}); };
  return {part('l'), part('a'), part('b')};
}

TEST(ColourDifference, ciede2000_matches_the_published_pairs) {
  const Table table = test_table("colour/ciede2000_pairs.csv");
  ASSERT_GE(table.rows(), 22U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string pair = str(table, row, "pair");
    const double got = delta_e_2000(lab_at(table, row, '1'), lab_at(table, row, '2'));
    double want = num(table, row, "de00");
    // Pair 14 has two exactly opposite hues: the last bit of atan2 decides between two values.
    constexpr double kOtherSideOfTheTie = 4.7461;
    if (pair == "14" && std::abs(got - kOtherSideOfTheTie) < 5e-5) want = kOtherSideOfTheTie;
    EXPECT_PUBLISHED("CIEDE2000 pair " + pair, (Source{"sharma2005", "table 1"}), want, got, 5e-5);
  }
}

double difference_of(const Table& table, std::size_t row) {
  const HairLab one = lab_at(table, row, '1');
  const HairLab two = lab_at(table, row, '2');
  const std::string metric = str(table, row, "metric");
  const std::string use = str(table, row, "use");
  if (metric == "cie76") return delta_e_76(one, two);
  if (metric == "cie94") {
    return delta_e_94(one, two, use == "textiles" ? Cie94Use::textiles : Cie94Use::graphic_arts);
  }
  if (metric == "cmc") return delta_e_cmc(one, two, use == "2:1" ? 2 : 1, 1);
  EXPECT_EQ(metric, "ciede2000");
  return delta_e_2000(one, two, Parametric{use == "2:1:1" ? 2.0 : 1.0, 1, 1});
}

TEST(ColourDifference, other_metrics_match_independent_implementations) {
  const Table table = test_table("colour/other_differences.csv");
  ASSERT_EQ(table.rows(), 54U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const std::string source = str(table, row, "source");
    // The Lab inputs of that source are rounded to 4 decimals; the others print 4 decimals or more.
    const double tolerance = source == "unicolour" ? 2e-3 : 1e-4;
    EXPECT_PUBLISHED(str(table, row, "metric") + " " + str(table, row, "use") + ", row " +
                         std::to_string(row + 1),
                     (Source{source, "test values"}), num(table, row, "difference"),
                     difference_of(table, row), tolerance);
  }
}

}  // namespace
}  // namespace hw::colour::test
