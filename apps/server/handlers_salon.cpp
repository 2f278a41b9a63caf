// The salon itself: its name and people, its copies, its photos.
#include "handler_parts.h"
#include "handlers.h"
#include "huewright/book/backup.h"
#include "huewright/book/ids.h"
#include "huewright/book/salon.h"

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

Result<Reply> photo(Service& service, const Request& request) {
  const auto book = service.book();
  auto bytes = book.folder.photo(request.parts.at(0));
  if (!bytes) {
    Error error = bytes.error();
    error.where = "photo";  // no path leaves the house
    if (error.code == ErrorCode::io) error.code = ErrorCode::unknown_name;
    return tl::unexpected(error);
  }
  Reply made;
  made.type = "image/jpeg";
  made.body = *std::move(bytes);
  made.headers.emplace_back("Content-Disposition", "inline; filename=\"photo.jpg\"");
  return made;
}

Result<Reply> keep_photo(Service& service, const Request& request) {
  // The first bytes of every JPEG; what is inside is looked at when it is read.
  constexpr std::string_view kJpeg = "\xFF\xD8\xFF";
  if (!request.body.starts_with(kJpeg)) {
    return fail(ErrorCode::malformed, "is no JPEG picture", "body", "send a photo as JPEG");
  }
  const auto book = service.book();
  const auto name = book.folder.keep_photo(request.body);
  if (!name) return tl::unexpected(name.error());
  return reply(Json{{"sha256", *name}});
}

}  // namespace hw::server
