#include "sampling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/report/result_json.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/uncertainty/decision.hpp"
#include "failure.hpp"
#include "progress.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using analysis::SampledQuantity;
using measurement::Quantity;
using uncertainty::Agreement;

std::uint64_t whole_number(const std::string& text, const char* what, const char* hint) {
  std::uint64_t n = 0;
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, n);
  if (error != std::errc{} || stop != end)
    throw ParseError{fmt::format("'{}' is no {}", text, what), text, 0, text.size(), hint};
  return n;
}

std::size_t trials_from_text(const std::string& text) {
  constexpr std::uint64_t least = 50'000, most = 10'000'000;
  const char* hint = "a whole number from 50000 to 10000000";
  if (text.empty()) return 0;
  const std::uint64_t n = whole_number(text, "number of trials", hint);
  if (n < least || n > most)
    throw ParseError{fmt::format("'{}' trials are too few or too many", text), text, 0, text.size(),
                     hint};
  return n;
}

// Nobody asked to wait: a second or two.
constexpr std::size_t unasked_trials = 100'000;

}  // namespace

void add_sampling_options(const Command& command, SamplingOptions& o) {
  command.add_flag("--monte-carlo", o.wanted,
                   "evaluate a second time, by sampling; tell where that differs");
  command
      .add_option("--seed", o.seed,
                  "of the sampling: the same seed, the same numbers; 1 unless stated")
      .type_name("N");
  command
      .add_option("--trials", o.trials,
                  "of the sampling, at least; as many as the printed digits need unless stated")
      .type_name("N");
}

void check_sampling_options(const SamplingOptions& o, bool csv, const Session& session) {
  for (const auto& [given, name] :
       {std::pair{!o.seed.empty(), "--seed"}, std::pair{!o.trials.empty(), "--trials"}})
    if (given && !o.wanted)
      throw UsageError{fmt::format("{} without --monte-carlo", name),
                       fmt::format("add --monte-carlo, or leave {} out", name)};
  refuse_together(o.wanted, "--monte-carlo", csv, "--csv",
                  "sampling is for one result: give the readings of one row");
  refuse_together(session.budget.wanted, "budget", o.wanted, "--monte-carlo",
                  "a budget is that of the law of propagation: leave --monte-carlo out");
}

Told::Told(const measurement::Result& result, const SamplingOptions& o, bool full, Telling telling)
    : result_{&result}, options_{o}, full_{full}, telling_{std::move(telling)} {
  if (!called_for()) return;
  try {
    take_sample();
  } catch (const Error& e) {
    if (options_.wanted) throw;
    refused_ = e.what();
  }
}

bool Told::called_for() {
  if (options_.wanted) return true;
  if (!telling_.check) return false;
  const auto& shown = telling_.shown;
  for (const auto& [k, why] : analysis::beyond_the_law(*result_)) {
    const Quantity& q = result_->quantities[k];
    if (!shown.empty() && std::find(shown.begin(), shown.end(), q.key) == shown.end()) continue;
    if (beyond_.empty()) why_ = why;
    beyond_ += (beyond_.empty() ? "" : ", ") + q.name;
  }
  return !beyond_.empty();
}

void Told::take_sample() {
  analysis::SamplingPlan plan;
  if (!options_.seed.empty())
    plan.seed =
        whole_number(options_.seed, "seed", "a whole number, 0 or more, of up to 19 digits");
  plan.min_trials = trials_from_text(options_.trials);
  if (!options_.wanted) plan.max_trials = unasked_trials;
  ProgressBar bar;
  plan.progress = [&bar](double fraction) { bar.show(fraction); };
  sampled_ = sampled(*result_, plan, sample_);
  if (telling_.also != nullptr) (void)sampled(*telling_.also, plan, other_sample_);
}

analysis::Sampled Told::sampled(const measurement::Result& of, analysis::SamplingPlan plan,
                                std::vector<double>& kept) const {
  for (std::size_t k = 0; k < of.quantities.size(); ++k) {
    const Quantity& q = of.quantities[k];
    if (q.key != telling_.keep) continue;
    plan.keep.push_back(k);
    plan.min_trials =
        std::max(plan.min_trials, uncertainty::trials_for_bounds(q.value, telling_.level));
  }
  analysis::Sampled all = analysis::sample(of, plan);
  for (const std::size_t k : plan.keep) kept = std::move(all.quantities[k].output.sample);
  return all;
}

const SampledQuantity* Told::find(const std::string& key) const {
  if (!sampled_) return nullptr;
  for (std::size_t k = 0; k < sampled_->quantities.size(); ++k)
    if (result_->quantities[k].key == key) return &sampled_->quantities[k];
  return nullptr;
}

const SampledQuantity* Told::differing(const std::string& key) const {
  const SampledQuantity* s = find(key);
  return s != nullptr && s->comparison.verdict == Agreement::differ ? s : nullptr;
}

std::string Told::text(const Quantity& q) const { return text(q, 1, q.unit); }

std::string Told::text(const Quantity& q, double factor, const std::string& unit) const {
  if (const SampledQuantity* s = differing(q.key))
    return text::interval_text(s->output.mean * factor,
                               {s->output.symmetric.lo * factor, s->output.symmetric.hi * factor},
                               unit, full_);
  return text::value_text(
      {q.value.estimate * factor, q.value.u * factor, q.value.degrees_of_freedom}, unit, full_);
}

void Told::lines(const std::vector<Quantity>& quantities) const {
  quantity_lines(quantities, [this](const Quantity& q) { return text(q); });
}

void Told::summary(const std::vector<Quantity>& shown) const {
  if (sampled_ && !beyond_.empty())
    line(fmt::format("sampled unasked, as the law of propagation is too simple for {}", beyond_));
  if (!refused_.empty()) {
    line(fmt::format("take ± as its size, no more: the law of propagation is too simple for {},",
                     beyond_));
    line("  and sampling failed: " + refused_);
  }
  if (!sampled_) return;
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
                     options_.wanted ? "" : "; --monte-carlo takes more"));
  if (has(Agreement::differ)) {
    line(fmt::format("sampling differs, so its 95 % stand in brackets instead of ±{}",
                     sampled_->converged ? ": " + what : ""));
    shortest_lines(shown);
  } else if (has(Agreement::cannot_tell)) {
    line("  whether it agrees cannot be told; what stands here does without it");
  } else if (sampled_->converged) {
    line("sampling agrees: " + what);
  }
  if (sampled_->beyond > 0)
    line(fmt::format("  left out, as beyond the models: {:.2g} % of the trials",
                     100 * sampled_->beyond));
}

void Told::shortest_lines(const std::vector<Quantity>& shown) const {
  for (const Quantity& q : shown) {
    const SampledQuantity* s = differing(q.key);
    if (s == nullptr) continue;
    const auto& [symmetric, shortest] = std::pair{s->output.symmetric, s->output.shortest};
    // Where it is no shorter in print, where it lies says little: of a flat top each part is as
    // good.
    const double gain = (symmetric.hi - symmetric.lo) - (shortest.hi - shortest.lo);
    if (gain > 2 * s->comparison.tolerance)
      line(fmt::format("  shortest interval, {}: {}", q.name,
                       text::interval_text(shortest, q.unit, full_)));
  }
}

std::vector<std::pair<std::string, std::string>> Told::members() const {
  std::vector<std::pair<std::string, std::string>> all;
  if (!beyond_.empty())
    all.emplace_back("sampling_reason",
                     text::json_string(fmt::format("the law of propagation is too simple for {}: "
                                                   "{}",
                                                   beyond_, why_)));
  if (!refused_.empty()) all.emplace_back("sampling_refused", text::json_string(refused_));
  if (sampled_) all.emplace_back("sampling", report::sampling_json(*result_, *sampled_));
  return all;
}

}  // namespace areo::cli
