#pragma once
// The facts the rules ask for, as far as they are known. A flag is false until somebody says so; an
// empty optional means nobody has asked or measured yet.
#include <optional>

#include "huewright/base/units.h"
#include "huewright/process/bowl.h"

namespace hw::process {

enum class Consent { not_asked, given, refused };
enum class ScalpState { sound, sensitive, inflamed_or_broken };

/// Result of the skin test for the very colour that is to be used, read at its due hour.
enum class SkinTest { not_done, clear, positive };

/// The client, as the rules see her.
struct Person {
  std::optional<double> age_years = {};
  bool past_reaction_to_dye = false;
  bool black_tattoo_reaction = false;  ///< to a temporary black tattoo
  bool lightener_reaction = false;     ///< earlier wheeze, hives or burn
  bool chemo_or_radiotherapy = false;
  bool skin_sensitising_medicine = false;
  bool pregnant_or_breastfeeding = false;
  ScalpState scalp = ScalpState::sound;
  SkinTest skin_test = SkinTest::not_done;
  Consent consent = Consent::not_asked;
};

/// Strand in peroxide and ammonia, for metal salts.
enum class IncompatibilityTest { not_done, clear, positive };

/// Strand in the real mixture.
enum class StrandTest { none, passed, failed };

/// What a wet strand does when it is stretched slowly and let go.
enum class WetStretch { not_tested, springs_back, stays_stretched, snaps, gummy };

/// The worst a set of strands did, and how many were tried where.
struct StretchTest {
  WetStretch worst = WetStretch::not_tested;
  int strands = 0;
  int places = 0;
};

/// The worst strand snapped, stayed stretched or felt gummy.
[[nodiscard]] inline bool gives_way(const StretchTest& test) {
  return test.worst == WetStretch::stays_stretched || test.worst == WetStretch::snaps ||
         test.worst == WetStretch::gummy;
}

/// What earlier services did to the shape of the hair in this zone.
struct TextureServices {
  bool relaxed_hydroxide = false;
  bool relaxed_other = false;
  bool permed = false;
  bool texturised = false;
  bool smoothed = false;
  std::optional<double> days_since_relaxer_or_smoothing = {};  ///< days, ≥ 0
};

/// One zone of the head.
struct HairFacts {
  bool metal_or_compound_henna_suspected = false;
  bool mineral_build_up = false;  ///< of hard or pool water, not taken out yet
  IncompatibilityTest incompatibility_test = IncompatibilityTest::not_done;
  TextureServices texture = {};
  StrandTest strand_test = StrandTest::none;
  StretchTest stretch = {};
  bool lightened_on_scalp_today = false;
  Minutes lightener_minutes_today{};  ///< before this application
  bool thin_edges = false;
  bool braids_just_taken_down = false;
  bool low_elasticity = false;
  /// 90 % edge of the oxidised share of cystine at the end of the application [0 to 1].
  std::optional<double> wear_high_90 = {};
  /// Predicted wet strength (work to 20 % strain) over that of the hair as found [0 to 1].
  std::optional<double> wet_strength_ratio = {};
};

/// One application: a bowl, where and for how long.
struct ApplicationFacts {
  Bowl bowl = {};
  Mix mix = {};  ///< mix_bowl(bowl)
  Minutes minutes{};
  std::optional<Minutes> label_max_minutes = {};  ///< of the lightener
  bool added_heat = false;
  std::optional<bool> metal_bowl = {};
  bool is_oxidative_colour = false;  ///< stated; colour with peroxide in the bowl counts anyway
};

}  // namespace hw::process
