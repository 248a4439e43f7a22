// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"

namespace areo::detail {
namespace {

using uncertainty::Input;
using uncertainty::Inputs;
using uncertainty::Origin;

// The formulas are one thing: what they are off by, they are off by in every result.
const Identity& formulas() {
  static const Identity the_formulas;
  return the_formulas;
}

// What a thing has one of, so that its name, which says what was measured, does not matter.
bool has_one_of(Origin origin) {
  return origin == Origin::typed || origin == Origin::reading || origin == Origin::temperature ||
         origin == Origin::cooling || origin == Origin::surface || origin == Origin::compensation;
}

// Inputs of several values, each once, and where those of each value went.
class Merged {
 public:
  /// The places of its inputs.
  std::vector<std::size_t> add(const Evidence& evidence) {
    std::vector<std::size_t> places;
    const auto before = static_cast<std::ptrdiff_t>(inputs_.all().size());
    for (const Input& input : evidence.inputs->all()) {
      // Two inputs of one value never are the same.
      const auto end = inputs_.all().begin() + before;
      const auto found = std::find_if(inputs_.all().begin(), end,
                                      [&](const Input& known) { return same_input(known, input); });
      places.push_back(found != end ? static_cast<std::size_t>(found - inputs_.all().begin())
                                    : inputs_.add(input).index);
    }
    return places;
  }
  [[nodiscard]] const Inputs& inputs() const { return inputs_; }

 private:
  Inputs inputs_;
};

}  // namespace

Evidence Evidence::exact(double number) {
  if (!std::isfinite(number)) throw Error{Errc::domain, "an exact value is a finite number"};
  static const auto none = std::make_shared<const Inputs>();
  return {{number, 0}, none, {}};
}

EvidenceOf::EvidenceOf(const measurement::Result& result, const Identity& whose)
    : result_{&result} {
  if (!result.inputs.correlations().empty())
    throw Error{Errc::domain, "a result with correlated inputs has no evidence of its own"};
  auto inputs = std::make_shared<Inputs>();
  for (Input input : result.inputs.all()) {
    if (!input.thing) input.thing = input.origin == Origin::formula ? formulas() : whose;
    inputs->add(std::move(input));
  }
  inputs_ = std::move(inputs);
}

Evidence EvidenceOf::operator()(std::string_view key) const {
  const measurement::Quantity& q = result_->at(key);
  const auto k = static_cast<std::size_t>(&q - result_->quantities.data());
  return {q.value, inputs_, result_->shares[k]};
}

Evidence single(Input input) {
  auto inputs = std::make_shared<Inputs>();
  const uncertainty::Value value{input.value, input.u, input.degrees_of_freedom};
  if (!input.thing) input.thing = Identity{};
  inputs->add(std::move(input));
  return {value, std::move(inputs), {value.u}};
}

bool same_input(const Input& a, const Input& b) {
  return a.thing == b.thing && a.origin == b.origin && a.value == b.value && a.u == b.u &&
         a.unit == b.unit && a.provenance == b.provenance &&
         (has_one_of(a.origin) || a.name == b.name);
}

Evidence sum(double estimate, std::span<const Term> terms) {
  Merged merged;
  std::vector<double> shares;
  for (const Term& term : terms) {
    const std::vector<std::size_t> places = merged.add(term.evidence);
    shares.resize(merged.inputs().all().size());
    for (std::size_t i = 0; i < places.size(); ++i)
      shares[places[i]] += term.factor * term.evidence.shares[i];
  }
  const uncertainty::Value value = combined(estimate, shares, merged.inputs());
  return {value, std::make_shared<const Inputs>(merged.inputs()), std::move(shares)};
}

double correlation(const Evidence& a, const Evidence& b) {
  if (!(a.value.u > 0) || !(b.value.u > 0)) return 0;
  Merged merged;
  const std::vector<std::size_t> in_a = merged.add(a);
  const std::vector<std::size_t> in_b = merged.add(b);
  double sum = 0;
  for (std::size_t j = 0; j < in_b.size(); ++j)
    if (in_b[j] < in_a.size()) sum += a.shares[in_b[j]] * b.shares[j];
  return sum / (a.value.u * b.value.u);
}

Evidence propagate(const std::function<double(std::span<const double>)>& model,
                   std::span<const Evidence* const> arguments) {
  Merged merged;
  struct Argument {
    double estimate;
    std::vector<std::size_t> places;
    std::vector<double> sensitivities;
  };
  std::vector<Argument> linear;
  for (const Evidence* e : arguments) {
    Argument a{e->value.estimate, merged.add(*e), e->shares};
    for (std::size_t i = 0; i < a.places.size(); ++i)
      if (const double u = e->inputs->all()[i].u; u > 0) a.sensitivities[i] /= u;
    linear.push_back(std::move(a));
  }
  const std::vector<double> middle = merged.inputs().estimates();
  const auto of_inputs = [&](const uncertainty::Point& x) {
    std::vector<double> values;
    for (const Argument& a : linear) {
      double v = a.estimate;
      for (std::size_t i = 0; i < a.places.size(); ++i)
        v += a.sensitivities[i] * (x[{a.places[i]}] - middle[a.places[i]]);
      values.push_back(v);
    }
    return std::vector{model(values)};
  };
  uncertainty::Propagation p = uncertainty::propagate(merged.inputs(), of_inputs);
  return {p.values[0], std::make_shared<const Inputs>(merged.inputs()), std::move(p.shares[0])};
}

std::vector<Contribution> budget(const Evidence& evidence) {
  measurement::Result result;
  result.quantities.push_back({"value", "the value", "", evidence.value});
  result.inputs = *evidence.inputs;
  result.shares = {evidence.shares};
  return analysis::budget(result, "value");
}

std::string text(const Evidence& evidence, const std::string& symbol) {
  return text::value_text(evidence.value, symbol);
}

}  // namespace areo::detail
