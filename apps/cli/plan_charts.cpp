#include "plan_charts.h"

#include <fmt/format.h>

#include <filesystem>

#include "huewright/plan/course_chart.h"
#include "huewright/plan/fade_chart.h"
#include "huewright/plan/result_tiles.h"
#include "huewright/sheets/fade_chart_png.h"
#include "huewright/sheets/result_tiles_png.h"
#include "huewright/sheets/strand_chart_png.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kColumns = 240;
constexpr std::size_t kRows = 240;

/// "chart.png" and "visit-2" make "chart-visit-2.png"; blanks become dashes.
std::string beside(const std::string& path, std::string name) {
  for (char& c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (!plain) c = '-';
  }
  std::filesystem::path file(path);
  file.replace_filename(file.stem().string() + "-" + name + file.extension().string());
  return file.string();
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') {
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  }
  return words;
}

/// What a visit of a course is called: of "A; visit 2: B; visit 3: C" the visit's own part.
std::string visit_words(const std::string& name, int visit) {
  const std::string mark = fmt::format("visit {}: ", visit);
  const std::size_t at = visit > 1 ? name.find(mark) : 0;
  if (at == std::string::npos) return name;
  const std::size_t from = visit > 1 ? at + mark.size() : 0;
  return name.substr(from, name.find("; visit ", from) - from);
}

std::string title_of(const DrawnCourse& drawn, int visit) {
  const plan::Course& course = drawn.course;
  std::string title = course.name.empty() ? std::string(plan::name_of(course.kind)) : course.name;
  if (course.visits > 1) {
    title = fmt::format("visit {} of {}: {}", visit, course.visits, visit_words(title, visit));
  }
  const std::string told = retold(spoken(), title);
  return (course.draft ? said(spoken(), "Draft: {0}", {capital(told)}) : capital(told));
}

}  // namespace

Result<std::vector<std::string>> draw_day(const DrawnCourse& drawn, const std::string& path,
                                          bool shadows_lifted, Executor& executor) {
  std::vector<std::string> files;
  const auto sections = plan::sections_of(drawn.head);
  for (int visit = 1; visit <= drawn.course.visits; ++visit) {
    for (const std::string& section : sections) {
      std::string name = visit > 1 ? fmt::format("visit {}", visit) : "";
      if (section != sections.front()) name += (name.empty() ? "" : " ") + section;
      sheets::ChartPicture picture;
      picture.title = title_of(drawn, visit);
      if (sections.size() > 1) picture.title += ", " + retold(spoken(), section);
      picture.language = spoken();
      picture.shadows_lifted = shadows_lifted;
      auto course = plan::chart_course(drawn.head, drawn.beliefs, drawn.course, visit, section);
      if (visit == 1) course.now_min = drawn.now_min;
      const auto chart = plan::strand_chart(course, kColumns, kRows, drawn.head.ladder, executor);
      files.push_back(name.empty() ? path : beside(path, name));
      const auto written = sheets::write_strand_chart_png(chart, picture, files.back());
      if (!written) return tl::unexpected(written.error());
    }
  }
  return files;
}

Result<std::vector<std::string>> draw_fade(const DrawnCourse& drawn, const std::string& path,
                                           Executor& executor) {
  std::vector<std::string> files;
  const auto sections = plan::sections_of(drawn.head);
  for (const std::string& section : sections) {
    sheets::ChartPicture picture;
    picture.title = said(spoken(), "Afterwards: {0}", {title_of(drawn, drawn.course.visits)});
    if (sections.size() > 1) picture.title += ", " + retold(spoken(), section);
    picture.language = spoken();
    const auto chart =
        plan::fade_chart(plan::fade_course(drawn.head, drawn.beliefs, drawn.course, section),
                         kColumns, kRows, drawn.head.ladder, executor);
    files.push_back(section == sections.front() ? path : beside(path, section));
    const auto written = sheets::write_fade_chart_png(chart, picture, files.back());
    if (!written) return tl::unexpected(written.error());
  }
  return files;
}

Result<std::vector<std::string>> draw_tiles(const DrawnCourse& drawn, const std::string& path,
                                            Executor& executor) {
  sheets::TilesPicture picture;
  picture.title = said(spoken(), "Result: {0}", {title_of(drawn, drawn.course.visits)});
  picture.language = spoken();
  const auto tiles = plan::result_tiles(drawn.head, drawn.beliefs, drawn.course, executor);
  const auto written = sheets::write_result_tiles_png(tiles, picture, drawn.head.ladder, path);
  if (!written) return tl::unexpected(written.error());
  return std::vector<std::string>{path};
}

}  // namespace hw::apps
