#include "huewright/wire/plan_answer.h"

#include "huewright/process/rules.h"
#include "plan_writing.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMostText = 10000;  // bytes; answers are never longer

void put_look(Object& object, const plan::LookNext& look) {
  put_text(object, "what", "level, instrument, strand_test or swatch", look.what);
  put_text(object, "of", "a zone, or a product of the shelf", look.zone);
  put_text(object, "sentence", "what it would tell", look.sentence);
  put(object, "narrows", "share of the spread of the result that it takes off", look.narrows);
}

void put_test(Object& object, const process::TestToMake& test) {
  put_text(object, "product", "as the skin test names it", test.colour.product);
  put_text(object, "shade", "id on the shelf", test.colour.shade);
  put_text(object, "why", "the rule's sentence", test.why);
  put_text(object, "apply_by", "latest moment to put it on", process::iso_text(test.apply_by));
  put_text(object, "read_from", "earliest moment to read it", process::iso_text(test.read_from));
  put_flag(object, "only_read", "it is on the skin already", test.only_read);
  put_flag(object, "too_late", "the visit must wait until then", test.too_late);
}

void put_left_out(Object& object, const plan::LeftOut& out) {
  put_text(object, "name", "the bowl in words", out.name);
  Findings found{out.refusals, {}};
  describe_found(object, found);
}

void put_checked(Object& object, const plan::Checked& checked) {
  put_flag(object, "believable", "no reading is far from what was thinkable", checked.believable);
  put(object, "effective", "members that still counted", checked.effective);
  put_list<plan::ReadingForecast>(object, "readings", "in the order of the file", checked.forecasts,
                                  [](Object& fields, const plan::ReadingForecast& one) {
                                    put(fields, "expected_level", "as this reader sees it",
                                        one.expected_level);
                                    put(fields, "sd_level", "of that", one.sd_level);
                                    put(fields, "sds_off", "of what was read", one.sds_off);
                                  });
  put_list<plan::ZoneCheck>(object, "zones", "in the case's order", checked.checks,
                            [](Object& fields, const plan::ZoneCheck& one) {
                              put_text(fields, "zone", "as in the case", one.zone);
                              put_flag(fields, "rinse_now", "stop whatever the colour",
                                       one.rinse_now);
                              put_flag(fields, "only_wet", "all of it was read wet", one.only_wet);
                            });
}

void put_reach(Object& object, const plan::Reachable& one) {
  put_text(object, "look", "a trade word", one.look);
  put_flag(object, "today", "in reach inside the limits", one.today);
  put(object, "expected_de00", "CIEDE2000 of the nearest course", one.expected_de00);
  put(object, "sds_off", "how far that lies from the middle of the word", one.sds_off);
}

}  // namespace

void put_text(Object& object, std::string_view key, std::string_view what, std::string text) {
  object.required(key, what).text(text, kMostText);
}

void put(Object& object, std::string_view key, std::string_view what, double value) {
  number(object.required(key, what), value);
}

void put_flag(Object& object, std::string_view key, std::string_view what, bool value) {
  object.required(key, what).flag(value);
}

void put_lab(Object& object, std::string_view key, std::string_view what,
             const colour::HairLab& lab) {
  Triple values{lab.l, lab.a, lab.b};
  triple(object.required(key, what), values);
}

void put_band(Object& object, const std::string& key, const std::string& what, const Band& band) {
  put(object, key, what + ", most likely", band.mid);
  put(object, key + "_low", what + ", 10 % quantile", band.low);
  put(object, key + "_high", what + ", 90 % quantile", band.high);
}

void put_sentences(Object& object, std::string_view key, std::string_view what,
                   const std::vector<std::string>& sentences) {
  std::vector<std::string> texts = sentences;
  object.required(key, what).list(
      kAnyCount, texts.size(), [](std::size_t) {},
      [&](std::size_t i, Value& entry) { entry.text(texts[i], kMostText); });
}

void describe(Object& object, PlanAnswer& answer) {
  const plan::HeadPlan& plan = answer.plan;
  Findings found{plan.refusals, plan.cautions};
  describe_found(object, found);
  put_list<plan::Course>(
      object, "courses", "best first", plan.courses,
      [&](Object& fields, const plan::Course& course) { put_course(fields, course, answer.head); });
  put_list<plan::LookNext>(object, "look_next", "most telling first", plan.look_next, put_look);
  put_list<process::TestToMake>(object, "tests_to_make", "before the visit", plan.tests_to_make,
                                put_test);
  put_list<plan::LeftOut>(object, "left_out", "forbidden, with why", plan.left_out, put_left_out);
  put(object, "examined", "courses that were judged", static_cast<double>(plan.examined));
  if (answer.checked) {
    object.required("checked", "what the readings said").object([&](Object& fields) {
      put_checked(fields, *answer.checked);
    });
  }
  if (!answer.reach.empty()) {
    put_list<plan::Reachable>(object, "reach", "nearest first", answer.reach, put_reach);
  }
  if (answer.whys) put_sentences(object, "whys", "what it rests on", plan.whys);
  put_text(object, "closing", "what every plan ends with", process::closing_advice());
}

}  // namespace hw::wire
