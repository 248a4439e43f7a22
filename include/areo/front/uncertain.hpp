// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A value with its unit, its uncertainty, and what both rest on.
//
// Two such values know what they have in common: the stem that both were read on, one reading that
// both rest on, one formula. So the ± of `a - b`, or of any function of both, is right without
// anybody stating a correlation.
#include <array>
#include <concepts>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "areo/front/evidence.hpp"
#include "areo/front/unit_of.hpp"

namespace areo {

template <class T>
class Uncertain {
 public:
  /// Of its uncertainty: a difference of two T.
  using Difference = DifferenceOf<T>;

  /// A value that is exact, such as a limit or a constant.
  // NOLINTNEXTLINE(google-explicit-constructor): so that `drink.strength - 0.5_percent_vol` works
  Uncertain(T exact) : evidence_{detail::Evidence::exact(number(exact))} {}
  /// For the library.
  explicit Uncertain(detail::Evidence evidence) : evidence_{std::move(evidence)} {}

  /// The best estimate.
  [[nodiscard]] T value() const { return UnitOf<T>::of(evidence_.value.estimate); }
  [[nodiscard]] Difference standard_uncertainty() const {
    return UnitOf<Difference>::of(evidence_.value.u);
  }
  /// The true value lies within value() ± this with the stated probability.
  [[nodiscard]] Difference expanded_uncertainty(double probability = 0.95) const {
    return UnitOf<Difference>::of(evidence_.value.expanded(probability));
  }
  [[nodiscard]] double degrees_of_freedom() const { return evidence_.value.degrees_of_freedom; }
  /// Where the uncertainty comes from, largest first; squared shares add up to the variance.
  /// @throws Error{domain} for an exact value
  [[nodiscard]] std::vector<Contribution> budget() const { return detail::budget(evidence_); }
  /// "5.09 ± 0.33 % vol": ± with about 95 %, and no more digits than it supports.
  [[nodiscard]] std::string text() const { return detail::text(evidence_, UnitOf<T>::symbol()); }
  /// The numbers behind it, in the unit of UnitOf<T>.
  [[nodiscard]] const detail::Evidence& evidence() const { return evidence_; }

  friend std::ostream& operator<<(std::ostream& out, const Uncertain& v) { return out << v.text(); }

  // Arithmetic as T has it: two points subtract to a difference, a difference can be added to
  // either, differences (and amounts) scale. Strengths of different kinds do neither.
  friend Uncertain<Difference> operator-(const Uncertain& a, const Uncertain& b) {
    return Uncertain<Difference>{sum_of(a.evidence_, 1, b.evidence_, -1)};
  }
  friend Uncertain operator+(const Uncertain& a, const Uncertain<Difference>& b) {
    return Uncertain{sum_of(a.evidence_, 1, b.evidence(), 1)};
  }
  friend Uncertain operator*(double factor,
                             const Uncertain& a) requires std::same_as<T, Difference> {
    const std::array terms{detail::Term{a.evidence_, factor}};
    return Uncertain{detail::sum(factor * a.evidence_.value.estimate, terms)};
  }

 private:
  static detail::Evidence sum_of(const detail::Evidence& a, double of_a, const detail::Evidence& b,
                                 double of_b) {
    const std::array terms{detail::Term{a, of_a}, detail::Term{b, of_b}};
    return detail::sum(of_a * a.value.estimate + of_b * b.value.estimate, terms);
  }
  detail::Evidence evidence_;
};

/// A value that lies within ± `half_width`, nothing else known. Each call states a value of its
/// own, which has nothing in common with any other.
/// @param name  for the budget: "volume of the glass"
/// @throws Error{domain} for numbers that are not finite, or a half-width below zero
template <class T>
[[nodiscard]] Uncertain<T> within(T value, DifferenceOf<T> half_width,
                                  const std::string& name = "stated value") {
  return Uncertain<T>{detail::single(from(
      uncertainty::Origin::typed, uncertainty::rectangular(name, UnitOf<T>::symbol(), number(value),
                                                           number(half_width), "stated")))};
}

/// A value known by its standard uncertainty, normal.
/// @throws Error{domain} as within()
template <class T>
[[nodiscard]] Uncertain<T> with_standard_uncertainty(T value, DifferenceOf<T> u,
                                                     const std::string& name = "stated value") {
  return Uncertain<T>{detail::single(
      from(uncertainty::Origin::typed,
           uncertainty::normal(name, UnitOf<T>::symbol(), number(value), number(u), "stated")))};
}

/// A model of one's own: any function of values, whose result is a double, a value with a unit of
/// this library, or of a type with UnitOf. What the values have in common counts; each is taken as
/// linear in what it rests on, as far as its own uncertainty goes.
/// @throws Error{domain} if the result is not finite, or the model ends within the standard
///         uncertainty on both sides; what the model throws
/// @source [gum] 5.1 (uncertainty::propagate())
template <class Model, class... T>
[[nodiscard]] auto evaluate(const Model& model, const Uncertain<T>&... values) {
  using Outcome = std::remove_cvref_t<std::invoke_result_t<const Model&, T...>>;
  const std::array<const detail::Evidence*, sizeof...(T)> evidence{&values.evidence()...};
  const auto of_numbers = [&]<std::size_t... I>(std::span<const double> x,
                                                std::index_sequence<I...>) {
    return number(Outcome{model(UnitOf<T>::of(x[I])...)});
  };
  return Uncertain<Outcome>{detail::propagate(
      [&](std::span<const double> x) { return of_numbers(x, std::index_sequence_for<T...>{}); },
      evidence)};
}

/// Correlation of two values, -1 .. 1: what they owe to the same inputs. 0 if one is exact.
template <class A, class B>
[[nodiscard]] double correlation(const Uncertain<A>& a, const Uncertain<B>& b) {
  return detail::correlation(a.evidence(), b.evidence());
}

}  // namespace areo
