#pragma once
// What several handlers say or ask the same way.
#include <span>
#include <string>
#include <vector>

#include "huewright/book/record_file.h"
#include "huewright/book/visit.h"
#include "huewright/plan/drill.h"
#include "huewright/process/refusal.h"
#include "paint.h"
#include "route.h"
#include "service.h"

namespace hw::server {

[[nodiscard]] Reply reply(const Json& body);
/// The body of a request as a JSON object of these keys, each of which may lack. Errors: malformed;
/// a key that is none of them (unknown_name).
[[nodiscard]] Result<Json> body_of(const Request& request,
                                   std::initializer_list<std::string_view> keys);
/// The body, or one member of it, as a message of the wire.
template <class Message>
[[nodiscard]] Result<Message> message_of(const std::string& text) {
  return wire::decode<Message>(text);
}
/// A member of the body that is an object, as text. Errors: missing, malformed.
[[nodiscard]] Result<std::string> object_text(const Json& body, const std::string& key);
/// A whole number of the body, or what stands for none. Errors: malformed, out_of_range.
[[nodiscard]] Result<long> whole_of(const Json& body, const std::string& key, long usual, long low,
                                    long high);
[[nodiscard]] Result<bool> flag_of(const Json& body, const std::string& key, bool usual);
[[nodiscard]] Result<std::string> text_of(const Json& body, const std::string& key,
                                          const std::string& usual = {});

[[nodiscard]] Json facts_json(std::span<const book::Fact> facts);
/// Readers' eyes, as book::put_eye has them.
[[nodiscard]] Json eyes_json(std::span<const plan::ReaderEye> eyes);
[[nodiscard]] Json refusal_json(const process::Refusal& refusal);

/// Appends facts, tells every page, and answers with their ids (and the subject's, where given).
[[nodiscard]] Result<Reply> stored(Service& service, std::span<const book::Fact> facts,
                                   book::About about, const std::string& subject,
                                   bool name_subject = false);
/// The facts of a record file, about one subject. Errors: those of the file; a fact that is about
/// something else.
[[nodiscard]] Result<Reply> record(Service& service, const Request& request, book::About about);

/// The kinds of fact that only Store::erase_client, a plan or the end of a visit may write.
[[nodiscard]] bool may_be_recorded(const std::string& kind);

}  // namespace hw::server
