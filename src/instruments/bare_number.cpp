// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/bare_number.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace areo::instruments {
namespace {

// Gravities of drinks and musts, between which a number of two decimals is one.
constexpr double least_usual = 0.900;
constexpr double most_usual = 1.200;
// Of syrups: nobody types these but with three decimals.
constexpr double most_syrup = 1.45;
// Indices of drinks and syrups, which no gravity of a drink reaches.
constexpr double least_index = 1.32;
constexpr double most_index = 1.55;

bool within(double v, double lo, double hi) { return v >= lo && v <= hi; }
bool is_usual(double v) { return within(v, least_usual, most_usual); }

// As far as require_on_scale() goes.
bool on_scale(double v, const Marks& m) { return within(v, m.lo - m.division, m.hi + m.division); }

// Whether the eye, which reads half a division, can see this number on the scale.
bool is_readable(double v, const Marks& m) {
  if (m.division <= 0) return true;
  const double halves = v / (m.division / 2);
  return std::abs(halves - std::round(halves)) < 1e-6;
}

Bare on_gravity_scale(const BareNumber& n, const Marks& m) {
  const auto fits = [&](double v) { return is_usual(v) || on_scale(v, m); };
  if (fits(n.value / 1000)) return {BareMeaning::thousands, n.value / 1000, n.decimals + 3};
  if (fits(n.value) && n.decimals >= 2) return {BareMeaning::mark, n.value, n.decimals};
  if (n.value == 1) return {n.decimals == 1 ? BareMeaning::mark : BareMeaning::one, 1, n.decimals};
  if (n.decimals == 0) return {BareMeaning::whole, 1 + n.value / 1000, 3};
  if (is_usual(n.value / 10) && n.decimals >= 2)
    return {BareMeaning::slipped, n.value / 10, n.decimals + 1};
  if (n.value > 1 && n.value < 2)
    return {BareMeaning::slipped, 1 + (n.value - 1) / 10, std::max(3, n.decimals + 1)};
  return {BareMeaning::other, n.value, n.decimals};
}

bool looks_like_gravity(const BareNumber& n, const Marks& m) {
  if (!on_scale(n.value, m)) return is_usual(n.value) || is_usual(n.value / 1000);
  if (m.shows == Marks::Shows::index) return false;  // nothing else is between its ends
  if (n.decimals >= 3) return within(n.value, least_usual, most_syrup);
  return n.decimals == 2 && is_usual(n.value) && !is_readable(n.value, m);
}

Bare on_other_scale(const BareNumber& n, const Marks& m) {
  if (m.shows == Marks::Shows::brix && n.decimals >= 3 && within(n.value, least_index, most_index))
    return {BareMeaning::index, n.value, n.decimals};
  if (!looks_like_gravity(n, m)) return {BareMeaning::mark, n.value, n.decimals};
  const bool thousands = is_usual(n.value / 1000);
  return {BareMeaning::gravity, thousands ? n.value / 1000 : n.value,
          thousands ? n.decimals + 3 : n.decimals};
}

bool is_gravity(const physics::Scale& scale) {
  return scale.kind == physics::ScaleKind::specific_gravity ||
         scale.kind == physics::ScaleKind::apparent_gravity;
}

}  // namespace

Marks marks_of(const Hydrometer& h) {
  return {is_gravity(h.scale) ? Marks::Shows::gravity : Marks::Shows::degrees, h.lo, h.hi,
          h.division};
}

Marks marks_of(const Refractometer& r) {
  return {r.scale == RefractometerScale::brix ? Marks::Shows::brix : Marks::Shows::index, r.lo,
          r.hi, r.division};
}

Marks marks_of(const physics::Scale& scale) {
  if (is_gravity(scale)) return {};
  constexpr double open = std::numeric_limits<double>::infinity();
  return {Marks::Shows::degrees, -open, open, 0};
}

Bare meaning_of_bare(const BareNumber& n, const Marks& marks) {
  return marks.shows == Marks::Shows::gravity ? on_gravity_scale(n, marks)
                                              : on_other_scale(n, marks);
}

bool may_be_gravity(double value) {
  constexpr double most = 1.3;
  return within(value, least_usual, most) || within(value / 1000, least_usual, most);
}

}  // namespace areo::instruments
