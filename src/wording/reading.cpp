// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/reading.hpp"

#include <fmt/format.h>

#include "text/json_dump.hpp"

namespace areo::wording {

std::vector<std::string> reading_lines(const notebook::ReadingRecord& r,
                                       const std::string& instrument, bool full) {
  std::vector<std::string> all{
      fmt::format("{}  {}  {}{} typed {}{}{}{}{}", r.id, r.made_at.text(),
                  r.bottle.empty() ? "" : "bottle " + r.bottle + ", ", instrument, r.typed,
                  r.temperature_typed.empty() ? "" : " at " + r.temperature_typed,
                  !r.degassed   ? ""
                  : *r.degassed ? ", degassed"
                                : ", not degassed",
                  r.stage == notebook::Stage::original ? ", original" : "",
                  r.person.empty() ? "" : ", by " + r.person)};
  if (full) all.push_back("    noted " + r.noted_at.text());
  if (!r.note.empty()) all.push_back("    note: " + r.note);
  if (r.amends) all.push_back(fmt::format("    amends {}: {}", *r.amends, r.reason));
  if (r.amended_by) all.push_back(fmt::format("    amended by {}", *r.amended_by));
  for (const auto& e : r.exclusions)
    all.push_back(fmt::format("    {} {}: {}", e.at.date(),
                              e.excluded ? "excluded" : "counts again", e.reason));
  return all;
}

std::string reading_json(const notebook::ReadingRecord& r, const std::string& instrument) {
  return text::dump({{"reading", r.id},
                     {"sample", r.sample},
                     {"bottle", r.bottle},
                     {"stage", notebook::word(r.stage)},
                     {"made_at", r.made_at.text()},
                     {"noted_at", r.noted_at.text()},
                     {"instrument", instrument},
                     {"typed", r.typed},
                     {"temperature_typed", r.temperature_typed},
                     {"degassed", text::or_null(r.degassed)},
                     {"person", r.person},
                     {"note", r.note},
                     {"amends", text::or_null(r.amends)},
                     {"reason", r.reason},
                     {"amended_by", text::or_null(r.amended_by)},
                     {"excluded", text::text_json(r.excluded())}});
}

std::string left_out_json(const notebook::ReadingRecord& r) {
  return text::dump({{"reading", r.id},
                     {"amended_by", text::or_null(r.amended_by)},
                     {"excluded", text::text_json(r.excluded())}});
}

std::string excluded_json(const char* what, notebook::Id id, const std::string& reason) {
  return text::dump({{what, id}, {"excluded", text::text_json(reason)}});
}

}  // namespace areo::wording
