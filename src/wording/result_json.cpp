// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/result_json.hpp"

#include <utility>

#include "areo/wording/notes.hpp"
#include "result_value.hpp"

namespace areo::wording {
namespace {

text::Json sampling_value(const measurement::Result& result, const analysis::Sampled& sampled) {
  const auto word = [](uncertainty::Agreement a) {
    switch (a) {
      case uncertainty::Agreement::agree: return "agree";
      case uncertainty::Agreement::differ: return "differ";
      case uncertainty::Agreement::cannot_tell: return "cannot_tell";
    }
    return "";
  };
  text::Json j{{"trials", sampled.trials},
               {"seed", sampled.seed},
               {"converged", sampled.converged},
               {"beyond_fraction", sampled.beyond}};
  for (std::size_t k = 0; k < sampled.quantities.size(); ++k) {
    const auto& [output, comparison] = sampled.quantities[k];
    j[result.quantities[k].key] = {{"mean", output.mean + 0.0},
                                   {"standard_uncertainty", output.u},
                                   {"symmetric_low", output.symmetric.lo + 0.0},
                                   {"symmetric_high", output.symmetric.hi + 0.0},
                                   {"shortest_low", output.shortest.lo + 0.0},
                                   {"shortest_high", output.shortest.hi + 0.0},
                                   {"scatter", output.scatter},
                                   {"agreement", word(comparison.verdict)}};
  }
  return j;
}

}  // namespace

void add_sampling(text::Json& to, const ReportedResult& reported) {
  if (const std::string reason = reported.reason(); !reason.empty()) to["sampling_reason"] = reason;
  if (!reported.refused().empty()) to["sampling_refused"] = reported.refused();
  if (const auto* sampled = reported.sampled())
    to["sampling"] = sampling_value(reported.result(), *sampled);
}

std::string json_line(const measurement::Result& result, text::Json head) {
  for (const measurement::Quantity& q : result.quantities)
    head[q.key] = text::quantity_json(q.value, q.unit);
  head["notes"] = all_notes(result);
  return text::dump(head);
}

std::string json_line(const measurement::Result& result) {
  return json_line(result, text::Json::object());
}

std::string json_line(const ReportedResult& reported, const std::string& state) {
  text::Json head = text::Json::object();
  if (!state.empty()) head["state"] = state;
  add_sampling(head, reported);
  return json_line(reported.result(), std::move(head));
}

void add_weighed(text::Json& to, const calibration::WeighedSolution& weighed) {
  to["solute"] = weighed.solute == calibration::Solute::sucrose ? "sugar" : "salt";
  to["solute_g"] = text::number_json(weighed.solute_g);
  to["water_g"] = text::number_json(weighed.water_g);
}

std::string solution_json(const calibration::WeighedSolution& weighed,
                          const measurement::Result& shows) {
  text::Json head = text::Json::object();
  add_weighed(head, weighed);
  return json_line(shows, std::move(head));
}

}  // namespace areo::wording
