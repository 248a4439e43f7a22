// A drop on the prism in mid-ferment, with an original reading and without one.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const Refractometer<Brix> prism{.name = "prism-1", .compensated = true};
  const Hydrometer<Gravity> stem{.name = "stem-1"};
  const auto drop = prism.read(6.8_brix, 21_degC);
  std::cout << alcohol({.original = prism.read(12.4_brix, 22_degC), .present = drop}) << '\n';
  std::cout << alcohol_without_original(
                   {.refraction = drop, .gravity = stem.read(1.012_sg, 21_degC)})
            << '\n';
}
