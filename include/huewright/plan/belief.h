#pragma once
// What is believed of a zone: N equally likely members, each a hypothesis about the whole zone.
// Constants, the head's rate and the reader's bias belong to a member across all zones of the head,
// so zones are correlated and what is learned on one informs the others.
//
// A reading enters by its likelihood, never by turning the colour law round: every member draws
// candidates from the prior (melanin, surface term; earlier exposure where the zone was lightened;
// old dye where it was coloured), each is coloured by the law, and one is kept with a chance in
// proportion to the likelihood of all readings. Eye: half a level, and a bias of 0.3 level shared
// by all zones; instrument: 1.2 L*, 0.4 a*, 0.4 b* (bib scanavez_2000, re-laid tress). Wet and
// wiped readings are shifted and widened by hair::moisture_shift. Untouched zones of one head hold
// much the same natural pigment (ln, sd 0.3 between zones: guess), so each informs the others.
#include <string>
#include <vector>

#include "huewright/base/executor.h"
#include "huewright/base/statistics.h"
#include "huewright/plan/case.h"
#include "huewright/process/lift.h"

namespace hw::plan {

/// The unknown that a zone's readings decide.
enum class Unknown {
  melanin,   ///< of an untouched zone [% of mass], 0.02–kMelaninMax
  exposure,  ///< of earlier lightening [standard minutes], 1–200
  dye,       ///< old colour [1/cm], 1–1500
};

/// What the pigment of each member was built from; a check draws some of it anew.
struct ZoneOrigin {
  Unknown unknown = Unknown::melanin;
  std::vector<double> found;            ///< the unknown, in its unit
  std::vector<double> natural_percent;  ///< melanin before any lightening [% of mass]
  std::vector<double> pheo_share;       ///< pheomelanin of it, 0–1
  std::vector<double> exposure;         ///< of earlier lightening [standard minutes], 0 if none
  bool natural_from_head = false;       ///< natural_percent is that of the first untouched zone
  std::vector<double> head_rate;        ///< factor that all zones of the head share
  /// What the hair does beside pigment and rate, in sds of a stranger's; 0 where not untouched.
  std::vector<double> rest;
  std::vector<double> reader_bias;  ///< of the reader of the zones' readings [levels]
};

struct ZoneBelief {
  std::string name;
  process::LiftMembers members;
  ZoneOrigin origin;
  double white_percent = 0;
  std::vector<colour::HairLab> now;        ///< colour of each member today, dry
  std::vector<colour::HairLab> pigmented;  ///< likewise, of the strands that are not white
  std::vector<double> level_now;           ///< depth of the pigmented strands of each member
};

/// The belief of every zone of a case. Deterministic in case.seed and case.members.
/// Error: a zone without a reading, or one whose readings no hair could give (names the zone).
[[nodiscard]] Result<std::vector<ZoneBelief>> believe(const Case& head, Executor& executor);

/// The scalp's warmth, put to what is believed of each zone by its distance at rest [°C]: as plans
/// are made and runs are compared with them. zones: one per zone of the head.
void warm_by_scalp(const Case& head, std::vector<ZoneBelief>& zones);

/// What a past service leaves in a strand: prior of opening and wear, data/plan/past_services.csv.
struct PastService {
  std::string id;
  double opened = 1, opened_spread = 1;          ///< central factor, and its 90 % / 50 % ratio
  double wear = 0, wear_low = 0, wear_high = 0;  ///< share of cystine: central, 10 %, 90 %
};
[[nodiscard]] const PastService& past_service(const std::string& id);

}  // namespace hw::plan
