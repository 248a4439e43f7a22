// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/correct_rows.hpp"

#include <memory>

#include "areo/entry/corrected.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/stream/rise_detector.hpp"

namespace areo::stream {

StreamJob correct_rows(entry::ReadingResolver& resolver, const CorrectDefaults& defaults,
                       const std::vector<physics::Scale>& to) {
  for (const std::string& t : {defaults.temperature, defaults.original_temperature})
    entry::require_temperature(t);
  if (!defaults.original.empty())
    (void)resolver.take(defaults.original, defaults.original_temperature);
  StreamJob job;
  job.needed = {"reading"};
  job.known = {"temperature", "original", "original_temperature"};
  job.results = {"correction", "density_at_t_kg_m3"};
  for (const physics::Scale& s : to) job.results.push_back(physics::scale_key(s));
  job.compute = [&resolver, defaults, to,
                 rises = std::make_shared<RiseDetector>()](const RowView& row) {
    const auto or_else = [&](const char* column, const std::string& fallback) {
      const std::string cell = row[column];
      return cell.empty() ? fallback : cell;
    };
    const entry::TypedGravity typed{row["reading"], or_else("temperature", defaults.temperature),
                                    or_else("original", defaults.original),
                                    or_else("original_temperature", defaults.original_temperature)};
    entry::Corrected c = entry::corrected(resolver, typed, to);
    rises->flag(row, typed.original, c.result, c.result.quantities[0].key);
    return RowOutcome{std::move(c.result)};
  };
  return job;
}

}  // namespace areo::stream
