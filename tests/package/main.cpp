// Uses the installed library for a real question of the chair and fails when an answer is not right:
// what is in this soap cap, and how far is this dark tress from a black one?
#include <huewright/colour/difference.h>
#include <huewright/hair/ladder.h>
#include <huewright/hair/tress.h>
#include <huewright/process/bowl.h>

#include <cmath>
#include <cstdio>

int main() {
  using hw::Grams;
  using hw::Percent;
  using hw::process::PartKind;
  hw::process::Bowl bowl;
  bowl.parts = {{PartKind::lightener, Grams(30)},
                {PartKind::developer, Grams(60), Percent(6)},
                {PartKind::shampoo, Grams(30)},
                {PartKind::water, Grams(30)}};
  const auto mix = hw::process::mix_bowl(bowl);
  if (!mix) {
    std::printf("%s\n", hw::one_line(mix.error()).c_str());
    return 1;
  }

  hw::hair::Strand brown;
  brown.eumelanin_percent = 1.1;
  brown.pheomelanin_percent = 0.06;
  hw::hair::Strand black = brown;
  black.eumelanin_percent = 3;
  const auto brown_lab = hw::hair::tress_lab(brown);
  const double apart = hw::colour::delta_e_2000(brown_lab, hw::hair::tress_lab(black));
  const double level = hw::hair::default_ladder().level_of(brown_lab.l);

  std::printf("%.0f g at %.2f %%; level %.1f, L* %.1f, %.1f from black\n", mix->grams.value(),
              mix->peroxide.value(), level, brown_lab.l, apart);
  // 60 g of 6 % in 150 g by mass balance; dark brown lies near L* 22 and is not black.
  const bool right = std::abs(mix->peroxide.value() - 2.4) < 1e-12 &&
                     std::abs(brown_lab.l - 22) < 2 && level > 2 && level < 5 && apart > 2;
  return right ? 0 : 1;
}
