// What to add to the mark of any good stem in a warm or cold liquid, in thousandths.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  const auto stem = without_error(Hydrometer<Gravity>{});
  for (const double t : {10, 15, 20, 25, 30}) {
    std::cout << t << " °C";
    for (const double mark : {1.000, 1.050, 1.100})
      std::cout << '\t' << 1000 * temperature_correction(stem, gravity(mark), celsius(t));
    std::cout << '\n';
  }
}
