// The drill for the eye: a strand to read, an answer to keep, and what all answers say of a reader.
#include <algorithm>

#include "handler_parts.h"
#include "handlers.h"
#include "huewright/book/drills.h"
#include "huewright/book/ids.h"
#include "huewright/hair/words.h"

namespace hw::server {
namespace {

constexpr std::uint64_t kMostSeed = (std::uint64_t{1} << 53U) - 1;  // a number of JSON holds it

/// A strand without its number: the page is told what it was once it has been read.
Json strand_json(std::uint64_t seed) {
  Json strand;
  strand["seed"] = seed;
  strand["paint"] = paint(plan::drill_strand(seed, hair::default_ladder()).lab);
  strand["paint"].erase("words");
  return strand;
}

/// The eyes of everybody, or of one reader alone; the reader without answers has none.
Result<Json> eyes_of(Service& service, const std::string& reader) {
  const auto book = service.book();
  auto eyes = book::eyes_of(book.store());
  if (!eyes) return tl::unexpected(eyes.error());
  std::erase_if(
      *eyes, [&](const plan::ReaderEye& eye) { return !reader.empty() && eye.reader != reader; });
  return eyes_json(*eyes);
}

Result<std::uint64_t> seed_of(const Json& body) {
  const auto at = body.find("seed");
  if (at == body.end()) return fail(ErrorCode::missing, "is missing", "seed", "send the strand's");
  if (!at->is_number_unsigned() || at->get<std::uint64_t>() > kMostSeed) {
    return fail(ErrorCode::malformed, "is no seed of a strand", "seed",
                "send the one that the strand came with");
  }
  return at->get<std::uint64_t>();
}

Result<double> answer_of(const Json& body) {
  const auto at = body.find("answer");
  if (at == body.end()) return fail(ErrorCode::missing, "is missing", "answer", "send a level");
  if (!at->is_number() || !(at->get<double>() >= 1 && at->get<double>() <= 10)) {
    return fail(ErrorCode::out_of_range, "is no level", "answer", "send 1 to 10");
  }
  return at->get<double>();
}

Result<std::string> warmth_of(const Json& body) {
  auto word = text_of(body, "answer_warmth");
  if (!word || word->empty()) return word;
  if (const auto known = plan::drill_warmth_named(*word); !known) {
    Error error = known.error();
    error.where = "answer_warmth";
    return tl::unexpected(error);
  }
  return word;
}

/// Who reads: of the body, or the device.
Result<std::string> reader_of(const Json& body, const Request& request) {
  auto reader = text_of(body, "reader", request.name);
  if (reader && reader->empty()) reader = request.name;
  if (reader && reader->size() > book::kMostName) {
    return fail(ErrorCode::out_of_range, "is too long", "reader", "give a shorter name");
  }
  return reader;
}

}  // namespace

/// ?reader=NAME: that eye alone; else everybody's.
Result<Reply> drills(Service& service, const Request& request) {
  const auto reader = request.query.find("reader");
  auto eyes = eyes_of(service, reader == request.query.end() ? "" : reader->second);
  if (!eyes) return tl::unexpected(eyes.error());
  Json body;
  body["eyes"] = *std::move(eyes);
  body["advice"] = book::limits_of_drills();
  return reply(body);
}

Result<Reply> drill_strand(Service&, const Request& request) {
  const std::string& text = request.parts.at(0);
  const Json seed = Json::parse(text, nullptr, false);
  const auto known = seed_of(Json{{"seed", seed.is_discarded() ? Json(text) : seed}});
  if (!known) return tl::unexpected(known.error());
  return reply(strand_json(*known));
}

Result<Reply> answer_drill(Service& service, const Request& request) {
  const auto body = body_of(request, {"seed", "reader", "answer", "answer_warmth"});
  if (!body) return tl::unexpected(body.error());
  const auto seed = seed_of(*body);
  if (!seed) return tl::unexpected(seed.error());
  const auto answer = answer_of(*body);
  if (!answer) return tl::unexpected(answer.error());
  const auto warmth = warmth_of(*body);
  if (!warmth) return tl::unexpected(warmth.error());
  const auto reader = reader_of(*body, request);
  if (!reader) return tl::unexpected(reader.error());

  const hair::Ladder& ladder = hair::default_ladder();
  const book::Hand hand = service.hand(request.name);
  const book::DrillFact drill = book::drill_fact(*reader, *seed, *answer, *warmth, ladder);
  const book::Fact fact =
      book::make_fact(book::new_id(), std::string(book::kDrillSubject), hand.at, hand.by, drill);
  {
    const auto book = service.book();
    if (const auto kept = book.store().append({&fact, 1}); !kept) {
      return tl::unexpected(kept.error());
    }
  }
  service.tell({"drill", *reader});  // not the salon's: nobody's open settings are read anew

  Json said;
  said["facts"] = {fact.id};
  const plan::DrillStrand shown = plan::drill_strand(*seed, ladder);
  said["shown"] = {{"level", shown.level},
                   {"warmth", drill.warmth},
                   {"words", hair::sentence(hair::describe(shown.lab, ladder))}};
  auto eyes = eyes_of(service, *reader);
  if (!eyes) return tl::unexpected(eyes.error());
  said["eyes"] = *std::move(eyes);
  said["advice"] = book::limits_of_drills();
  return reply(said);
}

}  // namespace hw::server
