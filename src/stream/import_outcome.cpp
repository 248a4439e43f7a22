// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/import_outcome.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "text/json_dump.hpp"

namespace areo::stream {
namespace {

std::string summary(const ImportOutcome& o) {
  std::string out =
      o.dry_run ? fmt::format("{} would be noted", o.good) : fmt::format("{} noted", o.noted);
  out += fmt::format(", {} there already, {} refused", o.there, o.bad);
  if (o.held > 0) out += fmt::format(", {} held back", o.held);
  if (o.all_or_nothing && o.not_noted() > 0)
    out += "; all or nothing, so nothing was noted";
  else if (o.not_noted() > 0)
    out += fmt::format("; mend these{} and import the file again: what is there is not noted twice",
                       o.held > 0 ? ", or insist with --yes," : "");
  return out;
}

}  // namespace

std::vector<std::string> import_lines(const ImportOutcome& o) {
  std::vector<std::string> all{summary(o)};
  if (!o.left_out.empty())
    all.push_back(
        fmt::format("note: left out, because areo does not know what they mean: {}; --map says it",
                    fmt::join(o.left_out, ", ")));
  for (const std::string& n : o.notes) all.push_back("note: " + n);
  return all;
}

std::string import_outcome_json(const ImportOutcome& o) {
  return text::dump({{"noted", o.noted},
                     {"known", o.there},
                     {"refused", o.bad},
                     {"held_back", o.held},
                     {"dry_run", o.dry_run},
                     {"left_out", o.left_out}});
}

}  // namespace areo::stream
