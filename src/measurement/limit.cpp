#include "areo/measurement/limit.hpp"

#include <algorithm>

#include "areo/core/error.hpp"

namespace areo::measurement {
namespace {

using uncertainty::Side;

bool decided_below(const AlcoholResult& a, double limit, double level) {
  return decide_strength(a, limit, level).side == Side::below;
}

uncertainty::Decision never_above_a_bound(const AlcoholResult& a, uncertainty::Decision d) {
  if (a.state == Fermentation::bound && d.side == Side::above) d.side = Side::cannot_tell;
  return d;
}

}  // namespace

uncertainty::Decision decide_strength(const AlcoholResult& a, double limit, double level) {
  return never_above_a_bound(
      a, uncertainty::decide(a.result.at("alcohol_percent_vol").value, limit, level));
}

uncertainty::Decision decide_strength(const AlcoholResult& a, std::span<const double> sorted,
                                      double limit, double level) {
  return never_above_a_bound(a, uncertainty::decide(sorted, limit, level));
}

uncertainty::Decision decide_mixed(uncertainty::Decision mixed,
                                   const uncertainty::Decision& yeast) {
  if (mixed.side == Side::below && yeast.side != Side::below) mixed.side = Side::cannot_tell;
  mixed.probability_below = std::min(mixed.probability_below, yeast.probability_below);
  return mixed;
}

std::optional<double> least_indication_below(const HydrometerSample& present,
                                             const Original& original, ferment::Culture culture,
                                             double limit, double level) {
  const auto with = [&](double indication) {
    HydrometerSample sample = present;
    sample.reading.indication = indication;
    return alcohol(sample, original, culture);
  };
  const auto below = [&](double indication) {
    const AlcoholResult a = with(indication);
    // Above the original there is no alcohol to decide about.
    return a.state == Fermentation::above || decided_below(a, limit, level);
  };
  // Halved between the present reading and the end of the scale: the more is shown, the less
  // alcohol there is.
  const instruments::Hydrometer& h = present.instrument.hydrometer;
  double decided = h.hi;
  double undecided = present.reading.indication;
  if (below(undecided)) return undecided;
  const double fine = h.division / 100;
  while (decided - undecided > fine) {
    const double middle = (decided + undecided) / 2;
    (below(middle) ? decided : undecided) = middle;
  }
  const AlcoholResult a = with(decided);
  // Less alcohol than none decides nothing: that reading would itself be in doubt.
  if (a.state == Fermentation::above || a.result.at("alcohol_percent_vol").value.estimate < 0)
    return std::nullopt;
  return decided;
}

}  // namespace areo::measurement
