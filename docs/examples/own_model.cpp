// A model of one's own: the alcohol in a glass, and by how much one drink is stronger than another.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const Hydrometer<Gravity> stem{.name = "stem-1"};
  const auto wort = stem.read(1.050_sg, 20_degC);
  const Drink today = alcohol({.original = wort, .present = stem.read(1.011_sg, 20_degC)});
  const Drink before = alcohol({.original = wort, .present = stem.read(1.020_sg, 20_degC)});
  const auto grams_of_ethanol = [](StrengthByMass s, Mass m) { return s.value() / 100 * m; };
  std::cout << evaluate(grams_of_ethanol, today.strength_by_mass, within(250_g, 5_g)) << '\n';
  std::cout << today.strength - before.strength << '\n';  // one stem, one wort: less than each ±
}
