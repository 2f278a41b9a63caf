// A visit told again, as JSON.
#include "describe_parts.h"
#include "huewright/book/replay.h"
#include "huewright/wire/bowl.h"
#include "huewright/wire/fields.h"

namespace hw::book {
namespace {

void put(wire::Object& object, std::string_view key, double value) {
  wire::number(object.required(key, ""), value);
}

void put_text(wire::Object& object, std::string_view key, const std::string& value) {
  std::string text = value;
  if (!text.empty()) object.required(key, "").text(text, text.size());
}

template <class Item, class Put>
void put_list(wire::Object& object, std::string_view key, const std::vector<Item>& items,
              const Put& put_one) {
  if (items.empty()) return;
  object.required(key, "").list(
      {0, items.size()}, items.size(), [](std::size_t) {},
      [&](std::size_t i, wire::Value& entry) {
        entry.object([&](wire::Object& one) { put_one(one, items[i]); });
      });
}

void put_findings(wire::Object& object, const std::vector<process::Refusal>& findings) {
  put_list(object, "findings", findings, [](wire::Object& one, process::Refusal finding) {
    using wire::describe;
    describe(one, finding);
  });
}

void put_ways(wire::Object& object, std::string_view key, const std::vector<ReplayWay>& ways) {
  put_list(object, key, ways, [](wire::Object& one, const ReplayWay& way) {
    put_text(one, "name", way.name);
    put_text(one, "sentence", way.sentence);
    put_findings(one, way.findings);
  });
}

void put_zone(wire::Object& object, const ReplayZone& zone, bool nameless) {
  put_text(object, "zone", zone.zone);
  object.required("level", "").object([&](wire::Object& inner) {
    put(inner, "low", zone.level.low);
    put(inner, "likely", zone.level.mid);
    put(inner, "high", zone.level.high);
  });
  if (zone.found) put(object, "found", *zone.found);
  if (zone.held) {
    bool held = *zone.held;
    object.required("held", "").flag(held);
  }
  if (zone.lab) {
    std::vector<double> lab{zone.lab->l, zone.lab->a, zone.lab->b};
    wire::numbers(object.required("lab", ""), lab, {3, 3});
  }
  if (!nameless) put_text(object, "reader", zone.reader);
  put_text(object, "seen", zone.seen);
}

void put_told(wire::Object& object, const std::vector<std::string>& told) {
  if (told.empty()) return;
  object.required("told", "")
      .list(
          {0, told.size()}, told.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) {
            std::string text = told[i];
            entry.text(text, text.size());
          });
}

void put_step(wire::Object& object, const ReplayStep& step, bool nameless) {
  put_text(object, "kind", std::string(name_of(step.kind)));
  if (!nameless) {
    put_text(object, "at", step.at);
    put_text(object, "by", step.by);
    put_text(object, "wrote", step.wrote);
  }
  if (step.minute) put(object, "minute", *step.minute);
  put_text(object, "bowl", step.bowl);
  put_text(object, "zone", step.zone);
  put_text(object, "purpose", step.purpose);
  put_text(object, "answer", step.answer);
  if (step.planned_min) put(object, "planned_min", *step.planned_min);
  put_list(object, "zones", step.zones,
           [&](wire::Object& one, const ReplayZone& zone) { put_zone(one, zone, nameless); });
  put_list(object, "parts", step.parts, [](wire::Object& one, const ReplayPart& part) {
    put_text(one, "product", part.product);
    put_text(one, "called", part.words);
    put(one, "planned_g", part.planned_g);
    put(one, "poured_g", part.poured_g);
  });
  if (step.left_over_g > 0) put(object, "left_over_g", step.left_over_g);
  put_list(object, "stops", step.stops, [](wire::Object& one, const ReplayStop& stop) {
    put_text(one, "zone", stop.zone);
    put(one, "was_min", stop.was_min);
    put(one, "is_min", stop.is_min);
  });
  put_findings(object, step.findings);
  put_ways(object, "courses", step.courses);
  put_ways(object, "left_out", step.left_out);
  if (step.examined > 0) put(object, "examined", static_cast<double>(step.examined));
  put_told(object, step.told);
  put(object, "readings", static_cast<double>(step.readings));
}

}  // namespace

std::string replay_json(const Replay& replay, bool nameless) {
  constexpr std::size_t kMonth = 7;  // "2025-05"
  return wire::encode_fields([&](wire::Object& object) {
    put_text(object, "visit", replay.visit);
    put_text(object, "starts_at", nameless ? replay.starts_at.substr(0, kMonth) : replay.starts_at);
    object.required("steps", "")
        .list(
            {0, replay.steps.size()}, replay.steps.size(), [](std::size_t) {},
            [&](std::size_t i, wire::Value& entry) {
              entry.object([&](wire::Object& one) { put_step(one, replay.steps[i], nameless); });
            });
  });
}

}  // namespace hw::book
