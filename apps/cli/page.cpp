#include "page.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "command.h"
#include "huewright/process/rules.h"

namespace hw::apps {
namespace {

constexpr std::size_t kColumns = 80;

/// Characters of a text, for alignment: bytes that do not continue one.
std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  for (const char c : text) width += (static_cast<unsigned char>(c) & 0xc0) != 0x80 ? 1 : 0;
  return width;
}

std::string_view kind_text(process::RefusalKind kind) {
  switch (kind) {
    case process::RefusalKind::never:
      return "NEVER";
    case process::RefusalKind::not_until:
      return "NOT UNTIL";
    case process::RefusalKind::caution:
      return "CAUTION";
  }
  return "";
}

Language& language_of_reports() {
  static Language language = Language::en;
  return language;
}

/// Begins a line that wrapped() has told already; never printed.
constexpr char kTold = '\x1e';

/// What stands between two or more spaces, and where it starts.
struct Cell {
  std::size_t from = 0;  ///< column
  std::string text;
};
std::vector<Cell> cells_of(std::string_view line) {
  std::vector<Cell> cells;
  for (std::size_t from = line.find_first_not_of(' '); from < line.size();) {
    const std::size_t end = std::min(line.find("  ", from), line.size());
    cells.push_back(
        {width_of(line.substr(0, from)), retold(spoken(), line.substr(from, end - from))});
    from = line.find_first_not_of(' ', end);
  }
  return cells;
}

/// Lines of one table: each column starts where it did, or two spaces behind what grew before it.
std::string told_table(const std::vector<std::vector<Cell>>& lines) {
  std::map<std::size_t, std::size_t> starts;  // by where it was
  for (const auto& cells : lines) {
    for (const Cell& cell : cells) starts[cell.from] = cell.from;
  }
  for (auto& [was, is] : starts) {
    for (const auto& cells : lines) {
      for (std::size_t i = 1; i < cells.size(); ++i) {
        if (cells[i].from != was) continue;
        is = std::max(is, starts[cells[i - 1].from] + width_of(cells[i - 1].text) + 2);
      }
    }
  }
  std::string out;
  for (const auto& cells : lines) {
    std::string line;
    std::size_t width = 0;
    for (const Cell& cell : cells) {
      const std::size_t start = std::max(starts[cell.from], width);
      line += std::string(start - width, ' ') + cell.text;
      width = start + width_of(cell.text);
    }
    out += line + '\n';
  }
  return out;
}

}  // namespace

void speak(Language language) {
  language_of_reports() = language;
}

Language spoken() {
  return language_of_reports();
}

std::string told_by_line(const std::string& text) {
  if (spoken() == Language::en) return text;
  std::string out;
  std::vector<std::vector<Cell>> table;  // lines that were not told yet
  const auto end_table = [&] {
    out += told_table(table);
    table.clear();
  };
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    const std::string_view line = std::string_view(text).substr(from, end - from);
    if (line.starts_with(kTold) || line.empty()) {
      end_table();
      out += line.substr(line.empty() ? 0 : 1);
      out += '\n';
    } else {
      table.push_back(cells_of(line));
    }
    from = end + 1;
  }
  end_table();
  return out;
}

std::string wrapped(std::string_view english, std::size_t indent, std::string_view label) {
  return as_it_is(retold(spoken(), english), indent, retold(spoken(), label));
}

std::string as_it_is(std::string_view text, std::size_t indent, std::string_view label) {
  const std::string told = spoken() == Language::en ? "" : std::string(1, kTold);
  const std::size_t start = width_of(label);
  std::string out = told + std::string(label) + std::string(indent - std::min(indent, start), ' ');
  std::size_t column = std::max(indent, start);
  bool line_is_empty = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    text.remove_prefix(space == text.npos ? text.size() : space + 1);
    const std::size_t width = width_of(word);
    if (!line_is_empty && column + 1 + width > kColumns) {
      out += '\n' + told + std::string(indent, ' ');
      column = indent;
    } else if (!line_is_empty) {
      out += ' ';
      ++column;
    }
    out += word;
    column += width;
    line_is_empty = false;
  }
  return out + '\n';
}

std::string told_line(const std::string& line) {
  return (spoken() == Language::en ? "" : std::string(1, kTold)) + line + '\n';
}

std::string plain(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != text.npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string findings_text(const wire::Findings& found) {
  constexpr std::size_t kIndent = 11;  // the longest label and two spaces
  std::string out;
  for (const auto* list : {&found.refusals, &found.cautions}) {
    for (const auto& one : *list) {
      out += wrapped(one.text, kIndent, kind_text(one.kind));
      out += as_it_is(said(spoken(), "Source: {0}", {one.source}), kIndent);
    }
  }
  return out.empty() ? out : out + '\n';
}

std::string closing_text() {
  return '\n' + wrapped(process::closing_advice());
}

int exit_code_of(const wire::Findings& found) {
  return found.refusals.empty() ? kExitDone : kExitRefused;
}

std::string bowl_text(const wire::BowlAnswer& bowl) {
  const auto figure = [](double value) { return decimal(spoken(), value, 1); };
  std::string text = figure(bowl.grams) + " g";
  text += bowl.peroxide_percent > 0 ? said(spoken(), ", {0} % peroxide ({1} volume)",
                                           {figure(bowl.peroxide_percent), figure(bowl.volume)})
                                    : said(spoken(), ", no peroxide", {});
  text += bowl.powder_percent > 0
              ? said(spoken(), ", {0} % lightener", {figure(bowl.powder_percent)})
              : said(spoken(), ", no lightener", {});
  return text;
}

}  // namespace hw::apps
