// One mark on other scales.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const auto [p, oe, bx] = convert<Plato, Oechsle, Brix>(1.048_sg);
  std::cout << p << '\n' << oe << '\n' << bx << '\n';
  // Typed or read to ± 0.0005 only:
  std::cout << convert<Plato>(within(1.048_sg, {0.0005})) << '\n';
}
