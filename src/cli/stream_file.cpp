// SPDX-License-Identifier: GPL-3.0-or-later
#include "stream_file.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iostream>

#include "areo/core/error.hpp"
#include "failure.hpp"

namespace areo::cli {
namespace {

int run(std::istream& in, const std::string& name, const stream::StreamJob& job,
        const ColumnOptions& columns, const Session& session) {
  text::SaidOnce refused;
  const stream::StreamForm form{session.json, session.full};
  try {
    const auto rules = column_rules(columns, session.usual->settings());
    for (const auto& n : stream::run_stream(in, name, job, rules, form, raw_line, refused))
      error_line("note: " + n);
  } catch (...) {  // what was refused until then is told all the same
    tell_refused(refused, name, session);
    throw;
  }
  tell_refused(refused, name, session);
  return refused.empty() ? done : said_no;
}

}  // namespace

int stream_file(const std::string& file, const stream::StreamJob& job, const ColumnOptions& columns,
                const Session& session) {
  if (file == "-") return run(std::cin, "standard input", job, columns, session);
  std::ifstream in{file};
  if (!in)
    throw Error{Errc::file, fmt::format("{} cannot be read", file),
                "check the name and its rights"};
  return run(in, file, job, columns, session);
}

}  // namespace areo::cli
