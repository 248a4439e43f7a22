// A new stem is checked in water and in weighed sugar, and gets its correction.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const Hydrometer<Gravity> stem{.name = "stem-1"};
  const ReferenceLiquid sugar = weighed({.sugar = 62_g, .water = 438_g});
  const auto calibration = calibrate(stem, {in_water(stem.read(1.001_sg, 21_degC)),
                                            in_solution(stem.read(1.051_sg, 21_degC), sugar)});
  std::cout << "add " << calibration.correction(1.050_sg) << '\n' << calibration.fit.reason << '\n';
  const auto wort = correct(calibration.instrument.read(1.048_sg, 27_degC));
  std::cout << wort.reading << '\n';
}
