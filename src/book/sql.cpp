#include "huewright/book/sql.h"

namespace hw::book {

std::string text_of(const Cell& cell) {
  const auto* text = std::get_if<std::string>(&cell);
  return text == nullptr ? "" : *text;
}

std::int64_t whole_of(const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return *whole;
  if (const auto* number = std::get_if<double>(&cell)) return static_cast<std::int64_t>(*number);
  return 0;
}

double number_of(const Cell& cell) {
  if (const auto* number = std::get_if<double>(&cell)) return *number;
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return static_cast<double>(*whole);
  return 0;
}

Result<void> in_transaction(Sql& sql, bool writes, const std::function<Result<void>()>& work) {
  if (auto begun = sql.begin(writes); !begun) return begun;
  if (auto done = work(); !done) {
    sql.rollback();
    return done;
  }
  if (auto kept = sql.commit(); !kept) {
    sql.rollback();
    return kept;
  }
  return {};
}

}  // namespace hw::book
