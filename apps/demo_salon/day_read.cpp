// What is read and tested at a visit.
#include <algorithm>
#include <cmath>

#include "visiting.h"

namespace hw::demo {

Result<void> meet_hair(Visiting& now, const plan::Case& head) {
  Client& client = now.client;
  if (client.truth) {
    const double days = process::hours_between(*client.truth_at, now.start) / 24;
    client.truth->pass(days, head.habits);
  } else {
    constexpr std::uint64_t kTruths = 7919;  // keeps seeds of truths off those of plans
    auto truth = Truth::draw(head, client.hidden, now.who,
                             now.salon.seed * 1'000'003 + client.number * kTruths + 1);
    if (!truth) return tl::unexpected(truth.error());
    client.truth = *std::move(truth);
  }
  client.truth_at = now.start;
  return {};
}

void read_before(Visiting& now, wire::CaseFile& file) {
  const hair::Ladder ladder = hair::default_ladder();
  for (plan::ZoneCase& zone : file.head.zones) {
    const process::Moment at = later(now.start, 4 + now.chance.uniform());
    if (now.slot.nth > 0) {
      const colour::HairLab lab = now.client.truth->lab_of(zone, process::Whites::left_out);
      const double level =
          said(ladder.level_of(lab.l) + now.bias_today + kEyeSd * now.chance.normal());
      zone.readings = {{plan::Reader::eye, hair::Moisture::dry, level, {}}};
    }
    book::ReadingFact reading;
    reading.zone = zone.name;
    reading.when = "before";
    reading.level = zone.readings.front().level;
    if (zone.readings.front().lab) {
      const colour::HairLab& lab = *zone.readings.front().lab;
      reading.lab = {{lab.l, lab.a, lab.b}};
    }
    reading.light = "daylight";
    reading.reader = now.who.name;
    now.note(at, reading);

    const double wear = now.client.truth->wear_of(zone);
    constexpr double kSlow = 0.2, kStays = 0.38;  // share of cystine; guess
    const char* worst = wear > kStays  ? "stays_stretched"
                        : wear > kSlow ? "returns_slowly"
                                       : "springs_back";
    zone.facts.stretch = {
        wear > kStays ? process::WetStretch::stays_stretched : process::WetStretch::springs_back, 5,
        3};
    now.note(later(at, 3), book::StretchFact{zone.name, worst, 5, 3});
  }
}

void test_strands(Visiting& now, wire::CaseFile& file) {
  const process::Moment at = later(now.start, 10);
  for (plan::ZoneCase& zone : file.head.zones) {
    const process::TextureServices& texture = zone.facts.texture;
    if (texture.relaxed_other || texture.relaxed_hydroxide || texture.permed) {
      book::StrandTestFact test;
      test.zone = zone.name;
      test.minutes = 20;
      test.stretch = "springs_back";
      test.result = "passed";
      now.note(at, test);
      zone.facts.strand_test = process::StrandTest::passed;
    }
    if (zone.facts.metal_or_compound_henna_suspected) {
      now.pen.note(now.client.id, at, now.who.name,
                   book::HairTestFact{"incompatibility", zone.name, "passed",
                                      "no warmth, no bubbles, no change in 30 minutes"});
      now.client.facts.push_back(now.pen.facts.back());
      zone.facts.incompatibility_test = process::IncompatibilityTest::clear;
    }
  }
}

void read_finish(Visiting& now, const plan::Case& head, const plan::Course* course,
                 const process::Moment& at, std::vector<TrueEnd>& ends) {
  for (std::size_t z = 0; z < head.zones.size(); ++z) {
    const plan::ZoneCase& zone = head.zones[z];
    const colour::HairLab lab = now.client.truth->lab_of(zone);
    TrueEnd end{now.id, zone.name, {}, head.ladder.level_of(lab.l), 0, now.slot.nth == 0};
    book::OutcomeFact outcome;
    outcome.zone = zone.name;
    outcome.reader = now.who.name;
    if (now.who.instrument) {
      constexpr double kSdL = 1.19, kSdA = 0.33, kSdB = 0.42;  // bib scanavez_2000, a moved tress
      const auto shown = [](double value) { return std::round(100 * value) / 100; };
      outcome.lab = {{shown(lab.l + kSdL * now.chance.normal()),
                      shown(lab.a + kSdA * now.chance.normal()),
                      shown(lab.b + kSdB * now.chance.normal())}};
      end.found = head.ladder.level_of((*outcome.lab)[0]);
    } else {
      outcome.level = end.found = said(end.level + now.bias_today + kEyeSd * now.chance.normal());
    }
    constexpr double kUnread = 14;
    const bool read = !now.chance.one_in(kUnread);
    if (read) now.note(at, outcome);
    if (!read) end.found = 0;
    if (course != nullptr && course->visits == 1) {
      end.expected = course->zones[z].result.level;
      ends.push_back(end);
    }
  }
}

}  // namespace hw::demo
