// A hydrometer is checked in water, then two readings of a ferment become a strength.
#include <areo/areo.hpp>
#include <iostream>

int main() {
  using namespace areo;
  // SG 20/20 °C, 0.990 to 1.100, division 0.002 unless stated. A copy of it is the same instrument;
  // another Hydrometer, of whatever name, is another one, and shares no error with it.
  instruments::Hydrometer stem;
  stem.name = "stem-1";

  instruments::HydrometerReading in_water;
  in_water.indication = 1.001;
  in_water.temperature.indication_c = 21;
  calibration::HydrometerChecks checks{stem};
  checks.add_in_water(in_water);
  const auto fit =
      calibration::fit_correction(checks.evaluate(), stem.division, stem.scale_length());
  const measurement::Calibrated calibrated{stem, fit.correction};

  instruments::HydrometerReading original = in_water;
  original.indication = 1.050;
  instruments::HydrometerReading present = in_water;
  present.indication = 1.011;
  const auto drink = measurement::alcohol(calibrated, present, calibrated, original);

  const auto& strength = drink.result.at("alcohol_percent_vol").value;
  std::cout << text::value_text(strength, "% vol") << '\n';

  // Scales are types: 12.5 °P is no number, and no Brix.
  const Plato p{12.5};
  std::cout << physics::convert<SpecificGravity<Ref20_20>>(p).value() << '\n';
}
