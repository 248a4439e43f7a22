// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>

#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"

int main() {
  using namespace areo;
  using namespace areo::physics;
  const Liquid must{ExtractFraction{0.125}};
  const Density rho = density(must, celsius_point(20));
  std::printf("SG %.4f\n", reading_from<SpecificGravity<Ref20_20>>(rho).value());
}
