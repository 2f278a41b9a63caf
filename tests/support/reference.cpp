#include "support/reference.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace hw::test {
namespace {

void write_row(const std::string& check, const Source& source, const std::string& expected,
               double got, double tolerance, double error_over_tolerance) {
  static std::ofstream rows = [] {
    const char* path = std::getenv("HW_REFERENCE_ROWS");
    if (path == nullptr) return std::ofstream();
    std::filesystem::create_directories(std::filesystem::path(path).parent_path());
    return std::ofstream(path);
  }();
  if (!rows.is_open()) return;
  rows << fmt::format("{}\t{}, {}\t{}\t{:.10g}\t{:.3g}\t{:.3f}\n", check, source.cite,
                      source.table_or_eq, expected, got, tolerance, error_over_tolerance);
  rows.flush();
}

testing::AssertionResult verdict(bool good, const std::string& check, const Source& source,
                                 const std::string& expected, double got, double ratio) {
  if (good) return testing::AssertionSuccess();
  return testing::AssertionFailure()
         << fmt::format("{} [{}, {}]: expected {}, got {:.10g}, error ÷ tolerance {:.3f}", check,
                        source.cite, source.table_or_eq, expected, got, ratio);
}

}  // namespace

testing::AssertionResult near_published(const std::string& check, const Source& source,
                                        double expected, double got, double tolerance) {
  const double ratio = std::abs(got - expected) / tolerance;
  const std::string printed = fmt::format("{:.10g}", expected);
  write_row(check, source, printed, got, tolerance, ratio);
  return verdict(ratio <= 1, check, source, printed, got, ratio);
}

testing::AssertionResult inside_published(const std::string& check, const Source& source,
                                          double low, double high, double got) {
  const double half = (high - low) / 2;
  const double ratio = std::abs(got - (low + high) / 2) / half;
  const std::string printed = fmt::format("{:.6g} to {:.6g}", low, high);
  write_row(check, source, printed, got, half, ratio);
  return verdict(low <= got && got <= high, check, source, printed, got, ratio);
}

std::string test_text(const std::string& path) {
  const char* root = std::getenv("HW_TEST_DATA");
  const std::filesystem::path file =
      std::filesystem::path(root == nullptr ? "tests/data" : root) / path;
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    std::cerr << "cannot read test data " << file << "; run through ctest, or set HW_TEST_DATA\n";
    std::abort();
  }
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

Table test_table(const std::string& path) {
  auto table = parse_table(test_text(path), path);
  if (!table) {
    std::cerr << one_line(table.error()) << '\n';
    std::abort();
  }
  return *std::move(table);
}

}  // namespace hw::test
