// huewright sheet: the papers of a visit as PDF.
#include <fmt/format.h>

#include <fstream>
#include <thread>

#include "huewright/sheets/chart_paper.h"
#include "huewright/sheets/paper.h"
#include "huewright/sheets/visit_sheets.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

Result<Said> write_sheet(const Asked& asked, const std::string& path, const std::string& pdf) {
  std::ofstream file(path, std::ios::binary);
  file << pdf;
  file.close();
  if (!file) return fail(ErrorCode::io, "cannot be written", path, "see that you may write there");
  if (asked.json) return Said{fmt::format("{{\"bytes\":{}}}\n", pdf.size())};
  return Said{path + '\n'};
}

/// The sheet round a chart, which needs no book.
Result<Said> chart_sheet(const Asked& asked, sheets::Paper paper) {
  if (asked.words.size() != 2) {
    return fail(ErrorCode::missing, "a file is asked for", "command line",
                "huewright sheet chart FILE.pdf --chart after-2014 --window 90x60");
  }
  const std::string kind = option_of(asked, "--chart");
  if (kind.empty()) {
    return fail(ErrorCode::missing, "which chart lies in the window is not said", "--chart",
                "give before-2014, after-2014 (24 patches, by when the chart was made) or grey");
  }
  const auto named = photo::chart_kind_named(kind);
  if (!named) return tl::unexpected(named.error());
  photo::ChartSheet sheet;
  sheet.kind = *named;
  if (const std::string window = option_of(asked, "--window"); !window.empty()) {
    if (auto read = photo::read_window(window, sheet); !read) {
      Error error = read.error();
      error.where = "--window";
      return tl::unexpected(error);
    }
  }
  const auto pdf = sheets::chart_paper(sheet, paper, spoken());
  if (!pdf) return tl::unexpected(pdf.error());
  return write_sheet(asked, asked.words[1], *pdf);
}

}  // namespace

Result<Said> run_sheet(const Asked& asked) {
  constexpr std::size_t kWords = 3;
  const std::string paper = option_of(asked, "--paper");
  const auto size = sheets::paper_named(paper.empty() ? "a4" : paper);
  if (!size) return tl::unexpected(size.error());
  if (!asked.words.empty() && asked.words[0] == "chart") return chart_sheet(asked, *size);
  if (asked.words.size() != kWords) {
    return fail(ErrorCode::missing, "a sheet, a visit and a file are asked for", "command line",
                "huewright sheet aftercare VISIT_ID FILE.pdf");
  }
  const auto kind = sheets::sheet_named(asked.words[0]);
  if (!kind) return tl::unexpected(kind.error());
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  auto papers = sheets::papers_of((*book)->store(), asked.words[1], process::local_date(now()),
                                  asked.language);
  if (!papers) return tl::unexpected(papers.error());
  if (auto done = sheets::plan_papers(*papers, *threads); !done) {
    return tl::unexpected(done.error());
  }
  const auto document = sheets::sheet_of(*kind, *papers);
  if (!document) return tl::unexpected(document.error());
  const auto pdf = sheets::pdf_of(*document, *size);
  if (!pdf) return tl::unexpected(pdf.error());
  return write_sheet(asked, asked.words[2], *pdf);
}

}  // namespace hw::apps
