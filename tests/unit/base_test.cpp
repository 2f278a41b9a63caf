#include <atomic>
#include <numeric>

#include "huewright/base/csv.h"
#include "huewright/base/elementary.h"
#include "huewright/base/executor.h"
#include "huewright/base/random.h"
#include "huewright/base/result.h"
#include "huewright/base/statistics.h"
#include "huewright/base/units.h"

namespace hw {
namespace {

TEST(BaseElementary, exp_agrees_with_the_c_library_over_its_range) {
  for (double x = -700; x < 700; x += 0.37) {
    EXPECT_NEAR(exp_portable(x) / std::exp(x), 1.0, 2e-15) << x;
  }
  EXPECT_EQ(exp_portable(0.0), 1.0);
}

TEST(BaseElementary, log_agrees_with_the_c_library) {
  for (double x = 1e-9; x < 1e9; x *= 1.07) {
    EXPECT_NEAR(log_portable(x), std::log(x), 1e-15 * std::max(1.0, std::abs(std::log(x)))) << x;
  }
  EXPECT_NEAR(pow_portable(2.0, 0.5), std::sqrt(2.0), 1e-15);
}

TEST(BaseElementary, normal_quantile_inverts_the_error_function) {
  for (double p = 0.0005; p < 1; p += 0.0005) {
    const double x = normal_quantile(p);
    EXPECT_NEAR(0.5 * std::erfc(-x / std::sqrt(2.0)), p, 1e-8) << p;
  }
}

TEST(BaseDraws, are_a_pure_function_of_seed_stream_and_index) {
  const Draws one(7);
  const Draws same(7);
  const Draws other(8);
  EXPECT_EQ(one.uniform(3, 11), same.uniform(3, 11));
  EXPECT_NE(one.uniform(3, 11), other.uniform(3, 11));
  EXPECT_NE(one.uniform(3, 11), one.uniform(4, 11));
}

TEST(BaseDraws, have_the_moments_of_their_distribution) {
  const Draws draws(1);
  double sum = 0;
  double squares = 0;
  constexpr int kCount = 20000;
  for (int i = 0; i < kCount; ++i) {
    const double x = draws.normal(1, static_cast<std::uint64_t>(i));
    sum += x;
    squares += x * x;
  }
  EXPECT_NEAR(sum / kCount, 0, 0.02);
  EXPECT_NEAR(squares / kCount, 1, 0.03);
}

TEST(BaseExecutor, calls_each_index_once_and_survives_nesting) {
  const auto pool = make_thread_pool(3);
  std::vector<std::atomic<int>> calls(1000);
  pool->run(calls.size(), [&](std::size_t i) {
    ++calls[i];
    if (i == 5) pool->run(2, [&](std::size_t) { ++calls[5]; });
  });
  EXPECT_EQ(calls[5], 3);
  EXPECT_EQ(std::accumulate(calls.begin(), calls.end(), 0), 1002);
  int later = 0;
  make_thread_pool(1)->run(4, [&](std::size_t) { ++later; });
  EXPECT_EQ(later, 4);
}

TEST(BaseTable, reads_quotes_and_comments_and_names_the_place_of_a_bad_number) {
  const auto table = parse_table("# note\nname,x\n\"a, b\",1.5\nc,oops\n", "t.csv");
  ASSERT_TRUE(table);
  EXPECT_EQ(*table->text(0, "name"), "a, b");
  EXPECT_EQ(*table->number(0, "x"), 1.5);
  const auto bad = table->number(1, "x");
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().where, "t.csv:4:x");
  EXPECT_FALSE(parse_table("a,b\n1\n", "t.csv"));
  EXPECT_FALSE(parse_table("# only a comment\n", "t.csv"));
  EXPECT_FALSE(parse_table("a,b\n", "t.csv")->numbers("c")) << "no rows excuse no wrong name";
}

TEST(BaseError, a_sentence_of_a_rule_in_it_does_not_end_it) {
  EXPECT_EQ(one_line({ErrorCode::conflict, "stands: Not today.", "visit", "plan again"}),
            "visit: stands: Not today; plan again");
  EXPECT_EQ(one_line({ErrorCode::conflict, "No.", {}, {}}), "No.");
}

TEST(BaseError, is_one_line_that_steers_no_terminal) {
  EXPECT_EQ(one_line({ErrorCode::malformed, "no", "a\nb\x1b[31m",
                      "c\x7f\xc2\x9b"
                      "2Jé"}),
            "a b?[31m: no; c??2Jé");
  EXPECT_EQ(one_line({ErrorCode::malformed, std::string("a\0\xc2", 3), {}, {}}), "a?\xc2");
}

TEST(BaseStatistics, quantile_follows_the_type_7_rule) {
  const std::vector<double> values = {4, 1, 3, 2};
  EXPECT_DOUBLE_EQ(quantile(values, 0.0), 1);
  EXPECT_DOUBLE_EQ(quantile(values, 0.5), 2.5);
  EXPECT_DOUBLE_EQ(quantile(values, 1.0), 4);
  EXPECT_NEAR(band_of(values).low, 1.3, 1e-12);
}

}  // namespace
}  // namespace hw
