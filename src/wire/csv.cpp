#include "huewright/wire/csv.h"

#include <algorithm>
#include <array>

#include "huewright/base/error_part.h"
#include "text_lines.h"

namespace hw::wire {
namespace {

constexpr std::string_view kFormulaStarts = "=+-@\t\r";

/// The separator that stands most often in the first row outside quotes.
char separator_of(std::string_view text) {
  constexpr std::string_view kKnown = ",;\t";
  std::array<std::size_t, kKnown.size()> counts{};
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n') break;
    if (const auto at = kKnown.find(c); at != std::string_view::npos) ++counts[at];
  }
  return kKnown[static_cast<std::size_t>(std::ranges::max_element(counts) - counts.begin())];
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text), separator_(separator_of(text)) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> all;
    while (at_ < text_.size()) {
      CsvRow row;
      row.line = line_;
      if (auto read = cells(row.cells); !read) return tl::unexpected(read.error());
      const bool blank = std::ranges::all_of(row.cells, &std::string::empty);
      if (!blank) all.push_back(std::move(row));
    }
    return all;
  }

 private:
  Result<void> cells(std::vector<std::string>& into) {
    for (;;) {
      auto cell = next() == '"' ? quoted() : Result<std::string>(bare());
      if (!cell) return tl::unexpected(cell.error());
      into.push_back(*std::move(cell));
      if (next() == separator_) {
        ++at_;
        continue;
      }
      if (next() == '\r') ++at_;
      if (next() == '\n') {
        ++at_;
        ++line_;
      }
      return {};
    }
  }

  std::string bare() {
    const std::size_t from = at_;
    while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\n') ++at_;
    std::size_t end = at_;
    if (next() != separator_ && end > from && text_[end - 1] == '\r') --end;
    return std::string(text_.substr(from, end - from));
  }

  Result<std::string> quoted() {
    const std::size_t opened = line_;
    std::string cell;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '\n') ++line_;
      if (text_[at_] != '"') {
        cell += text_[at_];
      } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
        cell += '"';
        ++at_;
      } else {
        ++at_;
        return closed(std::move(cell));
      }
    }
    return fail(ErrorCode::malformed, "the quote opened here is never closed", line_name(opened),
                "close it, or double the quotes that belong to the text");
  }

  [[nodiscard]] Result<std::string> closed(std::string cell) const {
    const char c = next();
    const bool ends = at_ >= text_.size() || c == separator_ || c == '\n' ||
                      (c == '\r' && (at_ + 1 >= text_.size() || text_[at_ + 1] == '\n'));
    if (ends) return cell;
    return fail(ErrorCode::malformed, "text stands right behind a closing quote", line_name(line_),
                "double the quotes that belong to the text");
  }

  [[nodiscard]] char next() const { return at_ < text_.size() ? text_[at_] : '\0'; }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

}  // namespace

Result<std::vector<CsvRow>> read_csv(std::string_view text) {
  text = without_mark(text);
  if (auto fit = check_text(text, kMostCsvBytes,
                            error_part("save it as UTF-8; a spreadsheet saves it as CSV UTF-8"));
      !fit) {
    return tl::unexpected(fit.error());
  }
  return Reader(text).rows();
}

std::string csv_text(std::string_view cell) {
  std::string text(cell);
  if (!text.empty() && kFormulaStarts.find(text.front()) != std::string_view::npos) {
    text.insert(text.begin(), '\'');
  }
  if (text.find_first_of(",;\t\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

std::string plain_text(std::string_view cell) {
  const bool guarded = cell.size() > 1 && cell.front() == '\'' &&
                       kFormulaStarts.find(cell[1]) != std::string_view::npos;
  return std::string(guarded ? cell.substr(1) : cell);
}

std::string csv_line(const std::vector<std::string>& written) {
  std::string line;
  for (std::size_t i = 0; i < written.size(); ++i) line += (i == 0 ? "" : ",") + written[i];
  return line + "\r\n";
}

}  // namespace hw::wire
