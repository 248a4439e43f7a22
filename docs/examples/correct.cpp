// A warm sample: what the stem would show at 20 °C.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const Hydrometer<Gravity> stem{.name = "stem-1", .division = {0.001}};
  const auto wort = correct(stem.read(1.046_sg, {27_degC, 0.2_K}));
  std::cout << wort.reading << "  (add " << wort.correction << ")\n";
  std::cout << convert<Plato>(wort.reading) << '\n';
}
