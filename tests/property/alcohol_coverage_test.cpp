// From the checks of a new hydrometer to the alcohol of a drink, by the law of propagation: the
// correction that comes out of the checks is used for both readings of a ferment.
#include <gtest/gtest.h>

#include <cmath>

#include "areo/measurement/alcohol.hpp"
#include "stem.hpp"
#include "world.hpp"

namespace areo::property {
namespace {

TEST(Coverage, FromTheChecksToTheAlcohol) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int held = 0;
  for (int i = 0; i < cases; ++i) {
    NewStem stem{world};
    const measurement::Calibrated calibrated{stem.hydrometer, checked(world, stem)};
    const Ferment f{world, stem};
    const auto v = measurement::alcohol(calibrated, f.now, calibrated, f.first)
                       .result.at("alcohol_percent_vol")
                       .value;
    held += std::abs(v.estimate - f.strength) <= v.expanded() ? 1 : 0;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, least * cases);
  EXPECT_LE(held, most * cases);
}

}  // namespace
}  // namespace areo::property
