#pragma once
// A check against the world outside: expected value, tolerance and published source stand together.
// Each check fails its test when it is off, and is written as a row of the reference page.
#include <gtest/gtest.h>

#include <string>

#include "huewright/base/csv.h"

namespace hw::test {

/// Where an expected value was published.
struct Source {
  std::string cite;         ///< bib key of REFERENCES.bib, or 'common practice, no source'
  std::string table_or_eq;  ///< table, equation or page
};

/// Compares got with expected [same unit]; passes when |got − expected| ≤ tolerance.
/// tolerance: half a unit of the last printed digit unless a comment at the call says otherwise.
testing::AssertionResult near_published(const std::string& check, const Source& source,
                                        double expected, double got, double tolerance);

/// As near_published, for a published range: low ≤ got ≤ high.
testing::AssertionResult inside_published(const std::string& check, const Source& source,
                                          double low, double high, double got);

/// A table of tests/data by its path there, such as "colour/ciede2000.csv". Aborts the test program
/// with a message when it cannot be read.
Table test_table(const std::string& path);

/// Whole text of a file below tests/data.
std::string test_text(const std::string& path);

}  // namespace hw::test

#define EXPECT_PUBLISHED(...) EXPECT_TRUE(::hw::test::near_published(__VA_ARGS__))
#define EXPECT_PUBLISHED_RANGE(...) EXPECT_TRUE(::hw::test::inside_published(__VA_ARGS__))
