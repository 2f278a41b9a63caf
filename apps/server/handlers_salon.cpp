// The salon itself: its name and people, its copies, what it learned.
#include "handler_parts.h"
#include "handlers.h"
#include "huewright/book/backup.h"
#include "huewright/book/drills.h"
#include "huewright/book/evidence.h"
#include "huewright/book/ids.h"
#include "huewright/book/lessons.h"
#include "huewright/book/salon.h"
#include "huewright/plan/learn_next.h"

namespace hw::server {

Result<Reply> health(Service& service, const Request&) {
  Json body;
  body["program"] = HW_VERSION;
  body["now"] = process::iso_text(service.now());
  return reply(body);
}

Result<Reply> salon(Service& service, const Request&) {
  const auto book = service.book();
  const auto now = book::salon_of(book.store());
  if (!now) return tl::unexpected(now.error());
  return reply(Json::parse(wire::encode(*now)));
}

Result<Reply> me(Service& service, const Request& request) {
  Json body;
  body["device"] = {
      {"id", request.device}, {"name", request.name}, {"role", word_of(request.role)}};
  body["program"] = HW_VERSION;
  body["now"] = process::iso_text(service.now());
  const auto book = service.book();
  const auto now = book::salon_of(book.store());
  if (!now) return tl::unexpected(now.error());
  body["salon"] = Json::parse(wire::encode(*now));
  return reply(body);
}

Result<Reply> set_salon(Service& service, const Request& request) {
  const auto salon = message_of<book::SalonFact>(request.body);
  if (!salon) return tl::unexpected(salon.error());
  const book::Hand hand = service.hand(request.name);
  const book::Fact fact =
      book::make_fact(book::new_id(), std::string(book::kSalonSubject), hand.at, hand.by, *salon);
  const auto kept =
      stored(service, {&fact, 1}, book::About::salon, std::string(book::kSalonSubject));
  if (!kept) return kept;
  return reply(Json::parse(wire::encode(*salon)));
}

namespace {

Json tally_json(const book::Tally& tally) {
  return {{"name", tally.name},
          {"count", tally.count},
          {"held", tally.held},
          {"mean_miss_levels", tally.mean_miss},
          {"sd_miss_levels", tally.sd_miss},
          {"mean_width_levels", tally.mean_width}};
}

Json tallies_json(const std::vector<book::Tally>& all) {
  Json list = Json::array();
  for (const book::Tally& tally : all) list.push_back(tally_json(tally));
  return list;
}

}  // namespace

/// ?from=DATE: visits from that day on; else of the last two years.
Result<Reply> evidence(Service& service, const Request& request) {
  constexpr int kUsualMonths = 24;
  const auto asked = request.query.find("from");
  const auto from = asked == request.query.end()
                        ? Result<std::chrono::year_month_day>(process::months_later(
                              process::local_date(service.now()), -kUsualMonths))
                        : process::date_from_iso(asked->second, "from");
  if (!from) return tl::unexpected(from.error());
  const auto book = service.book();
  const auto found = book::evidence_of(book.store(), process::iso_text(*from));
  if (!found) return tl::unexpected(found.error());
  Json body;
  body["from"] = process::iso_text(*from);
  body["all"] = tally_json(found->all);
  body["by_zone"] = tallies_json(found->by_zone);
  body["by_start_level"] = tallies_json(found->by_start_level);
  body["by_reader"] = tallies_json(found->by_reader);
  body["by_shade"] = tallies_json(found->by_shade);
  body["outcomes"] = Json::array();
  for (const book::Outcome& one : found->outcomes) {
    body["outcomes"].push_back({{"visit", one.visit},
                                {"at", one.at},
                                {"zone", one.zone},
                                {"low", one.predicted.low},
                                {"likely", one.predicted.mid},
                                {"high", one.predicted.high},
                                {"found", one.found},
                                {"held", one.held()}});
  }
  const auto learned = book::learned_for(book.store(), "");
  if (!learned) return tl::unexpected(learned.error());
  body["moved"] = Json::array();
  for (const plan::Factor& factor : learned->factors) {
    if (!plan::is_of_salon(factor.kind)) continue;
    Json moved{{"name", factor.name}, {"sentence", factor.sentence}};
    if (factor.practice > 0) {
      moved["practice"] = factor.practice;
      moved["practice_share"] = factor.practice_share;
    }
    body["moved"].push_back(std::move(moved));
  }
  body["next"] = Json::array();
  for (const plan::LearnNext& one : plan::learn_next(*learned)) {
    body["next"].push_back({{"name", one.name},
                            {"sentence", one.sentence},
                            {"doubt_levels", one.doubt_levels},
                            {"share_off", one.share_off}});
  }
  const auto eyes = book::eyes_of(book.store());
  if (!eyes) return tl::unexpected(eyes.error());
  body["eyes"] = eyes_json(*eyes);
  body["advice"] = book::limits_of_drills();
  return reply(body);
}

Result<Reply> backups(Service& service, const Request&) {
  const auto book = service.book();
  const auto names = book::backups_of(book.folder.path());
  if (!names) return tl::unexpected(names.error());
  Json body;
  body["backups"] = *names;
  body["newest"] = names->empty() ? "" : names->back();
  return reply(body);
}

Result<Reply> make_backup(Service& service, const Request& request) {
  if (const auto body = body_of(request, {}); !body) return tl::unexpected(body.error());
  const auto book = service.book();
  const auto name = book::make_backup(book.folder, service.now());
  if (!name) return tl::unexpected(name.error());
  return reply(Json{{"backup", *name}});
}

}  // namespace hw::server
