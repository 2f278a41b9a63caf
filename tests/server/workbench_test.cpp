// The workbench answers as `lift` and `deposit` do, and its chart ends in the colour they end in.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "handlers.h"
#include "huewright/book/folder.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"
#include "service.h"
#include "support/books.h"

namespace hw::server {
namespace {

using nlohmann::json;
using testing::HasSubstr;

class Workbench : public testing::Test {
 protected:
  Workbench() : service_(*book::Folder::open(folder_.path() + "/salon"), make_thread_pool(2)) {}
  Result<Reply> ask(const json& body) {
    Request request;
    request.method = "POST";
    request.path = "/api/v1/workbench";
    request.body = body.dump();
    return workbench(service_, request);
  }
  json asked(const json& body) {
    const auto reply = ask(body);
    if (!reply) ADD_FAILURE() << one_line(reply.error());
    return reply ? json::parse(reply->body) : json{};
  }
  std::string refused(const json& body) {
    const auto reply = ask(body);
    return reply ? "answered" : one_line(reply.error());
  }

  test::FreshFolder folder_;
  Service service_;
};

json bowl(double peroxide_percent, double minutes) {
  return {{"hair", {{"level", 3}, {"strand_um", 74}}},
          {"applications",
           {{{"parts",
              {{{"kind", "lightener"}, {"grams", 10}, {"for_scalp", true}},
               {{"kind", "developer"}, {"grams", 20}, {"peroxide_percent", peroxide_percent}}}},
             {"minutes", minutes}}}}};
}

TEST_F(Workbench, says_what_lift_says) {
  const json lift = bowl(6, 30);
  const json said = asked({{"lift", lift}});
  const auto request = wire::decode<wire::LiftRequest>(lift.dump());
  const auto threads = make_thread_pool(2);
  const json alone = json::parse(wire::encode(*wire::answer(*request, *threads)));
  EXPECT_EQ(said["series"].back()["level"], alone["series"].back()["level"]);
  EXPECT_EQ(said["series"].back()["wear"], alone["series"].back()["wear"]);
  EXPECT_THAT(said["series"].back()["paint"]["srgb"].get<std::string>(), HasSubstr("#"));
}

TEST_F(Workbench, never_shows_one_colour_as_a_promise) {
  const json end = asked({{"lift", bowl(6, 30)}})["end"];
  EXPECT_NE(end["paint_low"]["srgb"], end["paint"]["srgb"]);
  EXPECT_NE(end["paint_high"]["srgb"], end["paint"]["srgb"]);
}

TEST_F(Workbench, draws_the_strand_lighter_where_the_scalp_warms_it) {
  const json chart =
      asked({{"lift", bowl(6, 30)}, {"length_cm", 20}, {"columns", 30}, {"rows", 20}})["chart"];
  const std::vector<double> level = chart["level"];
  ASSERT_EQ(level.size(), 600U);
  const double root = level[29], tip = level[19 * 30 + 29], before = level[0];
  EXPECT_GT(tip, before);
  EXPECT_GT(root, tip);  // warmth of the scalp: common practice, "hot roots"
  EXPECT_NEAR(before, 3, 0.1);
}

TEST_F(Workbench, lifts_further_with_more_strength_and_time) {
  const auto end = [&](double percent, double minutes) {
    return asked({{"lift", bowl(percent, minutes)}})["series"].back()["level"].get<double>();
  };
  EXPECT_GT(end(6, 30), end(3, 30));
  EXPECT_GT(end(6, 40), end(6, 20));
}

TEST_F(Workbench, colours_what_the_lift_left) {
  const json colour = {{"class", "demi"},
                       {"colours", {{{"grams", 30}, {"level", 5}, {"tone", "copper"}}}},
                       {"developer", {{"grams", 45}, {"peroxide_percent", 3}}},
                       {"minutes", 20}};
  const json said = asked({{"lift", bowl(6, 40)}, {"colour", colour}});
  const double canvas = said["series"].back()["lab"][0];
  EXPECT_NEAR(said["colour"]["series"].front()["lab"][0].get<double>(), canvas, 0.5);
  EXPECT_LT(said["colour"]["series"].back()["lab"][0].get<double>(), canvas);
}

TEST_F(Workbench, says_where_a_fault_is) {
  EXPECT_THAT(refused(json::object()), HasSubstr("lift"));
  EXPECT_THAT(refused({{"lift", 3}}), HasSubstr("lift"));
  EXPECT_THAT(refused({{"lift", bowl(6, -1)}}), HasSubstr("lift.applications[0].minutes"));
  EXPECT_THAT(refused({{"lift", bowl(6, 30)}, {"length_cm", 0}}), HasSubstr("length_cm"));
  EXPECT_THAT(refused({{"lift", bowl(6, 30)}, {"rows", 100000}}), HasSubstr("rows"));
  EXPECT_THAT(refused({{"lift", bowl(6, 30)}, {"colour", 1}}), HasSubstr("colour"));
  json shade = {{"colours", {{{"grams", 30}, {"level", 50}}}}, {"minutes", 20}};
  EXPECT_THAT(refused({{"lift", bowl(6, 30)}, {"colour", shade}}), HasSubstr("colour.colours[0]"));
}

}  // namespace
}  // namespace hw::server
