#include "areo/instruments/reading.hpp"

#include <cmath>
#include <utility>

#include "instruments/indication.hpp"

namespace areo::instruments {
namespace {

// Surface tension and contact angle of the liquid in hand, against those the scale was made for: a
// user's reading cannot claim better than this, in specific gravity (engineering judgement from
// the sizes in the literature, not a published value).
constexpr double surface_half_width_kg_m3 = 0.4;

constexpr double usual_meniscus_divisions = 1.4;  // [astm-d1298] table 1, from memory
constexpr double usual_meniscus_half_width = 0.5;

// A density difference in marks of the scale, where the reading is.
double marks_for(const Hydrometer& h, double indication, double delta_kg_m3) {
  const double rho = physics::density_from_mark(h.scale, indication).value();
  return std::abs(physics::mark_from_density(h.scale, kg_per_m3(rho + delta_kg_m3)) - indication);
}

uncertainty::Input meniscus_input(const Hydrometer& h) {
  using uncertainty::Origin;
  const auto of = [&](uncertainty::Input input) {
    input.thing = h.identity;
    return from(Origin::meniscus, std::move(input));
  };
  if (h.meniscus_height)
    return of(uncertainty::rectangular(h.name + ": height of the meniscus", "scale",
                                       *h.meniscus_height, h.division / 2,
                                       "stated for the instrument, within half a division"));
  return of(uncertainty::rectangular(
      h.name + ": height of the meniscus", "scale", usual_meniscus_divisions * h.division,
      usual_meniscus_half_width * h.division, "about 1.4 divisions [astm-d1298], from memory"));
}

uncertainty::InputRef add_surface(uncertainty::Inputs& inputs, const Hydrometer& h,
                                  const HydrometerReading& r, const std::string& of) {
  return inputs.add(
      from(uncertainty::Origin::surface,
           uncertainty::rectangular("surface tension of " + of, "scale", 0,
                                    marks_for(h, r.indication, surface_half_width_kg_m3),
                                    "within ± 0.0004 in specific gravity: engineering judgement")));
}

}  // namespace

HydrometerInputs add_hydrometer(uncertainty::Inputs& inputs, const Hydrometer& h,
                                const Correction& correction) {
  uncertainty::Input glass =
      uncertainty::rectangular(h.name + ": expansion of the glass", "1/°C", h.glass_expansion_per_c,
                               glass_expansion_half_width_per_c,
                               "conventional value [iso1768]; spread of glasses from memory");
  glass.thing = h.identity;
  return {h, add_correction(inputs, {h.identity, h.name}, "scale", correction),
          inputs.add(from(uncertainty::Origin::glass, std::move(glass))),
          inputs.add(meniscus_input(h))};
}

ReadingInputs::ReadingInputs(uncertainty::Inputs& inputs, const HydrometerInputs& hydrometer,
                             const HydrometerReading& r, const std::string& of,
                             const std::optional<CorrectionInputs>& shared_thermometer,
                             const std::optional<uncertainty::InputRef>& surface)
    : hydrometer_{hydrometer},
      meniscus_{r.meniscus},
      indication_{add_indication(
          inputs, of,
          {r.indication, r.half_width, hydrometer.hydrometer.division, r.origin, r.repeated})},
      surface_{surface ? *surface : add_surface(inputs, hydrometer.hydrometer, r, of)},
      temperature_{add_temperature(inputs, of, r.temperature, shared_thermometer)} {
  require_on_scale(hydrometer.hydrometer, r.indication);
}

double ReadingInputs::level_indication(const uncertainty::Point& x) const {
  // The numbers of a hydrometer rise downwards: the top of the meniscus shows a smaller one than
  // the level surface would.
  const double climb = meniscus_ == Meniscus::top ? x[hydrometer_.meniscus] : 0;
  return x[indication_] + climb + x[surface_];
}

double ReadingInputs::corrected_indication(const uncertainty::Point& x) const {
  return level_indication(x) + hydrometer_.correction.at(x, x[indication_]);
}

ModelTemperature ReadingInputs::temperature(const uncertainty::Point& x) const {
  return temperature_.at(x);
}

Density ReadingInputs::density(const uncertainty::Point& x) const {
  return density_from_indication(hydrometer_.hydrometer, corrected_indication(x), temperature(x),
                                 x[hydrometer_.glass]);
}

double ReadingInputs::expected(const uncertainty::Point& x, Density true_density) const {
  return ideal_indication(hydrometer_.hydrometer, true_density, temperature(x),
                          x[hydrometer_.glass]);
}

double ReadingInputs::shortfall(const uncertainty::Point& x, Density true_density) const {
  return expected(x, true_density) - level_indication(x);
}

}  // namespace areo::instruments
