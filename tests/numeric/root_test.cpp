// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/root.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

constexpr Sought the_x{"x", "value", 0, "", ""};

TEST(FindRoot, KnownRoots) {
  EXPECT_NEAR(find_root([](double x) { return x * x - 2; }, 0, 2, 1e-14, the_x), std::sqrt(2.0),
              1e-13);
  EXPECT_NEAR(find_root([](double x) { return std::cos(x) - x; }, 0, 1, 1e-14, the_x),
              0.7390851332151607, 1e-13);
}

TEST(FindRoot, RootAtAnEnd) {
  EXPECT_EQ(find_root([](double x) { return x; }, 0, 1, 1e-12, the_x), 0);
  EXPECT_EQ(find_root([](double x) { return x - 1; }, 0, 1, 1e-12, the_x), 1);
}

Errc code_of(const std::function<double(double)>& f) {
  try {
    (void)find_root(f, 0, 1, 1e-12, {"extract", "density", 700, "kg/m³", "check the reading"});
  } catch (const Error& e) {
    EXPECT_NE(std::string{e.what()}.find("extract"), std::string::npos);
    EXPECT_NE(std::string{e.what()}.find("density of 700 kg/m³"), std::string::npos);
    EXPECT_EQ(e.hint, "check the reading");
    return e.code;
  }
  ADD_FAILURE() << "no error";
  return Errc::parse;
}

TEST(FindRoot, RefusesWhatHasNoRoot) {
  EXPECT_EQ(code_of([](double x) { return x + 1; }), Errc::domain);
  EXPECT_EQ(code_of([](double) { return std::numeric_limits<double>::quiet_NaN(); }), Errc::domain);
  // Finite at both ends, NaN in between.
  EXPECT_EQ(code_of([](double x) { return x == 0   ? -1
                                          : x == 1 ? 1
                                                   : std::nan(""); }),
            Errc::no_convergence);
}

TEST(FindRoot, SaysWhatHasNoSolution) {
  try {
    (void)find_root([](double x) { return x + 1; }, 0, 0.5, 1e-12,
                    {"extract mass fraction", "density", 700, "kg/m³", "check the reading"});
    FAIL();
  } catch (const Error& e) {
    EXPECT_STREQ(e.what(), "no extract mass fraction from 0 to 0.5 has a density of 700 kg/m³");
  }
}

TEST(FindRoot, ExceptionsPassThroughUnchanged) {
  const auto f = [](double x) -> double {
    if (x > 0 && x < 1) throw std::out_of_range{"inside"};
    return x - 0.5;
  };
  EXPECT_THROW((void)find_root(f, 0, 1, 1e-12, the_x), std::out_of_range);
}

}  // namespace
}  // namespace areo::numeric
