#pragma once
// Handlers on a fresh book with the small shelf, asked without a network.
#include <fstream>
#include <nlohmann/json.hpp>

#include "handlers.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/wire/case_file.h"
#include "service.h"
#include "support/books.h"

namespace hw::server {

class AskedBook : public testing::Test {
 protected:
  using json = nlohmann::json;
  using Run = Result<Reply> (*)(Service&, const Request&);

  AskedBook() : service_(*book::Folder::open(folder_.path() + "/salon"), make_thread_pool(2)) {
    service_.set_clock([this] { return now_; });
    const auto shelf = wire::decode<wire::ShelfFile>(source("cases/shelves/small.json"));
    std::vector<book::Fact> facts;
    for (const process::Product& product : shelf->shelf) {
      book::ProductFact made;
      made.product = product;
      facts.push_back(test::fact("p-" + product.id, product.id, made));
    }
    EXPECT_TRUE(service_.book().store().append(facts));
  }

  static std::string source(const std::string& path) {
    std::ifstream file(std::string(std::getenv("HW_SOURCE_DIR")) + "/" + path);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  Result<Reply> ask(Run run, std::vector<std::string> parts, const json& body = {},
                    std::map<std::string, std::string, std::less<>> query = {}) {
    Request request;
    request.parts = std::move(parts);
    request.query = std::move(query);
    if (!body.is_null()) request.body = body.dump();
    request.name = who_;
    request.role = Role::owner;
    return run(service_, request);
  }
  json asked(Run run, std::vector<std::string> parts, const json& body = {},
             std::map<std::string, std::string, std::less<>> query = {}) {
    const auto said = ask(run, std::move(parts), body, std::move(query));
    EXPECT_TRUE(said) << (said ? "" : one_line(said.error()));
    return said ? json::parse(said->body) : json();
  }
  std::string refused(Run run, std::vector<std::string> parts, const json& body = {},
                      std::map<std::string, std::string, std::less<>> query = {}) {
    const auto said = ask(run, std::move(parts), body, std::move(query));
    return said ? "answered" : one_line(said.error());
  }
  void at(const std::string& moment) { now_ = *process::moment_from_iso(moment); }

  /// A client with all tests read, and a visit planned for her with the first course chosen.
  std::string visit() {
    const std::string id = asked(add_client, {}, {{"name", "Ana Bell"}})["id"];
    json facts = json::array();
    facts.push_back({{"kind", "consent"}, {"body", {{"purpose", "service"}, {"answer", "given"}}}});
    for (const char* shade :
         {"demi-mahogany-walnut", "demi-red-hazel", "demi-walnut", "demi-clear"}) {
      facts.push_back({{"kind", "skin_test"},
                       {"body",
                        {{"product", "house demi"},
                         {"shade", shade},
                         {"applied_at", "2025-05-11T18:00+02:00"},
                         {"read_at", "2025-05-13T18:30+02:00"},
                         {"result", "clear"}}}});
    }
    asked(record_client, {id}, {{"facts", facts}});
    const std::string visit = asked(book_visit, {},
                                    {{"client", id},
                                     {"starts_at", "2025-05-14T10:00+02:00"},
                                     {"wish", "as her sister Eva has it"}})["id"];
    json head = json::parse(source("cases/01-coils-to-mahogany.json"));
    for (const char* key : {"shelf_file", "tests", "salon"}) head.erase(key);
    plan_ = asked(plan_visit, {visit}, {{"case", head}, {"course", 1}})["plan"];
    return visit;
  }
  void record(const std::string& visit, const json& facts) {
    asked(record_visit, {visit}, {{"facts", facts}});
  }

  test::FreshFolder folder_;
  process::Moment now_ = *process::moment_from_iso("2025-05-14T10:00:00+02:00");
  Service service_;
  json plan_;
  std::string who_ = "Ines";
};

}  // namespace hw::server
