#include "huewright/base/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

namespace hw {
namespace {

/// Splits one line into fields. Returns false on an unclosed quote.
bool split_fields(std::string_view line, std::vector<std::string>& fields) {
  fields.clear();
  std::string field;
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted) {
      if (c != '"') {
        field += c;
      } else if (i + 1 < line.size() && line[i + 1] == '"') {
        field += '"';
        ++i;
      } else {
        quoted = false;
      }
    } else if (c == '"' && field.empty()) {
      quoted = true;
    } else if (c == ',') {
      fields.push_back(std::exchange(field, {}));
    } else {
      field += c;
    }
  }
  fields.push_back(std::move(field));
  return !quoted;
}

}  // namespace

Table::Table(std::string name, std::vector<std::string> header,
             std::vector<std::vector<std::string>> rows, std::vector<std::size_t> lines)
    : name_(std::move(name)),
      header_(std::move(header)),
      rows_(std::move(rows)),
      lines_(std::move(lines)) {}

bool Table::has(std::string_view column) const {
  return std::find(header_.begin(), header_.end(), column) != header_.end();
}

Result<std::size_t> Table::index_of(std::string_view column) const {
  const auto at = std::find(header_.begin(), header_.end(), column);
  if (at == header_.end()) {
    return fail(ErrorCode::unknown_name, fmt::format("has no column \"{}\"", column), name_,
                "name the column in the header row");
  }
  return static_cast<std::size_t>(at - header_.begin());
}

Result<std::string> Table::text(std::size_t row, std::string_view column) const {
  const auto index = index_of(column);
  if (!index) return tl::unexpected(index.error());
  return rows_.at(row)[*index];
}

Result<double> Table::number(std::size_t row, std::string_view column) const {
  const auto field = text(row, column);
  if (!field) return tl::unexpected(field.error());
  double value = 0;
  const char* end = field->data() + field->size();
  const auto [at, error] = std::from_chars(field->data(), end, value);
  if (error != std::errc{} || at != end) {
    return fail(ErrorCode::malformed, fmt::format("\"{}\" is not a number", *field),
                fmt::format("{}:{}:{}", name_, lines_[row], column), "write it like 12.5");
  }
  return value;
}

Result<std::vector<double>> Table::numbers(std::string_view column) const {
  if (const auto index = index_of(column); !index) return tl::unexpected(index.error());
  std::vector<double> values;
  values.reserve(rows());
  for (std::size_t row = 0; row < rows(); ++row) {
    const auto value = number(row, column);
    if (!value) return tl::unexpected(value.error());
    values.push_back(*value);
  }
  return values;
}

Result<Table> parse_table(std::string_view text, std::string name) {
  std::vector<std::string> header;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::size_t> lines;
  std::vector<std::string> fields;
  std::size_t line_number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line_number;
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.empty() || line.front() == '#') continue;
    const std::string where = fmt::format("{}:{}", name, line_number);
    if (!split_fields(line, fields)) {
      return fail(ErrorCode::malformed, "a quote is not closed", where,
                  "close it on the same line");
    }
    if (header.empty()) {
      header = fields;
    } else if (fields.size() != header.size()) {
      return fail(ErrorCode::malformed,
                  fmt::format("row has {} fields, the header has {}", fields.size(), header.size()),
                  where, "give every column a field");
    } else {
      rows.push_back(fields);
      lines.push_back(line_number);
    }
  }
  if (header.empty()) {
    return fail(ErrorCode::missing, "has no header row", name, "start with the column names");
  }
  return Table(std::move(name), std::move(header), std::move(rows), std::move(lines));
}

}  // namespace hw
