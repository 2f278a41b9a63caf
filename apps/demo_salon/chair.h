#pragma once
// A visit at the chair: a course of the plan carried out by people on hair that is what it is, with
// every gram, stroke, look and rinse written down.
#include <string>
#include <vector>

#include "huewright/plan/course.h"
#include "pen.h"
#include "truth.h"

namespace hw::demo {

/// What goes on at one chair.
struct Chair {
  const plan::Case& head;  ///< as it was planned
  const plan::Course& course;
  const Colourist& who;
  std::string visit;             ///< id
  process::Moment first_stroke;  ///< as meant
  std::uint64_t salon_seed = 1;  ///< of the strengths of its shades
  double bias_today = 0;         ///< of her eye [levels]
  double rate_today = 1;         ///< of this hair
  double thickness = 1;          ///< grams laid on over those reckoned
  bool burns = false;            ///< the client feels it
};

/// How it went.
struct Went {
  process::Moment rinsed;  ///< last
  bool lightened = false, coloured = false, hurt = false;
  std::vector<std::string> oxidative;  ///< shades used, by id
};

/// A level as people say it: half levels, from 1 to 10.
[[nodiscard]] double said(double level);
/// How far an eye scatters [levels]: common practice, no source.
inline constexpr double kEyeSd = 0.5;
/// What an eye says of a colour.
[[nodiscard]] double by_eye(const Chair& chair, const colour::HairLab& lab, Chance& chance);

/// Carries out the course's first visit.
[[nodiscard]] Went carry_out(const Chair& chair, Truth& truth, Pen& pen, Chance& chance);

}  // namespace hw::demo
