// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Counts as figures of a document, and what is asked of them.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

namespace areo::property {

inline std::string percent(int part, int of) {
  return of == 0 ? "-" : fmt::format("{:.1f}", 100.0 * part / of);
}

/// So many percent of them, and of no fewer than a hundred.
inline void expect_at_most(double most_percent, int part, int of, std::string_view what) {
  EXPECT_GE(of, 100) << what;
  EXPECT_LE(100.0 * part, most_percent * of) << what << ": " << part << " of " << of;
}

/// A document holds these figures, where as many cases were drawn as usual, and as always.
/// AREO_PRINT=FILE writes them.
/// @param file  in docs/explanation
inline void expect_written(const std::string& figures, const std::string& file, bool usual_cases) {
  if (const char* to = std::getenv("AREO_PRINT")) std::ofstream{to} << figures;
  if (std::getenv("AREO_TEST_SEED") != nullptr || !usual_cases) return;
  std::ifstream in{AREO_TABLES_DIR "/../docs/explanation/" + file};
  const std::string written{std::istreambuf_iterator<char>{in}, {}};
  EXPECT_EQ(written, figures);
}

}  // namespace areo::property
