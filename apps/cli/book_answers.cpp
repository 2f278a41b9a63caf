#include "book_answers.h"

namespace hw::apps {
namespace {

using wire::Object;
using wire::Value;

void put(Object& object, std::string_view key, std::string text) {
  object.required(key, "").text(text, text.size());
}

template <class Line, class Write>
std::string list_json(std::string_view key, const std::vector<Line>& lines, Write write) {
  return wire::encode_fields([&](Object& object) {
           object.required(key, "").list(
               {0, lines.size()}, lines.size(), [](std::size_t) {},
               [&](std::size_t i, Value& entry) {
                 entry.object([&](Object& one) { write(one, lines[i]); });
               });
         }) +
         '\n';
}

}  // namespace

std::string clients_json(const std::vector<book::ClientLine>& clients) {
  return list_json("clients", clients, [](Object& object, const book::ClientLine& client) {
    put(object, "id", client.id);
    put(object, "name", client.name);
    put(object, "phone", client.phone);
  });
}

std::string visits_json(const std::vector<book::VisitLine>& visits) {
  return list_json("visits", visits, [](Object& object, const book::VisitLine& visit) {
    put(object, "id", visit.id);
    put(object, "client", visit.client);
    put(object, "starts_at", visit.starts_at);
    put(object, "stage", std::string(word_of(visit.stage)));
  });
}

std::string facts_json(const std::string& id, std::vector<book::Fact> facts) {
  return wire::encode_fields([&](Object& object) {
           put(object, "id", id);
           wire::objects(object.required("facts", ""), facts, {0, facts.size()});
         }) +
         '\n';
}

}  // namespace hw::apps
