// What the server answers, without a network: a visit from the client's first word to the finish.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "huewright/book/shelf_facts.h"
#include "huewright/photo/jpeg.h"
#include "huewright/wire/case_file.h"
#include "route.h"
#include "service.h"
#include "support/books.h"

namespace hw::server {
namespace {

using nlohmann::json;
using testing::HasSubstr;

std::string source(const std::string& path) {
  std::ifstream file(std::string(std::getenv("HW_SOURCE_DIR")) + "/" + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

process::Moment at(const std::string& text) {
  return *process::moment_from_iso(text);
}

/// Parts of a path that stand where the pattern has {…}; nothing where it does not fit.
std::optional<std::vector<std::string>> fit(std::string_view pattern, const std::string& path) {
  std::vector<std::string> parts;
  std::istringstream want{std::string(pattern)}, have(path);
  std::string a, b;
  while (true) {
    const bool more_a = static_cast<bool>(std::getline(want, a, '/'));
    const bool more_b = static_cast<bool>(std::getline(have, b, '/'));
    if (more_a != more_b) return {};
    if (!more_a) return parts;
    if (a.starts_with('{'))
      parts.push_back(b);
    else if (a != b)
      return {};
  }
}

class Handlers : public testing::Test {
 protected:
  Handlers() : service_(*book::Folder::open(folder_.path() + "/salon"), make_thread_pool(2)) {
    service_.set_clock([this] { return now_; });
    service_.listen(
        [this](const Change& change) { told_.push_back(change.about + " " + change.id); });
    const auto shelf = wire::decode<wire::ShelfFile>(source("cases/shelves/small.json"));
    std::vector<book::Fact> facts;
    for (const process::Product& product : shelf->shelf) {
      book::ProductFact made;
      made.product = product;
      facts.push_back(test::fact("p-" + product.id, product.id, made));
    }
    EXPECT_TRUE(service_.book().store().append(facts));
    products_ = facts.size();
  }

  Result<Reply> ask(const std::string& method, std::string path, const std::string& body = "") {
    Request request;
    request.method = method;
    if (const auto query = path.find('?'); query != std::string::npos) {
      const std::string pair = path.substr(query + 1);
      request.query[pair.substr(0, pair.find('='))] = pair.substr(pair.find('=') + 1);
      path.resize(query);
    }
    request.path = path;
    request.body = body;
    request.type = "application/json";
    request.name = who_;
    request.role = Role::owner;
    for (const Route& route : routes()) {
      if (route.method != method || (route.pattern.find('{') != std::string_view::npos &&
                                     route.pattern != path && path.ends_with("/reorder"))) {
        continue;
      }
      if (auto parts = fit(route.pattern, path)) {
        request.parts = *parts;
        return route.run(service_, request);
      }
    }
    ADD_FAILURE() << "no route for " << path;
    return Reply{};
  }
  json get(const std::string& path) { return parsed(ask("GET", path), path); }
  json post(const std::string& path, const json& body) {
    return parsed(ask("POST", path, body.dump()), path);
  }
  std::string refused(const std::string& method, const std::string& path,
                      const std::string& body = "") {
    const auto said = ask(method, path, body);
    return said ? "answered"
                : std::to_string(status_of(said.error().code)) + " " + one_line(said.error());
  }
  static json parsed(const Result<Reply>& said, const std::string& path) {
    EXPECT_TRUE(said) << path << ": " << (said ? "" : one_line(said.error()));
    return said ? json::parse(said->body) : json();
  }

  std::string client() {
    const std::string id = post("/api/v1/clients", {{"name", "Ana Bell"}})["id"];
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
    post("/api/v1/clients/" + id + "/facts", {{"facts", facts}});
    return id;
  }
  static json head() {
    json file = json::parse(source("cases/01-coils-to-mahogany.json"));
    for (const char* key : {"shelf_file", "tests", "salon"}) file.erase(key);
    return file;
  }
  /// A visit with the first course chosen.
  std::string visit(const std::string& client) {
    const std::string id =
        post("/api/v1/visits", {{"client", client}, {"starts_at", "2025-05-14T10:00+02:00"}})["id"];
    plan_ = post("/api/v1/visits/" + id + "/plan", {{"case", head()}, {"course", 1}})["plan"];
    return id;
  }
  void record(const std::string& visit, const json& facts) {
    post("/api/v1/visits/" + visit + "/facts", {{"facts", facts}});
  }
  static const json& zone_of(const json& run, const std::string& name) {
    for (const json& zone : run["zones"]) {
      if (zone["zone"] == name) return zone;
    }
    throw std::runtime_error("no zone " + name);
  }

  test::FreshFolder folder_;
  process::Moment now_ = at("2025-05-14T10:00:00+02:00");
  Service service_;
  std::vector<std::string> told_;
  json plan_;
  std::string who_ = "Ines";
  std::size_t products_ = 0;
};

TEST_F(Handlers, finds_a_client_and_says_all_that_is_known) {
  const std::string id = client();
  EXPECT_EQ(get("/api/v1/clients?find=bel")["clients"][0]["id"], id);
  json known = get("/api/v1/clients/" + id);
  ASSERT_EQ(known["tests"].size(), 4U);
  // 84 days by date from the reading: rule skin_test_lapsed.
  EXPECT_EQ(known["tests"][0]["valid_until"], "2025-08-05");
  EXPECT_EQ(known["tests"][0]["state"], "valid");
  EXPECT_TRUE(known["blocks"].empty());
  now_ = at("2025-08-06T10:00:00+02:00");
  EXPECT_EQ(get("/api/v1/clients/" + id)["tests"][0]["state"], "lapsed");
  post("/api/v1/clients/" + id + "/facts",
       {{"facts",
         {{{"kind", "allergy"}, {"body", {{"to", "hair dye"}, {"happened", "swelling"}}}}}}});
  known = get("/api/v1/clients/" + id);
  EXPECT_EQ(known["blocks"][0]["kind"], "never");
  EXPECT_THAT(known["blocks"][0]["text"].get<std::string>(), HasSubstr("swelling"));
  EXPECT_THAT(told_, testing::Contains("client " + id));
}

TEST_F(Handlers, plans_with_what_the_book_knows) {
  const std::string id = client();
  const json plan = post("/api/v1/plan", {{"case", head()}, {"client", id}});
  ASSERT_FALSE(plan["courses"].empty());
  const json& zone = plan["courses"][0]["zones"][0];
  EXPECT_THAT(zone["result"]["paint"]["srgb"].get<std::string>(),
              testing::MatchesRegex("#[0-9a-f]{6}"));
  EXPECT_TRUE(zone["result"].contains("paint_low"));
  // A reaction in the book stands against it, whatever the page sent.
  post("/api/v1/clients/" + id + "/facts",
       {{"facts", {{{"kind", "allergy"}, {"body", {{"to", "hair dye"}}}}}}});
  const json refused = post("/api/v1/plan", {{"case", head()}, {"client", id}});
  EXPECT_THAT(refused["refusals"].dump(), HasSubstr("never"));
  const json nobody = post("/api/v1/plan", {{"case", head()}, {"why", true}, {"reach", true}});
  EXPECT_FALSE(nobody["whys"].empty());
  EXPECT_FALSE(nobody["reach"].empty());
}

TEST_F(Handlers, draws_charts_and_tiles_as_numbers) {
  json asked{{"case", head()}, {"columns", 30}, {"rows", 20}};
  const json day = post("/api/v1/chart", asked);
  EXPECT_EQ(day["srgb"].get<std::string>().size(), 30U * 20U * 3U / 3U * 4U);
  EXPECT_EQ(day["level"].size(), 600U);
  EXPECT_FALSE(day["events"].empty());
  asked["lifted"] = true;
  EXPECT_NE(post("/api/v1/chart", asked)["srgb"], day["srgb"]);
  EXPECT_EQ(post("/api/v1/chart", asked)["level"], day["level"]);
  asked["kind"] = "weeks";
  EXPECT_FALSE(post("/api/v1/chart", asked)["marks"].empty());
  asked["kind"] = "year";
  EXPECT_THAT(refused("POST", "/api/v1/chart", asked.dump()), HasSubstr("404 kind"));
  EXPECT_THAT(refused("POST", "/api/v1/chart", json{{"case", head()}, {"course", 9}}.dump()),
              HasSubstr("422 course"));
  const json tiles = post("/api/v1/tiles", {{"case", head()}});
  ASSERT_EQ(tiles["lights"].size(), 3U);
  EXPECT_EQ(tiles["zones"][0]["likely"].size(), 3U);
}

TEST_F(Handlers, balances_a_bowl_that_was_poured_over) {
  const json plan = post("/api/v1/plan", {{"case", head()}});
  const json items = plan["courses"][0]["bowls"][0]["items"];
  const double first = items[0]["grams"];
  json asked{{"case", head()},
             {"bowl", 1},
             {"poured", {{{"product", items[0]["product"]}, {"grams", first * 1.2}}}}};
  const json bowl = post("/api/v1/bowl", asked);
  EXPECT_TRUE(bowl["rebalanced"].get<bool>());
  EXPECT_NEAR(bowl["items"][1]["to_pour"], items[1]["grams"].get<double>() * 1.2, 1.0);
  EXPECT_TRUE(bowl["items"][1]["next"].get<bool>());
  EXPECT_FALSE(bowl["zones"].empty());
  asked["poured"] = {{{"product", "no such"}, {"grams", 1}}};
  EXPECT_THAT(refused("POST", "/api/v1/bowl", asked.dump()), HasSubstr("404 poured[0].product"));
  asked["poured"] = {{{"product", items[0]["product"]}, {"grams", -1}}};
  EXPECT_THAT(refused("POST", "/api/v1/bowl", asked.dump()), HasSubstr("400 poured[0]"));
}

TEST_F(Handlers, holds_the_deadlines_of_a_visit_under_way) {
  const std::string id = visit(client());
  json run = get("/api/v1/visits/" + id + "/run");
  EXPECT_EQ(run["started_at"], "");
  EXPECT_EQ(zone_of(run, "lengths")["state"], "waits");
  record(id, {{{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}}});
  run = get("/api/v1/visits/" + id + "/run");
  EXPECT_EQ(run["started_at"], "2025-05-14T10:00:00+02:00");
  const json lengths = zone_of(run, "lengths");
  EXPECT_EQ(lengths["state"], "on");
  double stop = 0;
  for (const json& zone : plan_["courses"][0]["bowls"][0]["zones"]) {
    if (zone["zone"] == "lengths") stop = zone["stop_at_min"];
  }
  EXPECT_NEAR(process::hours_between(now_, at(lengths["stop_at"])) * 60, stop, 0.02);
  EXPECT_LE(at(lengths["stop_at"]), at(lengths["hard_stop_at"]));
  EXPECT_EQ(run["next"]["what"], "check");
  // It went on later than planned: its own clock counts.
  now_ = at("2025-05-14T10:50:00+02:00");
  record(id, {{{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "ends"}}}}});
  run = get("/api/v1/visits/" + id + "/run");
  EXPECT_EQ(zone_of(run, "lengths")["state"], "check");
  EXPECT_GT(zone_of(run, "ends")["stop_at"], lengths["stop_at"]);
  EXPECT_GT(zone_of(run, "lengths")["expect"]["level"].get<double>(), 2.5);
  now_ = at(lengths["hard_stop_at"]);
  run = get("/api/v1/visits/" + id + "/run");
  EXPECT_EQ(zone_of(run, "lengths")["state"], "stop");
  EXPECT_FALSE(zone_of(run, "lengths")["seen"].get<bool>());
  post("/api/v1/visits/" + id + "/seen", {{"zone", "lengths"}});
  EXPECT_TRUE(zone_of(get("/api/v1/visits/" + id + "/run"), "lengths")["seen"].get<bool>());
  record(id, {{{"kind", "rinse"}, {"body", {{"zone", "lengths"}}}}});
  // The next bowl waits for it now.
  EXPECT_EQ(zone_of(get("/api/v1/visits/" + id + "/run"), "lengths")["bowl"], "2");
}

TEST_F(Handlers, plans_the_rest_anew_after_a_look) {
  const std::string id = visit(client());
  record(id, {{{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}}});
  now_ = at("2025-05-14T10:25:00+02:00");
  record(id,
         {{{"kind", "reading"},
           {"body", {{"zone", "lengths"}, {"when", "check"}, {"level", 5.5}, {"seen", "wiped"}}}}});
  json run = get("/api/v1/visits/" + id + "/run");
  EXPECT_THAT(run["changed"].dump(), HasSubstr("lengths: stop"));
  EXPECT_THAT(run["changed"].dump(), HasSubstr("earlier"));
  record(id,
         {{{"kind", "reading"},
           {"body", {{"zone", "lengths"}, {"when", "check"}, {"level", 5.5}, {"seen", "wiped"}}}},
          {{"kind", "stretch"}, {"body", {{"zone", "lengths"}, {"worst", "snaps"}}}}});
  run = get("/api/v1/visits/" + id + "/run");
  EXPECT_THAT(run["findings"].dump(), HasSubstr("Rinse it now"));
}

TEST_F(Handlers, narrows_the_plan_by_a_strand_that_was_tested) {
  const std::string id = visit(client());
  const auto band = [&] {
    const json run = get("/api/v1/visits/" + id + "/run");
    const json& course = run["plan"].is_null()
                             ? plan_["courses"][0]
                             : run["plan"]["courses"][run["course"].get<std::size_t>() - 1];
    for (const json& zone : course["bowls"][0]["zones"]) {
      if (zone["zone"] == "lengths") {
        return zone["minutes_high"].get<double>() - zone["minutes_low"].get<double>();
      }
    }
    return 0.0;
  };
  const double before = band();
  record(id, {{{"kind", "strand_test"},
               {"body",
                {{"zone", "lengths"},
                 {"bowl", "1"},
                 {"minutes", 20},
                 {"level", 3.5},
                 {"stretch", "springs_back"},
                 {"result", "passed"}}}}});
  EXPECT_LT(band(), before);
  EXPECT_EQ(get("/api/v1/visits/" + id + "/run")["started_at"], "");
}

TEST_F(Handlers, carries_a_visit_to_its_end_and_into_the_next) {
  const std::string id = client();
  EXPECT_THAT(refused("GET", "/api/v1/clients/" + id + "/next"), HasSubstr("409"));
  const std::string first = visit(id);
  record(first,
         {{{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "cream-scalp"}, {"grams", 45}}}},
          {{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "dev-6"}, {"grams", 90}}}},
          {{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}},
          {{"kind", "outcome"}, {"body", {{"zone", "lengths"}, {"level", 3.5}}}},
          {{"kind", "price"}, {"body", {{"money", 240}}}},
          {{"kind", "payment"}, {"body", {{"money", 200}, {"for", "visit"}}}}});
  post("/api/v1/visits/" + first + "/finish", json::object());
  const json whole = get("/api/v1/visits/" + first);
  EXPECT_EQ(whole["stage"], "finished");
  EXPECT_EQ(whole["owed"], 40);
  EXPECT_FALSE(whole["answer"]["courses"].empty());
  EXPECT_EQ(whole["bowls"][0]["grams"].size(), 2U);
  const json next = get("/api/v1/clients/" + id + "/next?at=2025-06-25T10:00+02:00");
  EXPECT_THAT(next["told"].dump(), HasSubstr("42 days"));
  EXPECT_EQ(get("/api/v1/clients/" + id)["visits"][0]["strip"].size(), 3U);
  EXPECT_EQ(get("/api/v1/visits?day=2025-05-14")["visits"][0]["name"], "Ana Bell");
  EXPECT_EQ(get("/api/v1/visits?day=2025-05-15")["visits"].size(), 0U);
  EXPECT_THAT(refused("GET", "/api/v1/visits?day=soon"), HasSubstr("400 day"));
  const json out = get("/api/v1/clients/" + id + "/export");
  EXPECT_GT(out["facts"].size(), 10U);
  post("/api/v1/clients/" + id + "/erase", {{"reason", "asked for"}});
  EXPECT_TRUE(get("/api/v1/clients/" + id)["erased"].get<bool>());
  EXPECT_EQ(get("/api/v1/visits/" + first)["paid"], 200);
}

TEST_F(Handlers, keeps_the_chosen_course_whoever_looks_and_whatever_is_learned) {
  const std::string id = client();
  const std::string mine = visit(id);
  const json chosen = plan_["courses"][1];
  now_ = at("2025-05-14T10:10:00+02:00");
  who_ = "Noor";
  EXPECT_EQ(post("/api/v1/visits/" + mine + "/plan", {{"course", 2}})["plan"]["courses"][1],
            chosen);
  // Another visit of the same hair teaches that it lifts quite otherwise.
  const std::string other = visit(id);
  record(other,
         {{{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "cream-scalp"}, {"grams", 45}}}},
          {{"kind", "pour"}, {"body", {{"bowl", "1"}, {"product", "dev-6"}, {"grams", 90}}}},
          {{"kind", "apply"}, {"body", {{"bowl", "1"}, {"zone", "lengths"}}}}});
  now_ = at("2025-05-14T10:40:00+02:00");
  record(other,
         {{{"kind", "reading"},
           {"body", {{"zone", "lengths"}, {"when", "check"}, {"level", 7.5}, {"seen", "dry"}}}},
          {{"kind", "outcome"}, {"body", {{"zone", "lengths"}, {"level", 7.5}}}}});
  EXPECT_FALSE(post("/api/v1/visits/" + other + "/finish", json::object())["factors"].empty());
  // What a visit taught of the salon and its people is told, and nothing of a client.
  const json learned = get("/api/v1/evidence");
  ASSERT_FALSE(learned["moved"].empty());
  for (const json& one : learned["moved"]) EXPECT_NE(one["name"], id);
  for (const json& one : learned["next"]) {
    EXPECT_GT(one["share_off"], 0);
    EXPECT_LT(one["share_off"], 1);
  }
  who_ = "a tablet that only looks";
  const json asked{{"visit", mine}, {"course", 2}, {"bowl", 1}};
  const json bowl = post("/api/v1/bowl", asked);
  ASSERT_EQ(bowl["items"].size(), chosen["bowls"][0]["items"].size());
  for (std::size_t i = 0; i < bowl["items"].size(); ++i) {
    EXPECT_EQ(bowl["items"][i]["product"], chosen["bowls"][0]["items"][i]["product"]);
    EXPECT_EQ(bowl["items"][i]["grams"], chosen["bowls"][0]["items"][i]["grams"]);
  }
  EXPECT_EQ(post("/api/v1/plan", {{"visit", mine}})["courses"][1], chosen);
  EXPECT_NE(post("/api/v1/plan", {{"case", head()}, {"client", id}})["courses"][1], chosen);
  EXPECT_EQ(post("/api/v1/visits/" + mine + "/plan", {{"course", 2}})["plan"]["courses"][1],
            chosen);
  EXPECT_EQ(get("/api/v1/visits/" + mine + "/run")["zones"].size(), 3U);
  EXPECT_THAT(refused("POST", "/api/v1/bowl", R"({"visit":"01J0000000000000000000000X"})"),
              HasSubstr("404"));
}

TEST_F(Handlers, keeps_shelf_salon_and_copies) {
  EXPECT_EQ(get("/api/v1/shelf")["shelf"].size(), products_);
  post("/api/v1/shelf/dev-3/facts", {{"facts", {{{"kind", "count"}, {"body", {{"grams", 700}}}}}}});
  EXPECT_EQ(get("/api/v1/shelf/dev-3/ledger")["movements"][0]["left"], 700);
  EXPECT_FALSE(get("/api/v1/shelf/reorder")["products"].empty());
  EXPECT_EQ(get("/api/v1/salon")["currency"], "EUR");
  post("/api/v1/salon", {{"name", "Corner"}, {"currency", "GBP"}, {"salon", {{"hands", 2}}}});
  EXPECT_EQ(get("/api/v1/salon")["salon"]["hands"], 2);
  EXPECT_THAT(refused("POST", "/api/v1/salon", R"({"currency":"pounds"})"), HasSubstr("currency"));
  post("/api/v1/backups", json::object());
  EXPECT_EQ(get("/api/v1/backups")["backups"].size(), 1U);
  EXPECT_EQ(get("/api/v1/levels")["levels"].size(), 19U);
  EXPECT_FALSE(get("/api/v1/looks")["looks"].empty());
}

TEST_F(Handlers, keeps_a_photo_without_what_stands_round_it) {
  photo::Picture picture;
  picture.width = 16;
  picture.height = 8;
  picture.rgb.assign(3 * 16 * 8, 90);
  const std::string jpeg = *photo::encode_jpeg(picture, 90) + "words behind the picture";
  const auto kept = ask("POST", "/api/v1/photos", jpeg);
  ASSERT_TRUE(kept) << one_line(kept.error());
  const std::string name = json::parse(kept->body)["sha256"];
  const auto back = ask("GET", "/api/v1/photos/" + name);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->body.find("words behind"), std::string::npos);
  EXPECT_EQ(photo::decode_jpeg(back->body)->width, 16U);
  EXPECT_THAT(refused("POST", "/api/v1/photos", "\xFF\xD8\xFF and no more"), HasSubstr("damaged"));
  EXPECT_THAT(refused("POST", "/api/v1/photos", "\x89PNG"), HasSubstr("only JPEG is read"));
}

TEST_F(Handlers, takes_no_fact_that_has_a_way_of_its_own) {
  const std::string id = client();
  EXPECT_THAT(refused("POST", "/api/v1/clients/" + id + "/facts",
                      R"({"facts":[{"kind":"erased","body":{}}]})"),
              HasSubstr("409 facts[0].kind"));
  EXPECT_THAT(refused("POST", "/api/v1/clients/" + id + "/facts",
                      R"({"facts":[{"kind":"finished","body":{}}]})"),
              HasSubstr("409 facts[0].kind"));
  EXPECT_THAT(refused("GET", "/api/v1/clients/nobody"), HasSubstr("404"));
}

TEST_F(Handlers, calls_a_fault_of_a_card_by_its_place_on_it) {
  const std::string visit =
      R"({"client":{"name":"Ana"},"visits":[{"starts_at":"2024-03-02T09:00Z",)";
  EXPECT_THAT(refused("POST", "/api/v1/cards",
                      visit + R"("facts":[{"kind":"person","body":{"name":"Eve"}}]}]})"),
              HasSubstr("409 visits[0].facts[0].kind"));
  EXPECT_THAT(
      refused(
          "POST", "/api/v1/cards",
          visit + R"("facts":[{"kind":"pour","body":{"bowl":"1","product":"x","grams":4}}]}]})"),
      HasSubstr("404 visits[0].facts[0].body.product"));
  EXPECT_THAT(refused("POST", "/api/v1/shelf", R"({"product":{"id":"d","kind":"developer"}})"),
              HasSubstr("product"));
}

TEST_F(Handlers, answers_whatever_it_is_sent) {
  const std::string id = client();
  for (const Route& route : routes()) {
    std::string path(route.pattern);
    if (const auto at = path.find('{'); at != std::string::npos) {
      path.replace(
          at, path.find('}') - at + 1,
          route.pattern.find("photos") != std::string_view::npos ? std::string(64, 'a') : id);
    }
    for (const std::string& body :
         {std::string(), std::string("null"), std::string("[]"), std::string("{"),
          std::string("{\"case\":1}"), std::string("{\"case\":{}}"),
          std::string("{\"facts\":[{}]}"), std::string("\xff\xfe"), std::string(100, '[')}) {
      const auto said = ask(std::string(route.method), path, body);
      if (!said) {
        const std::string line = error_json(said.error());
        EXPECT_EQ(line.find('\n'), std::string::npos);
        EXPECT_EQ(line.find(folder_.path()), std::string::npos)
            << "a path leaves the house: " << line;
      }
    }
  }
}

}  // namespace
}  // namespace hw::server
