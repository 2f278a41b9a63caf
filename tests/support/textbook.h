#pragma once
// What a textbook would do with a head, from the facts of its case alone: the rules that are
// taught, each with its source, and never the planner or a model. Levels are read, subtracted and
// looked up.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/plan/case.h"

namespace hw::test {

/// A way of working, from the mildest to the longest.
enum class Method { nothing, gloss, deposit, permanent, gentle_lift, lighten, several_visits };
/// Words of a way, such as "soap cap, then colour".
[[nodiscard]] std::string_view words_of(Method method);

/// What is taught and where: a bib key of REFERENCES.bib or 'common practice, no source'.
struct TextStep {
  std::string words;
  std::string source;
};

/// What a rule keeps from being done.
enum class Barred { everything, oxidative_colour, scalp_lightener, lightener, peroxide_on_zone };
struct TextBar {
  Barred what = Barred::everything;
  bool never = true;  ///< false: not until something is tested or agreed
  std::string zone;   ///< of peroxide_on_zone; else empty
  TextStep why;
};

/// Minutes that a kind of bowl is taught to stay on [min].
struct TextMinutes {
  double low = 0, high = 0;
  std::string source;
};

struct TextZone {
  std::string name;
  double level = 1;   ///< as read, the mean of its readings
  double wanted = 1;  ///< level of the wish
  Method method = Method::nothing;
  bool fill = false;
};

struct TextbookAnswer {
  std::vector<TextBar> bars;
  Method method = Method::nothing;               ///< the longest that a zone needs
  std::vector<Method> also;                      ///< what other teaching allows for those zones
  std::vector<TextZone> zones;                   ///< in the order of the case
  std::vector<TextStep> steps;                   ///< in the order of work
  double developer_low = 0, developer_high = 0;  ///< of the bottle [% by mass]; 0 and 0: none
  TextMinutes lift_minutes, colour_minutes;      ///< 0 and 0: no such bowl
  bool roots_later = false;  ///< roots about 20 min after the lengths: virgin hair going lighter
  [[nodiscard]] bool allows(Method way) const;
  [[nodiscard]] bool barred(Barred what) const;  ///< by a rule that says never
};

/// The answer of the textbook. head: as wire::ready() gives it.
[[nodiscard]] TextbookAnswer textbook(const plan::Case& head);

}  // namespace hw::test
