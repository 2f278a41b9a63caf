// The workbench: one strand of nobody's head, for trying, teaching and explaining. A bowl that
// lightens, then perhaps one that colours; nothing is kept.
#include <algorithm>
#include <numeric>
#include <span>

#include "chart_json.h"
#include "handler_parts.h"
#include "handlers.h"
#include "huewright/process/rules.h"
#include "huewright/wire/deposit.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"

namespace hw::server {
namespace {

constexpr long kLeastPoints = 4, kMostPoints = 400;  // across or down
constexpr long kMostCm = 200;
constexpr std::uint64_t kTileMembers = 128;  // for three colours: their quantiles, not their law
constexpr double kCheckEvery = 5;            // min, while lightener is on: house rule

/// A member of the body as a message of the wire; a fault is told by its whole path.
template <class Message>
Result<Message> part_of(const Json& part, const std::string& key) {
  auto message = wire::decode<Message>(part.dump());
  if (message) return message;
  Error error = message.error();
  error.where = error.where.empty() ? key : key + "." + error.where;
  return tl::unexpected(error);
}

/// The strand from scalp to ends by the model's central constants.
plan::ChartCourse course_of(const wire::LiftSetup& setup, double length_cm) {
  plan::ChartEvent event;
  for (const process::Application& bowl : setup.applications) {
    if (event.stop_min > 0) event.again_min.push_back(event.stop_min);
    event.stop_min += bowl.minutes;
  }
  event.what = plan::ChartLift{setup.applications};
  plan::ChartCourse course;
  course.steps = {"lift"};
  course.end_min = event.stop_min;
  for (double at = kCheckEvery; at < event.stop_min; at += kCheckEvery) {
    course.check_min.push_back(at);
  }
  course.phases = {{0, "lift bowl"}};
  plan::ChartZone strand;
  strand.name = "strand";
  strand.to_cm = length_cm;
  strand.member = setup.members;
  strand.events = {std::move(event)};
  course.zones = {std::move(strand)};
  return course;
}

/// Mean colour of the members nearest a quantile of L*: a twentieth of them. labs: by L*.
colour::HairLab near_quantile(std::span<const colour::HairLab> labs, double p) {
  constexpr std::size_t kPart = 20;
  const std::size_t count = std::max<std::size_t>(1, labs.size() / kPart);
  const auto middle = static_cast<std::size_t>(p * static_cast<double>(labs.size() - 1));
  const std::size_t first =
      std::min(middle > count / 2 ? middle - count / 2 : 0, labs.size() - count);
  colour::HairLab mean{};
  for (const colour::HairLab& lab : labs.subspan(first, count)) {
    mean.l += lab.l / static_cast<double>(count);
    mean.a += lab.a / static_cast<double>(count);
    mean.b += lab.b / static_cast<double>(count);
  }
  return mean;
}

/// The end of the lift as three colours: of the middle, and where 8 in 10 end between.
Json end_json(const wire::LiftSetup& setup, Executor& threads) {
  const double whole = std::accumulate(
      setup.applications.begin(), setup.applications.end(), 1.0,
      [](double sum, const process::Application& one) { return sum + one.minutes; });
  const auto moments = process::simulate_lift(setup.members, setup.applications, whole, threads);
  std::vector<colour::HairLab> labs(setup.members.size());
  process::lift_colours(setup.members, moments.back(), labs);
  std::ranges::sort(labs, {}, &colour::HairLab::l);
  constexpr double kLow = 0.1, kMiddle = 0.5, kHigh = 0.9;
  return {{"paint", paint(near_quantile(labs, kMiddle))},
          {"paint_low", paint(near_quantile(labs, kLow))},
          {"paint_high", paint(near_quantile(labs, kHigh))}};
}

/// How the hair stands after the lift, as `deposit` is told of it.
Json canvas_json(const wire::LiftHair& hair, const wire::LiftRow& end) {
  return {{"lab", end.lab},
          {"strand_um", hair.strand.value()},
          {"wear", std::min(end.wear, process::kWearCap)}};
}

}  // namespace

Result<Reply> workbench(Service& service, const Request& request) {
  const auto body = body_of(request, {"lift", "colour", "length_cm", "columns", "rows", "lifted"});
  if (!body) return tl::unexpected(body.error());
  if (!body->contains("lift")) {
    return fail(ErrorCode::malformed, "there is no bowl", "lift", "give what `lift` takes");
  }
  const auto asked = part_of<wire::LiftRequest>((*body)["lift"], "lift");
  if (!asked) return tl::unexpected(asked.error());
  const auto length = whole_of(*body, "length_cm", 20, 1, kMostCm);
  if (!length) return tl::unexpected(length.error());
  const auto columns = whole_of(*body, "columns", 120, kLeastPoints, kMostPoints);
  if (!columns) return tl::unexpected(columns.error());
  const auto rows = whole_of(*body, "rows", 48, kLeastPoints, kMostPoints);
  if (!rows) return tl::unexpected(rows.error());
  const auto lifted = flag_of(*body, "lifted", false);
  if (!lifted) return tl::unexpected(lifted.error());

  const auto made = wire::answer(*asked, service.threads());
  if (!made) return tl::unexpected(made.error());
  Json said = Json::parse(wire::encode(*made));
  add_paints(said, hair::default_ladder());

  wire::LiftRequest few = *asked;
  few.members = std::min<std::uint64_t>(few.members, kTileMembers);
  const auto members = wire::lift_setup(few);
  if (!members) return tl::unexpected(members.error());
  said["end"] = end_json(*members, service.threads());

  wire::LiftRequest central = *asked;
  central.members = 1;
  const auto setup = wire::lift_setup(central);
  if (!setup) return tl::unexpected(setup.error());
  const auto chart = plan::strand_chart(
      course_of(*setup, static_cast<double>(*length)), static_cast<std::size_t>(*columns),
      static_cast<std::size_t>(*rows), hair::default_ladder(), service.threads());
  said["chart"] = chart_json(chart, *lifted);
  said["chart"]["kind"] = "day";
  said["chart"]["marks"] = Json::array();
  said["chart"]["words"] = plan::text_table(chart, hair::default_ladder());

  if (body->contains("colour")) {
    Json colour = (*body)["colour"];
    if (!colour.is_object()) {
      return fail(ErrorCode::malformed, "is no object", "colour", "give what `deposit` takes");
    }
    if (!colour.contains("hair")) colour["hair"] = canvas_json(asked->hair, made->series.back());
    const auto over = part_of<wire::DepositRequest>(colour, "colour");
    if (!over) return tl::unexpected(over.error());
    const auto result = wire::answer(*over, service.threads());
    if (!result) return tl::unexpected(result.error());
    said["colour"] = Json::parse(wire::encode(*result));
    add_paints(said["colour"], hair::default_ladder());
  }
  return reply(said);
}

}  // namespace hw::server
