#include <thread>

#include "case_input.h"
#include "command.h"
#include "huewright/wire/checks_file.h"
#include "huewright/wire/json.h"
#include "input.h"
#include "plan_charts.h"
#include "plan_report.h"

namespace hw::apps {
namespace {

std::string option(const Asked& asked, const char* flag) {
  const auto at = asked.options.find(flag);
  return at == asked.options.end() ? "" : at->second;
}

/// An error in a file that the input names, told with that file's name.
Error in_file(Error error, const std::string& path) {
  error.where = path + ": " + error.where;
  return error;
}

/// The plan, and after readings what is left of the chosen course.
Result<wire::PlanAnswer> answer_of(const Asked& asked, const plan::Case& head,
                                   std::span<const plan::Look> looks, Executor& threads) {
  auto plan = plan::plan_head(head, threads);
  if (!plan) return tl::unexpected(plan.error());
  wire::PlanAnswer answer{head, *std::move(plan)};
  answer.whys = asked.options.contains("--why");
  if (asked.options.contains("--reach")) {
    auto reach = plan::reach_of(head, looks, threads);
    if (!reach) return tl::unexpected(reach.error());
    answer.reach = *std::move(reach);
  }
  const std::string checks = option(asked, "--check");
  if (checks.empty()) return answer;
  const auto text = read_input(checks);
  if (!text) return tl::unexpected(text.error());
  const auto file = wire::decode<wire::ChecksFile>(*text);
  if (!file) return tl::unexpected(in_file(file.error(), checks));
  const auto readings = wire::readings_of(*file, head);
  if (!readings) return tl::unexpected(in_file(readings.error(), checks));
  auto again = plan::plan_again(head, answer.plan, static_cast<std::size_t>(file->course) - 1,
                                *readings, threads);
  if (!again) return tl::unexpected(in_file(again.error(), checks));
  answer.plan = std::move(again->plan);
  answer.checked = std::move(again->checked);
  return answer;
}

/// The pictures that were asked for, of the first course.
Result<void> draw(const Asked& asked, const wire::PlanAnswer& answer, Executor& threads) {
  for (const auto& [flag, lifted] :
       {std::pair{"--chart", false}, std::pair{"--chart-lifted", true}}) {
    const std::string path = option(asked, flag);
    if (path.empty()) continue;
    if (answer.plan.courses.empty()) {
      return fail(ErrorCode::unreachable, "no course is left to draw", flag, "leave it out");
    }
    const auto drawn = draw_day({answer.head, answer.plan.zones, answer.plan.courses.front()}, path,
                                lifted, threads);
    if (!drawn) return tl::unexpected(drawn.error());
  }
  return {};
}

}  // namespace

Result<Said> run_plan(const Asked& asked) {
  const auto file = read_case(asked);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  const std::span<const plan::Look> looks =
      file->looks.empty() ? std::span<const plan::Look>(plan::default_looks()) : file->looks;
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto answer = answer_of(asked, *head, looks, *threads);
  if (!answer) return tl::unexpected(answer.error());
  if (const auto drawn = draw(asked, *answer, *threads); !drawn) {
    return tl::unexpected(drawn.error());
  }
  return Said{asked.json ? wire::encode(*answer) + '\n' : plan_report(asked.look, *answer),
              answer->plan.refused() ? kExitRefused : kExitDone};
}

}  // namespace hw::apps
