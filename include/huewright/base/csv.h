#pragma once
// Tables as text: lines that start with '#' are comments, then one header row, then rows. Fields
// may be quoted (RFC 4180). Used for the embedded data tables and for test data.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw {

class Table {
 public:
  Table(std::string name, std::vector<std::string> header,
        std::vector<std::vector<std::string>> rows, std::vector<std::size_t> lines);
  [[nodiscard]] std::size_t rows() const { return rows_.size(); }
  [[nodiscard]] const std::vector<std::string>& header() const { return header_; }
  [[nodiscard]] bool has(std::string_view column) const;
  /// A field as text. Error: unknown column (names file and column).
  [[nodiscard]] Result<std::string> text(std::size_t row, std::string_view column) const;
  /// A field as a number. Error: unknown column, or not a number (names file, line, column).
  [[nodiscard]] Result<double> number(std::size_t row, std::string_view column) const;
  /// A whole column of numbers.
  [[nodiscard]] Result<std::vector<double>> numbers(std::string_view column) const;

 private:
  [[nodiscard]] Result<std::size_t> index_of(std::string_view column) const;
  std::string name_;
  std::vector<std::string> header_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<std::size_t> lines_;
};

/// Parses a table. name: what errors call it. Errors: no header, a row with another number of
/// fields than the header, an unclosed quote.
[[nodiscard]] Result<Table> parse_table(std::string_view text, std::string name);

}  // namespace hw
