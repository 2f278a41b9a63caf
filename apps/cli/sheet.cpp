// huewright sheet: the papers of a visit as PDF.
#include <fmt/format.h>

#include <fstream>
#include <thread>

#include "huewright/sheets/paper.h"
#include "huewright/sheets/visit_sheets.h"
#include "open_book.h"

namespace hw::apps {

Result<Said> run_sheet(const Asked& asked) {
  constexpr std::size_t kWords = 3;
  if (asked.words.size() != kWords) {
    return fail(ErrorCode::missing, "a sheet, a visit and a file are asked for", "command line",
                "huewright sheet aftercare VISIT_ID FILE.pdf");
  }
  const auto kind = sheets::sheet_named(asked.words[0]);
  if (!kind) return tl::unexpected(kind.error());
  const std::string paper = option_of(asked, "--paper");
  const auto size = sheets::paper_named(paper.empty() ? "a4" : paper);
  if (!size) return tl::unexpected(size.error());
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  const auto papers =
      sheets::papers_of((*book)->store(), asked.words[1], process::local_date(now()), *threads);
  if (!papers) return tl::unexpected(papers.error());
  const auto document = sheets::sheet_of(*kind, *papers);
  if (!document) return tl::unexpected(document.error());
  const auto pdf = sheets::pdf_of(*document, *size);
  if (!pdf) return tl::unexpected(pdf.error());
  const std::string& path = asked.words[2];
  std::ofstream file(path, std::ios::binary);
  file << *pdf;
  file.close();
  if (!file) return fail(ErrorCode::io, "cannot be written", path, "see that you may write there");
  if (asked.json) return Said{fmt::format("{{\"bytes\":{}}}\n", pdf->size())};
  return Said{path + '\n'};
}

}  // namespace hw::apps
