// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/reported.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/uncertainty/decision.hpp"
#include "areo/wording/quantity_lines.hpp"

namespace areo::wording {
namespace {

using analysis::SampledQuantity;
using measurement::Quantity;
using uncertainty::Agreement;

// Nobody asked to wait: a second or two.
constexpr std::size_t unasked_trials = 100'000;

}  // namespace

ReportedResult::ReportedResult(const measurement::Result& result, const SamplingRequest& request,
                               bool full, ReportingPlan plan)
    : result_{&result}, request_{request}, full_{full}, plan_{std::move(plan)} {
  if (!called_for()) return;
  try {
    take_sample();
  } catch (const Error& e) {
    if (request_.wanted) throw;
    refused_ = e.what();
  }
}

bool ReportedResult::called_for() {
  if (request_.wanted) return true;
  if (!plan_.check) return false;
  const auto& shown = plan_.shown;
  for (const auto& [k, why] : analysis::beyond_the_law(*result_)) {
    const Quantity& q = result_->quantities[k];
    if (!shown.empty() && std::find(shown.begin(), shown.end(), q.key) == shown.end()) continue;
    if (beyond_.empty()) why_ = why;
    beyond_ += (beyond_.empty() ? "" : ", ") + q.name;
  }
  return !beyond_.empty();
}

void ReportedResult::take_sample() {
  analysis::SamplingPlan plan;
  if (request_.seed) plan.seed = *request_.seed;
  plan.min_trials = request_.trials;
  if (!request_.wanted) plan.max_trials = unasked_trials;
  if (request_.progress) plan.progress = request_.progress();
  sampled_ = sample_of(*result_, plan, sample_);
  if (plan_.also != nullptr) (void)sample_of(*plan_.also, plan, other_sample_);
}

analysis::Sampled ReportedResult::sample_of(const measurement::Result& of,
                                            analysis::SamplingPlan plan,
                                            std::vector<double>& kept) const {
  for (std::size_t k = 0; k < of.quantities.size(); ++k) {
    const Quantity& q = of.quantities[k];
    if (q.key != plan_.keep) continue;
    plan.keep.push_back(k);
    plan.min_trials =
        std::max(plan.min_trials, uncertainty::trials_for_bounds(q.value, plan_.level));
  }
  analysis::Sampled all = analysis::sample(of, plan);
  for (const std::size_t k : plan.keep) kept = std::move(all.quantities[k].output.sample);
  return all;
}

const SampledQuantity* ReportedResult::find(const std::string& key) const {
  if (!sampled_) return nullptr;
  for (std::size_t k = 0; k < sampled_->quantities.size(); ++k)
    if (result_->quantities[k].key == key) return &sampled_->quantities[k];
  return nullptr;
}

const SampledQuantity* ReportedResult::differing(const std::string& key) const {
  const SampledQuantity* s = find(key);
  return s != nullptr && s->comparison.verdict == Agreement::differ ? s : nullptr;
}

std::string ReportedResult::text(const Quantity& q) const { return text(q, 1, q.unit); }

std::string ReportedResult::text(const Quantity& q, double factor, const std::string& unit) const {
  if (const SampledQuantity* s = differing(q.key))
    return text::interval_text(s->output.mean * factor,
                               {s->output.symmetric.lo * factor, s->output.symmetric.hi * factor},
                               unit, full_);
  return text::value_text(
      {q.value.estimate * factor, q.value.u * factor, q.value.degrees_of_freedom}, unit, full_);
}

std::vector<std::string> ReportedResult::lines(const std::vector<Quantity>& quantities) const {
  return quantity_lines(quantities, [this](const Quantity& q) { return text(q); });
}

std::vector<std::string> ReportedResult::summary(const std::vector<Quantity>& shown) const {
  std::vector<std::string> lines;
  const auto line = [&](std::string text) { lines.push_back(std::move(text)); };
  if (sampled_ && !beyond_.empty())
    line(fmt::format("sampled unasked, as the law of propagation is too simple for {}", beyond_));
  if (!refused_.empty()) {
    line(fmt::format("take ± as a rough size: the law of propagation is too simple for {},",
                     beyond_));
    line("  and sampling failed: " + refused_);
  }
  if (!sampled_) return lines;
  const auto has = [&](Agreement a) {
    return std::any_of(shown.begin(), shown.end(), [&](const Quantity& q) {
      const SampledQuantity* s = find(q.key);
      return s != nullptr && s->comparison.verdict == a;
    });
  };
  const std::string what =
      fmt::format("{} trials, seed {}", text::count_text(sampled_->trials), sampled_->seed);
  if (!sampled_->converged)
    line(fmt::format("sampling is not stable after {}: its last digits may be off{}", what,
                     request_.wanted ? "" : "; --monte-carlo takes more"));
  if (has(Agreement::differ)) {
    line(fmt::format("sampling differs, so its 95 % stand in brackets instead of ±{}",
                     sampled_->converged ? ": " + what : ""));
    add_shortest(shown, lines);
  } else if (has(Agreement::cannot_tell)) {
    line("  whether it agrees is not known; the numbers here do without it");
  } else if (sampled_->converged) {
    line("sampling agrees: " + what);
  }
  if (sampled_->beyond > 0)
    line(fmt::format("  left out, as beyond the models: {:.2g} % of the trials",
                     100 * sampled_->beyond));
  return lines;
}

void ReportedResult::add_shortest(const std::vector<Quantity>& shown,
                                  std::vector<std::string>& lines) const {
  for (const Quantity& q : shown) {
    const SampledQuantity* s = differing(q.key);
    if (s == nullptr) continue;
    const auto& [symmetric, shortest] = std::pair{s->output.symmetric, s->output.shortest};
    // Where it is no shorter in print, where it lies says little: of a flat top each part is as
    // good.
    const double gain = (symmetric.hi - symmetric.lo) - (shortest.hi - shortest.lo);
    if (gain > 2 * s->comparison.tolerance)
      lines.push_back(fmt::format("  shortest interval, {}: {}", q.name,
                                  text::interval_text(shortest, q.unit, full_)));
  }
}

std::string ReportedResult::reason() const {
  if (beyond_.empty()) return {};
  return fmt::format("the law of propagation is too simple for {}: {}", beyond_, why_);
}

}  // namespace areo::wording
