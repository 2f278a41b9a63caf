// The formula kernels give the same bits on every instruction set: compiled here again, once for
// each (tests/plan.cmake), and compared with the ones the program picks by itself.
#include <gtest/gtest.h>

#include <cstdio>
#include <cstring>
#include <memory>
#include <string>

#include "formula_model.h"
#include "formula_search.h"
#include "support/formula_shelf.h"

namespace hw::plan {

#define HW_DECLARE_SET(set)                                                                       \
  void formula_layer_##set(std::size_t, const double*, double, double*);                          \
  void formula_colours_##set(const BlockHair&, const BlockBands&, const double*, BlockXyz&);      \
  void formula_slopes_##set(const BlockHair&, const BlockBands&, const double*, BlockXyz&,        \
                            double*);                                                             \
  void formula_differences_##set(std::size_t, const BlockTarget&, const double*, const BlockXyz&, \
                                 double*);                                                        \
  void formula_metric_##set(std::size_t, const BlockTarget&, const double*, const BlockXyz&,      \
                            BlockMetric&);                                                        \
  void formula_bound_##set(std::size_t, const BlockTarget&, const double*, const BlockXyz&,       \
                           const BlockXyz&, double*);                                             \
  void formula_first_##set(std::size_t, const BlockBands&, const double*, const BlockMetric&,     \
                           double*);                                                              \
  void formula_jacobian_##set(std::size_t, const BlockBands&, const double*, const BlockMetric&,  \
                              const double*, double(*)[kBlockLanes]);                             \
  void formula_bend_##set(std::size_t, const BlockBands&, const double*, const BlockMetric&,      \
                          double(*)[kSearchBands]);                                               \
  void formula_gram_##set(std::size_t, std::size_t, const double*, const double(*)[kSearchBands], \
                          double*, double*)

HW_DECLARE_SET(baseline);
#if defined(HW_TEST_X86_SETS)
HW_DECLARE_SET(avx2);
HW_DECLARE_SET(avx512f);
#endif

namespace {

struct Kernels {
  const char* set;
  bool runs_here;
  decltype(&formula_layer) layer;
  decltype(&formula_colours) colours;
  decltype(&formula_slopes) slopes;
  decltype(&formula_differences) differences;
  decltype(&formula_metric) metric;
  decltype(&formula_bound) bound;
  decltype(&formula_first) first;
  decltype(&formula_jacobian) jacobian;
  decltype(&formula_bend) bend;
  decltype(&formula_gram) gram;
};

#define HW_KERNELS_OF(set, here)                                                                   \
  Kernels {                                                                                        \
#set, here, formula_layer_##set, formula_colours_##set, formula_slopes_##set,                  \
        formula_differences_##set, formula_metric_##set, formula_bound_##set, formula_first_##set, \
        formula_jacobian_##set, formula_bend_##set, formula_gram_##set                             \
  }

std::vector<Kernels> all_kernels() {
  std::vector<Kernels> list{{"picked by itself", true, formula_layer, formula_colours,
                             formula_slopes, formula_differences, formula_metric, formula_bound,
                             formula_first, formula_jacobian, formula_bend, formula_gram},
                            HW_KERNELS_OF(baseline, true)};
#if defined(HW_TEST_X86_SETS)
  __builtin_cpu_init();
  list.push_back(HW_KERNELS_OF(avx2, __builtin_cpu_supports("avx2") != 0));
  list.push_back(HW_KERNELS_OF(avx512f, __builtin_cpu_supports("avx512f") != 0));
#endif
  std::vector<Kernels> here;
  for (const Kernels& kernels : list) {
    if (kernels.runs_here) {
      here.push_back(kernels);
    } else {
      std::printf("THIS PROCESSOR LACKS %s: its bits are NOT compared here\n", kernels.set);
    }
  }
  return here;
}

/// Everything the kernels leave behind, as bytes.
class Bytes {
 public:
  void add(const double* values, std::size_t count) {
    text_.append(reinterpret_cast<const char*>(values), count * sizeof(double));
  }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

std::string run(const Kernels& kernels, std::uint64_t seed) {
  const Draws draws(seed);
  const auto zones = test::random_zones(draws, 3, 13);
  const auto shelf = search_shelf(test::random_shelf(draws, 7), {}, coarse_grid());
  const FormulaLanes lanes = lanes_of(zones, all_members(zones), coarse_grid());
  const FormulaBlock& block = lanes.blocks.front();
  const BlockBands bands = lanes.grid->bands();
  const SearchSpectrum bowl = bowl_of(shelf, {2, {1, 2, 0, 0}, {0.3, 0.2, 0, 0}, 0});
  const SearchSpectrum nothing{};
  Bytes bytes;
  std::vector<double> canvas(block.count, 0);
  kernels.layer(block.count, block.uptake.data(), 0.7, canvas.data());
  bytes.add(canvas.data(), canvas.size());
  BlockXyz light{};
  BlockXyz xyz{};
  kernels.colours(block.hair(), bands, nothing.data(), light);
  std::vector<double> slope(bands.count * block.count);
  kernels.colours(block.hair(), bands, bowl.data(), xyz);
  bytes.add(xyz.y, block.count);
  kernels.slopes(block.hair(), bands, bowl.data(), xyz, slope.data());
  bytes.add(xyz.x, block.count);
  bytes.add(slope.data(), slope.size());
  alignas(64) double lane[kBlockLanes];
  kernels.differences(block.count, block.target(), bands.white, xyz, lane);
  bytes.add(lane, block.count);
  kernels.bound(block.count, block.target(), bands.white, light, xyz, lane);
  bytes.add(lane, block.count);
  const auto metric = std::make_unique<BlockMetric>();
  kernels.metric(block.count, block.target(), bands.white, xyz, *metric);
  for (std::size_t axis = 0; axis < 3; ++axis) {
    bytes.add(metric->turn[axis], block.count);
    for (std::size_t row = 0; row < 3; ++row) bytes.add(metric->bend[row][axis], block.count);
  }
  std::array<double, kSearchBands> first{};
  kernels.first(block.count, bands, slope.data(), *metric, first.data());
  bytes.add(first.data(), first.size());
  alignas(64) double rows[3][kBlockLanes];
  kernels.jacobian(block.count, bands, slope.data(), *metric, bowl.data(), rows);
  for (const auto& row : rows) bytes.add(row, block.count);
  alignas(64) double bend[kSearchBands][kSearchBands] = {};
  kernels.bend(block.count, bands, slope.data(), *metric, bend);
  std::vector<double> bent(bands.count * shelf.size());
  std::vector<double> gram(shelf.size() * shelf.size());
  kernels.gram(bands.count, shelf.size(), shelf.by_band.data(), bend, bent.data(), gram.data());
  bytes.add(gram.data(), gram.size());
  return bytes.text();
}

TEST(FormulaBits, are_the_same_on_every_instruction_set) {
  const auto kernels = all_kernels();
  ASSERT_GE(kernels.size(), 2U);
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const std::string first = run(kernels[0], seed);
    for (std::size_t i = 1; i < kernels.size(); ++i) {
      EXPECT_EQ(run(kernels[i], seed), first) << kernels[i].set << ", seed " << seed;
    }
  }
}

std::string words_of(const FormulaSearch& found) {
  Bytes bytes;
  for (const Formula& formula : found.best) {
    for (const FormulaPour& pour : formula.pours) bytes.add(&pour.grams, 1);
    bytes.add(formula.zone_de00.data(), formula.zone_de00.size());
    bytes.add(&formula.objective, 1);
  }
  return bytes.text();
}

TEST(FormulaBits, are_the_same_at_any_number_of_threads) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Draws draws(seed);
    const auto shelf = test::random_shelf(draws, 20);
    const auto zones = test::random_zones(draws, 3, 200);
    InlineExecutor one;
    const auto alone = find_formulas(shelf, zones, {}, one);
    ASSERT_TRUE(alone);
    for (const unsigned threads : {2U, 3U}) {
      const auto pool = make_thread_pool(threads);
      const auto shared = find_formulas(shelf, zones, {}, *pool);
      ASSERT_TRUE(shared);
      EXPECT_EQ(words_of(*shared), words_of(*alone)) << threads;
      EXPECT_EQ(shared->evaluations, alone->evaluations);
      EXPECT_EQ(shared->dropped, alone->dropped);
    }
  }
}

}  // namespace
}  // namespace hw::plan
