#pragma once
// Words for a colour. Hue names of hair are judged against natural dark hair, whose neutral point
// lies in the red-yellow quadrant (dyed_hair_brightness_2023, abstract); so a tone is named by how
// a colour differs from ordinary natural hair of the same depth:
//   d = (a − a0(L), b − b0(L)),  strength = |d| / neutral_radius(L),  direction = angle of d
// with a0, b0, neutral_radius in data/hair/natural_locus.csv and the words' borders in tones.csv.
// The numbers are what is kept; words are for reading.
#include <string>
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"

namespace hw::hair {

/// How a colour differs from ordinary natural hair of its depth.
struct ToneOffset {
  double strength = 0;       ///< neutral radii [1]; below 1 the tone is neutral
  double direction_deg = 0;  ///< from +a* towards +b*, 0 to below 360; 0 when strength is 0
};

/// The tone of a colour as numbers. colour: any Lab; depths outside L* 18.2 to 95 are compared with
/// the end of the line. The line itself is a prediction above L* 25 and its width a guess.
/// Lab (35, 14.5, 22.8) gives strength 2.7, direction 46°.
[[nodiscard]] ToneOffset tone_offset(const colour::HairLab& colour);

/// Underlying warmth met at a depth of lifted hair, from "red-brown" to "palest yellow".
struct WarmStage {
  std::string name;
  double from_lstar = 0;   ///< holds from here up to the next stage [L*]
  colour::HairLab middle;  ///< colour a lifted, untoned strand is predicted to have there
};

/// All stages, darkest first. Source: data/hair/warm_stages.csv (colour computed, order common
/// practice). Teaching lists differ by about a level, so a stage is a word and never a measurement.
[[nodiscard]] const std::vector<WarmStage>& warm_stages();

/// The stage a lifted strand of this depth shows before toning. lstar: any; clamped to the ends.
/// warm_stage(41) is "orange".
[[nodiscard]] const WarmStage& warm_stage(double lstar);

struct ColourWords {
  double level = 1;        ///< 1 to 10, kept as the number
  std::string level_name;  ///< "black" … "lightest blond"; schools differ by a level
  std::string tone;    ///< "neutral", "cool", "warm", "ash", "matt", "gold", "copper", "red", …
  std::string warmth;  ///< stage name when the colour shows it, else empty
};

/// Words for a colour [level 1 to 10]. colour: any Lab; ladder: reads its level.
/// Warmth is named only when the colour lies where lifted hair of its depth lies (strength at least
/// 1.5, direction within 30° of the stage's: guess) and not below L* 22, where chroma is too small
/// to tell; a warm dyed colour of that look gets the same word, since a colour cannot tell its
/// cause. Below L* 20 the tone is only neutral, warm or cool. Lab (35, 14.5, 22.8): level 5.8,
/// "dark blond", "copper", "red-orange".
[[nodiscard]] ColourWords describe(const colour::HairLab& colour,
                                   const Ladder& ladder = default_ladder());

/// "level 5.8, dark blond, copper tone, red-orange underlying warmth". The level is printed to
/// 0.1; the warmth part is left out when empty.
[[nodiscard]] std::string sentence(const ColourWords& words);

/// Trade name of a level, rounded to the nearest. level: clamped to 1 to 10.
[[nodiscard]] const std::string& level_name(double level);

}  // namespace hw::hair
