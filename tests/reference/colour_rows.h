#pragma once
// Short access to the rows of a test table; a wrong column name fails the test at once.
#include <cstdlib>

#include "huewright/colour/lab.h"
#include "support/reference.h"

namespace hw::colour::test {

inline double num(const Table& table, std::size_t row, std::string_view column) {
  const auto value = table.number(row, column);
  if (!value) {
    ADD_FAILURE() << one_line(value.error());
    std::abort();
  }
  return *value;
}

inline std::string str(const Table& table, std::size_t row, std::string_view column) {
  const auto value = table.text(row, column);
  if (!value) {
    ADD_FAILURE() << one_line(value.error());
    std::abort();
  }
  return *value;
}

inline Observer observer(const Table& table, std::size_t row) {
  return num(table, row, "observer_deg") == 2 ? Observer::deg2 : Observer::deg10;
}

}  // namespace hw::colour::test
