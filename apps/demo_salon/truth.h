#pragma once
// The hair as it really is, which nobody in the salon sees: one member drawn from the priors, told
// apart along the strand, that lifts, takes colour, fades and grows by the model.
#include <cstdint>
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"
#include "people.h"

namespace hw::demo {

/// A stretch of strand that has had the same all its life.
struct Segment {
  std::string section;
  double from_cm = 0, to_cm = 0;
  process::LiftMembers hair;  ///< one member
  bool natural = false;       ///< nothing was ever done to it
  /// Of the last colour: how its layers fade, their amounts when fresh, and what they went through.
  std::vector<process::FadeConstants> fade;  ///< one, or none: nothing fades any more
  std::vector<double> fresh;                 ///< of the last layers of hair.dyes
  double washes = 0, light_h = 0;
};

/// What stays of a client.
struct HiddenClient {
  double ln_rate = 0;        ///< of this hair in this salon
  double growth_factor = 1;  ///< over what the case says
  double wash_factor = 1;    ///< washes over those told
};

class Truth {
 public:
  /// A hidden head that the readings of a case could be of, as this colourist reads. seed: its own.
  /// Errors: readings that no hair could give.
  [[nodiscard]] static Result<Truth> draw(const plan::Case& head, const HiddenClient& client,
                                          const Colourist& reader, std::uint64_t seed);

  /// Days pass: washes take colour out, hair grows.
  void pass(double days, const plan::Habits& habits);
  void trim(double cm);

  /// How a zone looks, by length [D65/10°].
  [[nodiscard]] colour::HairLab lab_of(const plan::ZoneCase& zone,
                                       process::Whites whites = process::Whites::mixed_in) const;
  /// The same after so many minutes of a lift that is not done yet.
  [[nodiscard]] colour::HairLab lab_during(const plan::ZoneCase& zone,
                                           const process::Application& bowl, double minutes,
                                           double day_rate) const;
  /// A bowl on a zone. day_rate: factor of this day on every rate.
  void lift(const plan::ZoneCase& zone, const process::Application& bowl, double day_rate);
  void colour(const plan::ZoneCase& zone, const process::DepositBowl& bowl,
              const std::vector<process::Poured>& pours);
  void remove(const plan::ZoneCase& zone, double minutes);
  /// Largest share of cystine used up in a zone [0–1].
  [[nodiscard]] double wear_of(const plan::ZoneCase& zone) const;
  /// Stretched length of the longest section [cm].
  [[nodiscard]] double length_cm() const;

 private:
  Truth(std::uint64_t seed, const HiddenClient& client) : seed_(seed), client_(client) {}
  [[nodiscard]] std::vector<std::size_t> within(const plan::ZoneCase& zone) const;

  std::uint64_t seed_;
  HiddenClient client_;
  double shrinkage_ = 0;
  double room_c_ = 22;
  std::vector<Segment> segments_;
  std::vector<Segment> grows_;  ///< one per section whose hair at the scalp was natural once
};

}  // namespace hw::demo
