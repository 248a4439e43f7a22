// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A typed text that is refused: why, where, and what to do.
#include <gtest/gtest.h>

#include <cstddef>
#include <ostream>

#include "areo/core/error.hpp"

namespace areo::text {

struct Refused {
  const char* text;
  const char* what;
  std::size_t position, length;  // bytes
  const char* hint;
};
inline void PrintTo(const Refused& r, std::ostream* os) { *os << '"' << r.text << '"'; }

template <class F>
void expect_refused(const Refused& r, F&& read) {
  try {
    read();
    ADD_FAILURE() << "accepted";
  } catch (const ParseError& e) {
    EXPECT_EQ(e.code, Errc::parse);
    EXPECT_STREQ(e.what(), r.what);
    EXPECT_EQ(e.text, r.text);
    EXPECT_EQ(e.position, r.position);
    EXPECT_EQ(e.length, r.length);
    EXPECT_EQ(e.hint, r.hint);
  }
}

}  // namespace areo::text
