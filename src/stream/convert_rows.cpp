// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/convert_rows.hpp"

#include "areo/entry/converted.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo::stream {

using measurement::note::Said;

StreamJob convert_rows(const entry::ConvertTo& to) {
  StreamJob job;
  job.needed = {"value"};
  for (const physics::Scale& s : to.scales) job.results.push_back(physics::scale_key(s));
  for (const measurement::Beside b : to.beside) job.results.push_back(measurement::key_of(b));
  if (!to.stated)
    for (const char* key : {"alcohol_percent_vol", "alcohol_percent_mass", "alcohol_g_l"})
      job.results.emplace_back(key);
  job.compute = [to](const RowView& row) {
    entry::Converted c = entry::converted(row["value"], to);
    auto& notes = c.result.notes;
    if (!c.echo.empty()) notes.insert(notes.begin(), Said{c.echo});
    c.result.method_notes.clear();  // the same in every row
    if (c.strength && to.stated) notes.emplace_back(Said{entry::strengths_only});
    return RowOutcome{std::move(c.result)};
  };
  return job;
}

}  // namespace areo::stream
