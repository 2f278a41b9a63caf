#include <chrono>
#include <cmath>

#include "huewright/base/statistics.h"
#include "huewright/colour/difference.h"
#include "huewright/process/deposit.h"
#include "huewright/process/swatch.h"
#include "support/reference.h"

namespace hw::process {
namespace {

std::vector<Dye> label_of(std::initializer_list<const char*> names) {
  std::vector<Dye> label;
  for (const char* name : names) label.push_back(*dye_named(name));
  return label;
}

colour::HairLab on(const FitStrand& base, const colour::Spectrum& dye, double amount) {
  colour::Spectrum mu = base.absorption;
  for (std::size_t i = 0; i < colour::kBands; ++i) mu[i] += amount * dye[i];
  return colour::lab_of(hair::tress_reflectance(mu, base.strand, base.surface_term));
}

/// Some mix of three direct dyes on white hair, and what it reads.
struct Known {
  std::vector<Dye> label =
      label_of({"HC Red No. 3", "HC Yellow No. 2", "HC Blue No. 2", "Disperse Violet 1"});
  colour::Spectrum full{};
  SwatchReading swatch;
  explicit Known(std::array<double, 4> amounts) {
    for (std::size_t k = 0; k < label.size(); ++k) {
      const auto shape = *dye_shape(label[k]);
      for (std::size_t i = 0; i < colour::kBands; ++i) full[i] += amounts[k] * shape[i];
    }
    swatch.base = white_base();
    swatch.lab = on(swatch.base, full, 1);
  }
};

/// Absorption of a member's own draw of a shade.
colour::Spectrum draw_of(const Shade& shade, std::size_t draw) {
  colour::Spectrum full{};
  for (std::size_t j = 0; j < shade.colourants.size(); ++j) {
    for (std::size_t i = 0; i < colour::kBands; ++i) {
      full[i] += shade.equal_fits[draw][j] * shade.colourants[j].full[i];
    }
  }
  return full;
}

TEST(Swatch, a_shade_read_on_white_hair_gives_its_reading_back) {
  const Known known({30, 20, 12, 0});
  const auto shade = shade_from_swatch("x", DyeClass::direct, known.label, known.swatch, Draws(1));
  ASSERT_TRUE(shade) << one_line(shade.error());
  EXPECT_LE(shade->colourants.size(), kMostColourants);
  EXPECT_LT(colour::delta_e_76(on(known.swatch.base, shade->full, 1), known.swatch.lab), 0.05);
  EXPECT_EQ(shade->family, DyeFamily::red);
  EXPECT_EQ(shade->equal_fits.size(), 64u);
  double sum = 0;
  for (std::size_t draw = 0; draw < 64; ++draw) {
    sum += colour::delta_e_76(on(known.swatch.base, draw_of(*shade, draw), 1), known.swatch.lab);
  }
  // Draws scatter as readings of one tress do, a little more where two mixes are not quite alike.
  EXPECT_GT(sum / 64, 0.5);
  EXPECT_LT(sum / 64, 3);
}

TEST(Swatch, equally_good_mixes_are_kept_and_hold_the_truth_on_another_base) {
  const Known known({25, 15, 6, 10});  // four dyes: no three are the truth
  const auto shade = shade_from_swatch("x", DyeClass::direct, known.label, known.swatch, Draws(2));
  ASSERT_TRUE(shade);
  LiftMembers warm;
  warm.resize(1);
  warm.warm_percent[0] = 0.3;
  warm.base_share[0] = 0.9;
  const FitStrand orange = base_of(warm, 0);
  const colour::HairLab truth = on(orange, known.full, 1);
  std::vector<double> l, a, b;
  for (std::size_t draw = 0; draw < 64; ++draw) {
    const auto lab = on(orange, draw_of(*shade, draw), 1);
    l.push_back(lab.l), a.push_back(lab.a), b.push_back(lab.b);
  }
  const auto holds = [](std::vector<double>& values, double value) {
    return quantile(values, 0.01) - 0.2 <= value && value <= quantile(values, 0.99) + 0.2;
  };
  EXPECT_TRUE(holds(l, truth.l)) << truth.l;
  EXPECT_TRUE(holds(a, truth.a)) << truth.a;
  EXPECT_TRUE(holds(b, truth.b)) << truth.b;
  EXPECT_GT(quantile(l, 0.9) - quantile(l, 0.1), 0.5);
}

TEST(Swatch, an_opened_base_that_took_double_is_a_shade_of_half) {
  const Known known({30, 20, 12, 0});
  SwatchReading opened = known.swatch;
  opened.taken = 2;
  const auto one = shade_from_swatch("x", DyeClass::direct, known.label, known.swatch, Draws(1));
  const auto half = shade_from_swatch("x", DyeClass::direct, known.label, opened, Draws(1));
  ASSERT_TRUE(one && half);
  for (std::size_t i = 0; i < colour::kBands; ++i) {
    EXPECT_NEAR(half->full[i], one->full[i] / 2, 1e-9);
  }
}

TEST(Swatch, narrows_what_words_leave_wide) {
  const auto words = shade_from_words("x", DyeClass::permanent, 6, "copper");
  ASSERT_TRUE(words);
  SwatchReading swatch;
  swatch.base = white_base();
  swatch.lab = on(swatch.base, words->full, 1);
  const auto read = shade_from_swatch("x", DyeClass::permanent, {}, swatch, Draws(1));
  ASSERT_TRUE(read);
  const auto width = [&](const Shade& shade) {
    const auto strengths = colourant_strengths(shade, Draws(4), 2048);
    std::vector<double> l;
    for (std::size_t m = 0; m < 2048; ++m) {
      colour::Spectrum full{};
      for (std::size_t j = 0; j < strengths.size(); ++j) {
        for (std::size_t i = 0; i < colour::kBands; ++i) {
          full[i] += strengths[j][m] * shade.colourants[j].full[i];
        }
      }
      l.push_back(on(swatch.base, full, 1).l);
    }
    return quantile(l, 0.9) - quantile(l, 0.1);
  };
  EXPECT_LT(width(*read), 0.6 * width(*words));
}

TEST(Swatch, what_the_label_cannot_make_is_said) {
  SwatchReading blue;
  blue.base = white_base();
  blue.lab = {40, 0, -25};
  const auto label = label_of({"HC Yellow No. 2", "HC Red No. 3"});
  const auto wrong = shade_from_swatch("x", DyeClass::direct, label, blue, Draws(1));
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().code, ErrorCode::unreachable);
  blue.taken = 0;
  EXPECT_EQ(shade_from_swatch("x", DyeClass::direct, label, blue, Draws(1)).error().code,
            ErrorCode::out_of_range);
  // A swatch that shows nothing but its base is that of a clear shade.
  SwatchReading bare;
  bare.base = white_base();
  bare.lab = on(bare.base, {}, 0);
  bare.lab.l += 1;
  const auto clear = shade_from_swatch("x", DyeClass::direct, label, bare, Draws(1));
  ASSERT_TRUE(clear);
  EXPECT_LT(*std::max_element(clear->full.begin(), clear->full.end()), 0.5);
}

TEST(Swatch, a_label_is_read_for_its_dyes_and_the_pairs_they_form) {
  const std::vector<std::string> printed = {"AQUA",
                                            "Toluene-2,5-Diamine Sulfate",
                                            "RESORCINOL",
                                            "p-Phenylenediamine",
                                            "HC Red No. 3",
                                            "HC RED NO. 30",
                                            "4-Amino-2-hydroxytoluene"};
  std::vector<std::string> names;
  for (const Dye& dye : dyes_on_label(printed)) names.push_back(dye.name);
  EXPECT_EQ(names, (std::vector<std::string>{"HC Red No. 3", "p-Phenylenediamine + Resorcinol",
                                             "Toluene-2,5-diamine + 4-Amino-2-hydroxytoluene"}));
  EXPECT_TRUE(dyes_on_label({}).empty());
}

TEST(Swatch, a_long_label_is_read_within_a_second) {
  SwatchReading swatch = Known({30, 20, 12, 0}).swatch;
  std::vector<Dye> label;
  for (const Dye& dye : dyes()) {
    if (!dye.peaks_nm.empty() && label.size() < 12) label.push_back(dye);
  }
  const auto before = std::chrono::steady_clock::now();
  ASSERT_TRUE(shade_from_swatch("x", DyeClass::direct, label, swatch, Draws(1)));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - before;
  RecordProperty("seconds", std::to_string(took.count()));
  EXPECT_LT(took.count(), 5);  // sanitizers are slow
}

}  // namespace
}  // namespace hw::process
