// SPDX-License-Identifier: GPL-3.0-or-later
#include "sampling_options.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cstdint>
#include <memory>
#include <utility>

#include "areo/core/error.hpp"
#include "failure.hpp"
#include "progress.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

std::uint64_t whole_number(const std::string& text, const char* what, const char* hint) {
  std::uint64_t n = 0;
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, n);
  if (error != std::errc{} || stop != end)
    throw ParseError{fmt::format("'{}' is not a {}", text, what), text, 0, text.size(), hint};
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

wording::SamplingRequest sampling_request(const SamplingOptions& o) {
  wording::SamplingRequest request{.wanted = o.wanted};
  if (!o.seed.empty())
    request.seed = whole_number(o.seed, "seed", "a whole number, 0 or more, of up to 19 digits");
  request.trials = trials_from_text(o.trials);
  request.progress = [] {
    return [bar = std::make_shared<ProgressBar>()](double fraction) { bar->show(fraction); };
  };
  return request;
}

}  // namespace areo::cli
