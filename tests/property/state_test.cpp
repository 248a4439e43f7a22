// What a ferment does must be called right, at moments when it does just that.
#include "areo/trend/state.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "ferment.hpp"

namespace areo::property {
namespace {

using trend::Form;
using trend::Phase;

constexpr int ferments = 4000;

struct Moment {
  Phase phase;
  double least_z, most_z;  // where the last reading lies
};

// Parts of those that are called right, and of those that are called something else; the rest is
// unclear.
struct Calls {
  double right, wrong;
};

Calls calls(World& world, Form form, const Moment& m) {
  int right = 0, wrong = 0, all = 0;
  while (all < ferments) {
    Ferment f{form, world.uniform(1.035, 1.070), world.uniform(0.998, 1.012), 0,
              world.uniform(0.5, 1.2)};
    f.middle = (form == Form::logistic ? 7 : 2.5) / f.rate + world.uniform(1, 3);
    const int day =
        static_cast<int>(std::floor(f.middle + world.uniform(m.least_z, m.most_z) / f.rate));
    if (day < 1 || f.z(day) < m.least_z) continue;
    ++all;
    const Phase called = trend::state_of(read_daily(world, f, day)).phase;
    right += called == m.phase;
    wrong += called != m.phase && called != Phase::unclear;
  }
  return {static_cast<double>(right) / all, static_cast<double>(wrong) / all};
}

class EachForm : public testing::TestWithParam<Form> {};

TEST_P(EachForm, IsCalledRight) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const bool even = GetParam() == Form::logistic;
  // Hardly begun (less than 0.1 % consumed); about the fastest day; a quarter of that speed; less
  // than 0.01 % left for days.
  for (const Moment& m :
       {Moment{Phase::lag, -20, even ? -7.0 : -2.0}, Moment{Phase::active, -1, 0.5},
        Moment{Phase::slowing, 2.5, 3.5}, Moment{Phase::steady, 10, 16}}) {
    const Calls c = calls(world, GetParam(), m);
    EXPECT_GE(c.right, 0.95) << static_cast<int>(m.phase);
    EXPECT_LE(c.wrong, 0.05) << static_cast<int>(m.phase);
  }
}

INSTANTIATE_TEST_SUITE_P(State, EachForm, testing::Values(Form::logistic, Form::gompertz));

}  // namespace
}  // namespace areo::property
