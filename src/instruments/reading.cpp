// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/reading.hpp"

#include <fmt/format.h>

#include <utility>

#include "areo/physics/surface.hpp"
#include "indication.hpp"

namespace areo::instruments {
namespace {

uncertainty::Input meniscus_input(const Hydrometer& h) {
  using uncertainty::Origin;
  const auto of = [&](uncertainty::Input input) {
    input.thing = h.identity;
    return from(Origin::meniscus, std::move(input));
  };
  if (h.meniscus_height)
    return of(uncertainty::rectangular(
        h.name + ": height of the meniscus", uncertainty::unit_of_scale, *h.meniscus_height,
        h.division / 2, "stated for the instrument, within half a division"));
  constexpr double half_width = 0.4;
  return of(
      uncertainty::rectangular(h.name + ": height of the meniscus", uncertainty::unit_of_scale,
                               usual_meniscus_divisions(h) * h.division, half_width * h.division,
                               "what water climbs a stem like this, within 0.4 divisions"));
}

uncertainty::Input stem_input(const Hydrometer& h, const char* what, const char* unit,
                              const Known& known, uncertainty::Origin origin) {
  uncertainty::Input input = uncertainty::rectangular(
      fmt::format("{}: {}", h.name, what), unit, known.value, known.half_width, known.provenance);
  input.thing = h.identity;
  return from(origin, std::move(input));
}

}  // namespace

HydrometerInputs add_hydrometer(uncertainty::Inputs& inputs, const Hydrometer& h,
                                const Correction& correction) {
  uncertainty::Input glass =
      uncertainty::rectangular(h.name + ": expansion of the glass", "1/°C", h.glass_expansion_per_c,
                               glass_expansion_half_width_per_c,
                               "conventional value [iso1768]; spread of glasses from memory");
  glass.thing = h.identity;
  using uncertainty::Origin;
  const Stem stem = stem_of(h);
  const uncertainty::Input made_for =
      stem_input(h, "surface tension it was made for", "mN/m", stem.made_for_mn_m, Origin::surface);
  return {h,
          add_correction(inputs, {h.identity, h.name}, uncertainty::unit_of_scale, correction),
          inputs.add(from(Origin::glass, std::move(glass))),
          inputs.add(meniscus_input(h)),
          inputs.add(stem_input(h, "diameter of the stem", "mm", stem.diameter_mm, Origin::stem)),
          inputs.add(stem_input(h, "mass", "g", stem.mass_g, Origin::stem)),
          inputs.add(made_for),
          made_for.value,
          made_for.u};
}

double HydrometerInputs::correction_at(const uncertainty::Point& x, double indication) const {
  const double made_for = (x[made_for_mn_m] - made_for_estimate) / u_made_for;
  return correction.at(x, indication) + made_for * correction.correction.u_surface;
}

double HydrometerInputs::surface_factor_at(const uncertainty::Point& x,
                                           const SurfaceTension& liquid) const {
  return surface_factor(metres(x[diameter_mm] / 1000), grams(x[mass_g]), liquid,
                        newtons_per_metre(x[made_for_mn_m] / 1000));
}

Density HydrometerInputs::density(const uncertainty::Point& x, double corrected, ModelTemperature t,
                                  const SurfaceTension& liquid) const {
  return surface_factor_at(x, liquid) * density_from_indication(hydrometer, corrected, t, x[glass]);
}

ReadingInputs::ReadingInputs(uncertainty::Inputs& inputs, const HydrometerInputs& hydrometer,
                             const HydrometerReading& r, const std::string& of,
                             const std::optional<CorrectionInputs>& shared_thermometer,
                             LiquidSurface surface)
    : hydrometer_{hydrometer},
      meniscus_{r.meniscus},
      indication_{add_indication(inputs, of,
                                 {r.indication, r.half_width, hydrometer.hydrometer.division,
                                  r.origin, r.repeated, r.identity})},
      temperature_{add_temperature(inputs, of, r.temperature, shared_thermometer)} {
  if (surface == LiquidSurface::drink) {
    uncertainty::Input pull = uncertainty::rectangular(
        "surface tension of " + of, "mN/m", 0, physics::surface_half_width_mn_m,
        "beside that of ethanol and water [vazquez1995], from memory: judgement");
    pull.thing = r.identity;
    pull.what = "surface tension";
    pull.of = of;
    surface_mn_m_ = inputs.add(from(uncertainty::Origin::surface, std::move(pull)));
  }
  require_on_scale(hydrometer.hydrometer, r.indication);
}

double ReadingInputs::level_indication(const uncertainty::Point& x) const {
  // The numbers of a hydrometer rise downwards: the top of the meniscus shows a smaller one than
  // the level surface would.
  const double climb = meniscus_ == Meniscus::top ? x[hydrometer_.meniscus] : 0;
  return x[indication_] + climb;
}

double ReadingInputs::corrected_indication(const uncertainty::Point& x) const {
  return level_indication(x) + hydrometer_.correction_at(x, x[indication_]);
}

ModelTemperature ReadingInputs::temperature(const uncertainty::Point& x) const {
  return temperature_.at(x);
}

SurfaceTension ReadingInputs::surface(const uncertainty::Point& x, EthanolFraction ethanol) const {
  const SurfaceTension usual = surface_of(ethanol, temperature(x));
  return surface_mn_m_ ? usual + newtons_per_metre(x[*surface_mn_m_] / 1000) : usual;
}

Density ReadingInputs::density(const uncertainty::Point& x, EthanolFraction ethanol) const {
  return hydrometer_.density(x, corrected_indication(x), temperature(x), surface(x, ethanol));
}

double ReadingInputs::expected(const uncertainty::Point& x, Density true_density) const {
  const double factor = hydrometer_.surface_factor_at(x, surface(x, EthanolFraction{0}));
  return ideal_indication(hydrometer_.hydrometer, true_density / factor, temperature(x),
                          x[hydrometer_.glass]);
}

double ReadingInputs::shortfall(const uncertainty::Point& x, Density true_density) const {
  return expected(x, true_density) - level_indication(x);
}

}  // namespace areo::instruments
