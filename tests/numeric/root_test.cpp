#include "areo/numeric/root.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

TEST(FindRoot, KnownRoots) {
  EXPECT_NEAR(find_root([](double x) { return x * x - 2; }, 0, 2, 1e-14, "x"), std::sqrt(2.0),
              1e-13);
  EXPECT_NEAR(find_root([](double x) { return std::cos(x) - x; }, 0, 1, 1e-14, "x"),
              0.7390851332151607, 1e-13);
}

TEST(FindRoot, RootAtAnEnd) {
  EXPECT_EQ(find_root([](double x) { return x; }, 0, 1, 1e-12, "x"), 0);
  EXPECT_EQ(find_root([](double x) { return x - 1; }, 0, 1, 1e-12, "x"), 1);
}

Errc code_of(const std::function<double(double)>& f) {
  try {
    (void)find_root(f, 0, 1, 1e-12, "the unknown");
  } catch (const Error& e) {
    EXPECT_NE(std::string{e.what()}.find("the unknown"), std::string::npos);
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

TEST(FindRoot, ExceptionsPassThroughUnchanged) {
  const auto f = [](double x) -> double {
    if (x > 0 && x < 1) throw std::out_of_range{"inside"};
    return x - 0.5;
  };
  EXPECT_THROW((void)find_root(f, 0, 1, 1e-12, "x"), std::out_of_range);
}

}  // namespace
}  // namespace areo::numeric
