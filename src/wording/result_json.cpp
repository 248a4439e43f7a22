// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/result_json.hpp"

#include "text/json_dump.hpp"

namespace areo::wording {

std::string sampling_json(const measurement::Result& result, const analysis::Sampled& sampled) {
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
  return text::dump(j);
}

std::string json_line(const measurement::Result& result,
                      const std::vector<std::pair<std::string, std::string>>& head) {
  text::Json j = text::Json::object();
  for (const auto& [key, value] : head) j[key] = text::Json::parse(value);
  for (const measurement::Quantity& q : result.quantities)
    j[q.key] = text::quantity_json(q.value, q.unit);
  j["notes"] = result.all_notes();
  return text::dump(j);
}

}  // namespace areo::wording
