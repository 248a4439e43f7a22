// SPDX-License-Identifier: GPL-3.0-or-later
// GSL's error handler belongs to the program that areo is linked into.
#include <gsl/gsl_errno.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <thread>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"
#include "areo/numeric/root.hpp"

namespace areo::numeric {
namespace {

int times_called = 0;
void of_the_host(const char*, const char*, int, int) { ++times_called; }

// Its own handler for the life of a test.
class HostHandler : public testing::Test {
 protected:
  void SetUp() override {
    times_called = 0;
    before_ = gsl_set_error_handler(of_the_host);
  }
  void TearDown() override { gsl_set_error_handler(before_); }
  // The handler that is set; it is set again.
  static gsl_error_handler_t* now() {
    gsl_error_handler_t* set = gsl_set_error_handler(nullptr);
    gsl_set_error_handler(set);
    return set;
  }
  gsl_error_handler_t* before_ = nullptr;
};

constexpr Sought the_x{"x", "value", 0, "", ""};

TEST_F(HostHandler, IsLeftAsItWas) {
  (void)find_root([](double x) { return x * x - 2; }, 0, 2, 1e-14, the_x);
  EXPECT_EQ(now(), of_the_host);
  (void)student_t_quantile(0.975, 3);
  EXPECT_EQ(now(), of_the_host);
}

TEST_F(HostHandler, IsNotCalledForErrorsOfAreoAndIsBackAfterThem) {
  const auto nan_between = [](double x) { return x == 0 ? -1 : x == 1 ? 1 : std::nan(""); };
  EXPECT_THROW((void)find_root(nan_between, 0, 1, 1e-12, the_x), Error);
  EXPECT_EQ(times_called, 0);
  EXPECT_EQ(now(), of_the_host);
}

TEST_F(HostHandler, IsBackAfterOneSolutionWithinAnother) {
  const auto within = [](double x) {
    return x - find_root([](double y) { return y - 0.5; }, 0, 1, 1e-12, the_x);
  };
  EXPECT_NEAR(find_root(within, 0, 0.9, 1e-12, the_x), 0.5, 1e-11);
  EXPECT_EQ(now(), of_the_host);
}

TEST_F(HostHandler, IsBackAfterManyThreads) {
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([] {
      for (int i = 0; i < 500; ++i)
        (void)find_root([](double x) { return x * x - 2; }, 0, 2, 1e-14, the_x);
    });
  for (std::thread& t : threads) t.join();
  EXPECT_EQ(now(), of_the_host);
  EXPECT_EQ(times_called, 0);
}

}  // namespace
}  // namespace areo::numeric
