#include <thread>

#include "case_input.h"
#include "command.h"
#include "huewright/book/planning.h"
#include "huewright/wire/checks_file.h"
#include "huewright/wire/json.h"
#include "input.h"
#include "open_book.h"
#include "page.h"
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
  // Without a course nothing runs that could be checked; the refusals are the answer.
  if (checks.empty() || answer.plan.courses.empty()) return answer;
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
  for (const plan::CheckReading& reading : *readings) {
    if (!reading.strand_test) {
      answer.now_min = std::max(answer.now_min.value_or(0), reading.minute);
    }
  }
  return answer;
}

/// The pictures that were asked for, of the first course: the files written.
Result<std::vector<std::string>> draw(const Asked& asked, const wire::PlanAnswer& answer,
                                      Executor& threads) {
  std::vector<std::string> all;
  for (const std::string_view flag : {"--chart", "--chart-lifted", "--fade-chart", "--tiles"}) {
    const std::string path = option(asked, flag.data());
    if (path.empty()) continue;
    if (answer.plan.courses.empty()) {
      return fail(ErrorCode::unreachable, "no course is left to draw", std::string(flag),
                  "leave it out");
    }
    const DrawnCourse drawn{answer.head, answer.plan.zones, answer.plan.courses.front(),
                            answer.now_min};
    const auto files = flag == "--tiles"        ? draw_tiles(drawn, path, threads)
                       : flag == "--fade-chart" ? draw_fade(drawn, path, threads)
                                                : draw_day(drawn, path, flag != "--chart", threads);
    if (!files) return tl::unexpected(files.error());
    all.insert(all.end(), files->begin(), files->end());
  }
  return all;
}

/// The report with the files of its pictures, before the words that every plan ends with.
std::string told(const Asked& asked, const wire::PlanAnswer& answer,
                 const std::vector<std::string>& pictures) {
  std::string text = plan_report(asked.look, answer);
  if (pictures.empty()) return text;
  std::string list = "\nPictures of the first course\n";
  for (const std::string& file : pictures) list += "    " + file + '\n';
  const std::size_t at = text.rfind(closing_text());
  return text.insert(at == std::string::npos ? text.size() : at, list);
}

}  // namespace

namespace {

/// The case of --client, as the book has it at --at.
Result<wire::CaseFile> case_from_book(const Asked& asked) {
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const std::string at = option(asked, "--at");
  const auto moment =
      at.empty() ? Result<process::Moment>(now()) : process::moment_from_iso(at, "--at");
  if (!moment) return tl::unexpected(moment.error());
  auto next = book::next_case_of((*book)->store(), option(asked, "--client"), *moment);
  if (!next) return tl::unexpected(next.error());
  return std::move(next->file);
}

}  // namespace

Result<Said> run_plan(const Asked& asked) {
  const auto file = asked.options.contains("--client") ? case_from_book(asked) : read_case(asked);
  if (!file) return tl::unexpected(file.error());
  const auto head = wire::ready(*file);
  if (!head) return tl::unexpected(head.error());
  const std::span<const plan::Look> looks =
      file->looks.empty() ? std::span<const plan::Look>(plan::default_looks()) : file->looks;
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto answer = answer_of(asked, *head, looks, *threads);
  if (!answer) return tl::unexpected(answer.error());
  const auto pictures = draw(asked, *answer, *threads);
  if (!pictures) return tl::unexpected(pictures.error());
  return Said{asked.json ? wire::encode(*answer) + '\n' : told(asked, *answer, *pictures),
              answer->plan.refused() ? kExitRefused : kExitDone};
}

}  // namespace hw::apps
