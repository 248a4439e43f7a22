// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/limit.hpp"

#include <algorithm>
#include <limits>

#include "areo/core/error.hpp"

namespace areo::analysis {
namespace {

using uncertainty::Bounds;
using uncertainty::Decision;
using uncertainty::Side;

constexpr const char* strength_key = "alcohol_percent_vol";

void require_strength(const measurement::AlcoholResult& a) {
  if (!a.has_strength())
    throw Error{Errc::domain, "there is no strength to decide about",
                "the two readings contradict each other: read again"};
}

// `of` takes a result with its sample to what is asked of it; `stricter` joins the mixed culture's
// answer with that of clean yeast.
template <class Of, class Stricter>
auto answer(const measurement::AlcoholResult& a, const StrengthSamples& samples, const Of& of,
            const Stricter& stricter) {
  require_strength(a);
  auto found = of(a.result.at(strength_key).value, samples.strength);
  if (a.clean_yeast)
    stricter(found, of(a.clean_yeast->at(strength_key).value, samples.clean_yeast));
  return found;
}

void stricter_bounds(Bounds& mixed, const Bounds& yeast) {
  mixed.upper = std::max(mixed.upper, yeast.upper);
}

void stricter_decision(Decision& mixed, const Decision& yeast) {
  if (mixed.side == Side::below && yeast.side != Side::below) mixed.side = Side::cannot_tell;
  mixed.probability_below = std::min(mixed.probability_below, yeast.probability_below);
  mixed.probability_above = std::min(mixed.probability_above, yeast.probability_above);
  stricter_bounds(mixed.bounds, yeast.bounds);
}

bool decided_below(const measurement::AlcoholResult& a, double limit, double level) {
  return decide_strength(a, limit, level).side == Side::below;
}

}  // namespace

Bounds strength_bounds(const measurement::AlcoholResult& a, double level) {
  return strength_bounds(a, StrengthSamples{}, level);
}

Bounds strength_bounds(const measurement::AlcoholResult& a, const StrengthSamples& samples,
                       double level) {
  Bounds found = answer(
      a, samples,
      [&](const uncertainty::Value& v, std::span<const double> sample) {
        return sample.empty() ? uncertainty::bounds(v, level) : uncertainty::bounds(sample, level);
      },
      stricter_bounds);
  if (a.state == measurement::Fermentation::bound) found.lower = 0;
  if (a.lifted) found.upper = std::numeric_limits<double>::infinity();
  return found;
}

Decision decide_strength(const measurement::AlcoholResult& a, double limit, double level) {
  return decide_strength(a, StrengthSamples{}, limit, level);
}

Decision decide_strength(const measurement::AlcoholResult& a, const StrengthSamples& samples,
                         double limit, double level) {
  Decision found = answer(
      a, samples,
      [&](const uncertainty::Value& v, std::span<const double> sample) {
        return sample.empty() ? uncertainty::decide(v, limit, level)
                              : uncertainty::decide(sample, limit, level);
      },
      stricter_decision);
  if (a.state == measurement::Fermentation::bound) found.bounds.lower = found.probability_above = 0;
  if (a.has_bound_only() && found.side == Side::above) found.side = Side::cannot_tell;
  if (a.lifted) {
    found.bounds.upper = std::numeric_limits<double>::infinity();
    found.probability_below = 0;
    if (found.side == Side::below) found.side = Side::cannot_tell;
  }
  return found;
}

std::optional<double> least_indication_below(const measurement::HydrometerSample& present,
                                             const measurement::Original& original,
                                             ferment::Culture culture, double limit, double level) {
  const auto with = [&](double indication) {
    measurement::HydrometerSample sample = present;
    sample.reading.indication = indication;
    return measurement::alcohol(sample, original, culture);
  };
  const auto below = [&](double indication) {
    const measurement::AlcoholResult a = with(indication);
    // Above the original there is no alcohol to decide about.
    return !a.has_strength() || decided_below(a, limit, level);
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
  const measurement::AlcoholResult a = with(decided);
  // Less alcohol than none decides nothing: that reading would itself be in doubt.
  if (!a.has_strength() || a.result.at(strength_key).value.estimate < 0) return std::nullopt;
  return decided;
}

}  // namespace areo::analysis
