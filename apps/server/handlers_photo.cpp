// Photos: kept, shown, read along a line, two of them compared; and the sheet that is held beside.
#include <array>
#include <charconv>

#include "handler_parts.h"
#include "handlers.h"
#include "huewright/hair/words.h"
#include "huewright/photo/jpeg.h"
#include "huewright/sheets/chart_paper.h"
#include "huewright/wire/photo_answer.h"
#include "huewright/wire/photo_request.h"

namespace hw::server {
namespace {

constexpr double kEight = 1.2816;  // sds of a normal to either side that hold eight times in ten

/// A photo's bytes. Error (unknown_name): there is none of that name.
Result<std::string> bytes_of(Service& service, const std::string& sha256) {
  const auto book = service.book();
  auto bytes = book.folder.photo(sha256);
  if (bytes) return bytes;
  Error error = bytes.error();
  error.where = "photo";  // no path leaves the house
  if (error.code == ErrorCode::io) {
    error.code = ErrorCode::unknown_name;
    error.message = "is not among the photos that are kept";
    error.hint = "take it again, or choose another";
  }
  return tl::unexpected(error);
}

tl::unexpected<Error> not_its_turn() {
  return fail(ErrorCode::conflict, "another photo is being read", "photo", "ask again in a moment");
}

colour::HairLab lab_of(const Json& three) {
  return {three.at(0), three.at(1), three.at(2)};
}

/// Level of a colour, and where it lies eight times in ten.
void add_level(Json& into, const colour::HairLab& lab, double sd) {
  const hair::Ladder& ladder = hair::default_ladder();
  into["level"] = ladder.level_of(lab.l);
  into["level_low"] = ladder.level_of(lab.l - kEight * sd);
  into["level_high"] = ladder.level_of(lab.l + kEight * sd);
}

/// How many levels lighter a stretch became, and where that lies eight times in ten.
void add_levels(Json& change) {
  const hair::Ladder& ladder = hair::default_ladder();
  const double from = ladder.level_of(lab_of(change["before"]).l);
  const double after = lab_of(change["after"]).l;
  const double spread = kEight * change["sd"].at(0).get<double>();
  change["levels"] = ladder.level_of(after) - from;
  change["levels_low"] = ladder.level_of(after - spread) - from;
  change["levels_high"] = ladder.level_of(after + spread) - from;
}

/// What a page paints and says beside the numbers. The reading for a case file stays as it is.
void dress(Json& reading) {
  for (const char* list : {"stations", "zones"}) {
    if (!reading.contains(list)) continue;
    for (Json& one : reading[list]) one["paint"] = paint(lab_of(one["lab"]));
  }
  if (!reading.contains("zones")) return;
  for (Json& zone : reading["zones"]) add_level(zone, lab_of(zone["lab"]), zone["sd"].at(0));
}

}  // namespace

Result<Reply> photo(Service& service, const Request& request) {
  auto bytes = bytes_of(service, request.parts.at(0));
  if (!bytes) return tl::unexpected(bytes.error());
  Reply made;
  made.type = "image/jpeg";
  made.body = *std::move(bytes);
  made.headers.emplace_back("Content-Disposition", "inline; filename=\"photo.jpg\"");
  return made;
}

Result<Reply> keep_photo(Service& service, const Request& request) {
  // Decoded and written anew: nothing is kept of place, date or camera, or hidden behind the
  // picture.
  const auto clean = photo::clean_jpeg(request.body);
  if (!clean) {
    Error error = clean.error();
    error.where = "body";
    return tl::unexpected(error);
  }
  const auto book = service.book();
  const auto name = book.folder.keep_photo(*clean);
  if (!name) return tl::unexpected(name.error());
  return reply(Json{{"sha256", *name}});
}

Result<Reply> read_kept_photo(Service& service, const Request& request) {
  const auto asked = message_of<wire::PhotoLine>(request.body);
  if (!asked) return tl::unexpected(asked.error());
  const auto turn = service.photo_turn();
  if (!turn) return not_its_turn();
  const auto bytes = bytes_of(service, asked->photo);
  if (!bytes) return tl::unexpected(bytes.error());
  const auto reading = photo::read_photo(*bytes, asked->wish);
  if (!reading) return tl::unexpected(reading.error());
  Json said = Json::parse(wire::encode(*reading));
  dress(said);
  return reply(said);
}

Result<Reply> compare_kept_photos(Service& service, const Request& request) {
  const auto asked = message_of<wire::PhotoPair>(request.body);
  if (!asked) return tl::unexpected(asked.error());
  const auto turn = service.photo_turn();
  if (!turn) return not_its_turn();
  const auto before = bytes_of(service, asked->before.photo);
  if (!before) return tl::unexpected(before.error());
  const auto after = bytes_of(service, asked->after.photo);
  if (!after) return tl::unexpected(after.error());
  const auto change = photo::compare_photos(*before, *after, asked->before.wish, asked->after.wish);
  if (!change) return tl::unexpected(change.error());
  Json said = Json::parse(wire::encode(*change));
  for (const char* which : {"before", "after"}) dress(said[which]);
  for (Json& zone : said["changes"]) {
    for (const std::string which : {"before", "after"}) {
      zone["paint_" + which] = paint(lab_of(zone[which]));
    }
    add_levels(zone);
  }
  return reply(said);
}

/// ?lab=30,10,12: what a reading that is a colour is called, and how it is painted.
Result<Reply> colour_words(Service&, const Request& request) {
  const auto asked = request.query.find("lab");
  const std::string text = asked == request.query.end() ? "" : asked->second;
  std::array<double, 3> lab{};
  constexpr std::array kLow{0.0, -128.0, -128.0};
  constexpr std::array kHigh{100.0, 128.0, 128.0};
  const char* at = text.data();
  const char* const end = at + text.size();
  for (std::size_t i = 0; i < lab.size(); ++i) {
    const auto [stop, problem] = std::from_chars(at, end, lab[i]);
    const bool ends = i + 1 == lab.size() ? stop == end : stop != end && *stop == ',';
    if (problem != std::errc() || !ends || !(lab[i] >= kLow[i] && lab[i] <= kHigh[i])) {
      return fail(ErrorCode::malformed, "is no Lab colour", "lab",
                  "give L*, a*, b* between commas, such as 30,10,12");
    }
    at = stop + 1;
  }
  const colour::HairLab colour{lab[0], lab[1], lab[2]};
  const hair::Ladder& ladder = hair::default_ladder();
  Json body;
  body["level"] = ladder.level_of(colour.l);
  body["words"] = hair::describe(colour, ladder).level_name;
  body["paint"] = paint(colour, ladder);
  return reply(body);
}

/// ?chart=before-2014, after-2014 (usual) or grey, &window=90x60, &paper=a4 or letter.
Result<Reply> chart_sheet(Service&, const Request& request) {
  const auto asked = [&](std::string_view key, std::string_view usual) {
    const auto found = request.query.find(key);
    return found == request.query.end() ? std::string(usual) : found->second;
  };
  photo::ChartSheet sheet;
  const auto kind = photo::chart_kind_named(asked("chart", "after-2014"));
  if (!kind) return tl::unexpected(kind.error());
  sheet.kind = *kind;
  if (auto read = photo::read_window(asked("window", "90x60"), sheet); !read) {
    Error error = read.error();
    error.where = "window";
    return tl::unexpected(error);
  }
  const auto paper = sheets::paper_named(asked("paper", "a4"));
  if (!paper) return tl::unexpected(paper.error());
  const auto language = language_named(asked("language", "en"), "language");
  if (!language) return tl::unexpected(language.error());
  auto pdf = sheets::chart_paper(sheet, *paper, *language);
  if (!pdf) return tl::unexpected(pdf.error());
  Reply made;
  made.type = "application/pdf";
  made.body = *std::move(pdf);
  made.headers.emplace_back("Content-Disposition", "inline; filename=\"chart-sheet.pdf\"");
  return made;
}

}  // namespace hw::server
