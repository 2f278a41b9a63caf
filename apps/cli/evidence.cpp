// huewright evidence: how past plans came out.
#include "huewright/book/evidence.h"

#include <fmt/format.h>

#include "huewright/book/drills.h"
#include "huewright/book/lessons.h"
#include "huewright/plan/learn_next.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr int kUsualMonths = 24;

Result<std::string> from_of(const Asked& asked) {
  const std::string given = option_of(asked, "--from");
  if (given.empty()) {
    return process::iso_text(process::months_later(process::local_date(now()), -kUsualMonths));
  }
  const auto date = process::date_from_iso(given, "--from");
  if (!date) return tl::unexpected(date.error());
  return process::iso_text(*date);
}

void put(wire::Object& object, const book::Tally& tally) {
  std::string name = tally.name;
  double count = tally.count, held = tally.held, miss = tally.mean_miss, sd = tally.sd_miss,
         width = tally.mean_width;
  object.required("name", "").text(name, name.size());
  wire::number(object.required("count", ""), count);
  wire::number(object.required("held", ""), held);
  wire::number(object.required("mean_miss_levels", ""), miss);
  wire::number(object.required("sd_miss_levels", ""), sd);
  wire::number(object.required("mean_width_levels", ""), width);
}

void put_list(wire::Object& object, std::string_view key, const std::vector<book::Tally>& all) {
  object.required(key, "").list(
      {0, all.size()}, all.size(), [](std::size_t) {},
      [&](std::size_t i, wire::Value& entry) {
        entry.object([&](wire::Object& one) { put(one, all[i]); });
      });
}

std::string line_of(const book::Tally& tally) {
  return fmt::format("  {:<28} {:>5} {:>8.0f} % {:>+8.2f} {:>8.2f} {:>8.2f}\n", tally.name,
                     tally.count, 100 * tally.held, tally.mean_miss, tally.sd_miss,
                     tally.mean_width);
}

std::string group(const char* title, const std::vector<book::Tally>& all) {
  std::string text = fmt::format("{}\n", title);
  for (const book::Tally& tally : all) text += line_of(tally);
  return all.empty() ? "" : text;
}

void put_eyes(wire::Object& object, const std::vector<plan::ReaderEye>& eyes) {
  object.required("eyes", "")
      .list(
          {0, eyes.size()}, eyes.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) {
            entry.object([&](wire::Object& one) { book::put_eye(one, eyes[i]); });
          });
}

std::string eyes_text(const std::vector<plan::ReaderEye>& eyes) {
  std::string text;
  for (const plan::ReaderEye& eye : eyes) {
    for (const std::string& told : book::told_of(eye)) {
      text += wrapped(eye.reader + ": " + told, 4, "  -");
    }
  }
  if (text.empty()) return text;
  return "\nWhat drills on a screen say of each eye\n" + text +
         wrapped(book::limits_of_drills(), 4, "  -");
}

void put_learned(wire::Object& object, const plan::Learned& learned) {
  std::vector<const plan::Factor*> moved;
  for (const plan::Factor& factor : learned.factors) {
    if (plan::is_of_salon(factor.kind)) moved.push_back(&factor);
  }
  object.required("moved", "")
      .list(
          {0, moved.size()}, moved.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) {
            entry.object([&](wire::Object& one) {
              std::string name = moved[i]->name, sentence = moved[i]->sentence;
              one.required("name", "").text(name, name.size());
              one.required("sentence", "").text(sentence, sentence.size());
              if (moved[i]->practice == 0) return;
              auto practice = static_cast<double>(moved[i]->practice);
              double share = moved[i]->practice_share;
              wire::number(one.required("practice", ""), practice);
              wire::number(one.required("practice_share", ""), share);
            });
          });
  const std::vector<plan::LearnNext> next = plan::learn_next(learned);
  object.required("next", "")
      .list(
          {0, next.size()}, next.size(), [](std::size_t) {},
          [&](std::size_t i, wire::Value& entry) {
            entry.object([&](wire::Object& one) {
              std::string name = next[i].name, sentence = next[i].sentence;
              double doubt = next[i].doubt_levels, share = next[i].share_off;
              one.required("name", "").text(name, name.size());
              one.required("sentence", "").text(sentence, sentence.size());
              wire::number(one.required("doubt_levels", ""), doubt);
              wire::number(one.required("share_off", ""), share);
            });
          });
}

}  // namespace

Result<Said> run_evidence(const Asked& asked) {
  const auto from = from_of(asked);
  if (!from) return tl::unexpected(from.error());
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto evidence = book::evidence_of((*book)->store(), *from);
  if (!evidence) return tl::unexpected(evidence.error());
  const auto learned = book::learned_for((*book)->store(), "");
  if (!learned) return tl::unexpected(learned.error());
  const auto eyes = book::eyes_of((*book)->store());
  if (!eyes) return tl::unexpected(eyes.error());
  if (asked.json) {
    return Said{wire::encode_fields([&](wire::Object& object) {
                  object.required("all", "").object(
                      [&](wire::Object& one) { put(one, evidence->all); });
                  put_list(object, "by_zone", evidence->by_zone);
                  put_list(object, "by_start_level", evidence->by_start_level);
                  put_list(object, "by_reader", evidence->by_reader);
                  put_list(object, "by_shade", evidence->by_shade);
                  put_learned(object, *learned);
                  put_eyes(object, *eyes);
                }) +
                '\n'};
  }
  if (evidence->all.count == 0) {
    return Said{"No outcome was read beside a plan yet.\n" + eyes_text(*eyes)};
  }
  const std::string head = fmt::format("  {:<28} {:>5} {:>10} {:>8} {:>8} {:>8}\n", "", "zones",
                                       "held", "off by", "scatter", "band");
  std::string moved;
  for (const plan::Factor& factor : learned->factors) {
    if (!plan::is_of_salon(factor.kind)) continue;
    moved += wrapped((factor.name == book::kSalonName ? "" : factor.name + ": ") + factor.sentence,
                     4, "  -");
  }
  std::string next;
  for (const plan::LearnNext& one : plan::learn_next(*learned)) {
    next += wrapped(one.sentence, 4, "  -");
  }
  return Said{"Outcomes since " + *from +
              ", in levels. Held: the reading fell where 8 in 10 should.\n" + head +
              line_of(evidence->all) + group("by zone", evidence->by_zone) +
              group("by level at the start", evidence->by_start_level) +
              group("by reader", evidence->by_reader) + group("by shade", evidence->by_shade) +
              (moved.empty() ? "" : "\nWhat the salon has moved\n" + moved) +
              (next.empty() ? "" : "\nWhat would teach most next\n" + next) + eyes_text(*eyes)};
}

}  // namespace hw::apps
