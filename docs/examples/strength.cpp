// Two readings of a ferment on one stem become a strength, and a decision at a limit.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const Hydrometer<Gravity> stem{.name = "stem-1"};
  const Drink drink =
      alcohol({.original = stem.read(1.050_sg, 21_degC), .present = stem.read(1.011_sg, 20_degC)});
  std::cout << drink << '\n' << drink.real_extract << '\n' << drink.real_attenuation << '\n';
  std::cout << "largest part of the ±: " << drink.strength.budget().front().input.name << '\n';
  if (drink.decide(0.5_percent_vol).side == Side::above) std::cout << "above 0.5 % vol\n";
}
