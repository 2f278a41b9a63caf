#pragma once
// What is known of one head before it is planned: the person, the zones with their readings and
// past, the wish, the shelf. Pure data; wire reads it from a case file.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "huewright/colour/lab.h"
#include "huewright/hair/ladder.h"
#include "huewright/hair/tress.h"
#include "huewright/process/person.h"
#include "huewright/process/product.h"
#include "huewright/process/rules.h"

namespace hw::plan {

enum class Reader { eye, instrument };

/// One look at a zone: a level by eye, or a Lab (or level) by an instrument.
struct Reading {
  Reader by = Reader::eye;
  hair::Moisture moisture = hair::Moisture::dry;
  std::optional<double> level = {};         ///< 1–10
  std::optional<colour::HairLab> lab = {};  ///< D65/10°
};

/// Old artificial colour still in a zone; how much follows from the zone's readings.
struct OldColour {
  std::string tone = "neutral";  ///< "neutral", "red", "copper", "ash"
};

/// What was done to a zone before. Counts are services, over the fibre's whole life.
struct ZonePast {
  std::optional<OldColour> old_colour = {};
  int lightened = 0;
  int permanent_colours = 0;
  int demi_colours = 0;
};

enum class Porosity { low, usual, high, extreme };

struct ZoneCase {
  std::string name;
  std::string section = "whole head";
  double from_cm = 0;  ///< from the scalp, stretched
  double to_cm = 1;
  std::vector<Reading> readings;  ///< at least one
  ZonePast past;
  Porosity porosity = Porosity::usual;
  double white_percent = 0;       ///< of strands, 0–100
  double water_held_g_per_g = 0;  ///< damp hair: 0.3 is towel-dry
  process::HairFacts facts;
  std::optional<double> wished_level = {};  ///< where it differs from the head's
};

/// What past visits taught of this head and its reader, as priors of this visit. The defaults are
/// those of nothing learned: guesses, and a strand test is the real calibration. plan/learn.h.
struct HeadPriors {
  double ln_rate_mean = 0;      ///< of every rate of the head [ln]
  double ln_rate_sd = 0.25;     ///< spread between heads [ln], > 0; guess
  double reader_bias_mean = 0;  ///< of the reader of the zones' readings [levels]
  double reader_bias_sd = 0.3;  ///< between days and people [levels], > 0; guess
  double wet_look_mean_sd = 0;  ///< of the wet look, in sds of hair::moisture_shift [1]
  double wet_look_sd = 1;       ///< likewise, > 0
};

struct Case {
  std::string title;
  process::Person person;
  double strand_um = 74;        ///< equal-area diameter, 20–180
  double strand_sd_um = 8;      ///< doubt about it, > 0
  double shrinkage = 0.37;      ///< 1 − resting/stretched length, 0–0.9
  double hairs_per_cm2 = 190;   ///< mean over the head, 50–400; bib loussouarn_2001
  double scalp_area_cm2 = 580;  ///< 200–1000; from memory
  double cut_factor = 0.7;      ///< mean strand length over the longest, 0.5–1; common practice
  double room_c = 22;           ///< 10–35
  double mix_per_hair = 1.5;    ///< g of mix to a g of hair: saturated, common practice
  std::vector<ZoneCase> zones;
  double wished_level = 5;  ///< 1–10
  std::vector<process::Product> shelf;
  double longest_min = 45;  ///< never more of lightener in one visit
  process::RuleSettings settings;
  HeadPriors priors;
  hair::Ladder ladder = hair::default_ladder();
  std::uint64_t seed = 1;
  std::size_t members = 512;
};

}  // namespace hw::plan
