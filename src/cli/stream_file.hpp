// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A file of rows, or standard input, through a stream to standard output.
#include <string>

#include "areo/stream/stream.hpp"
#include "column_options.hpp"
#include "output.hpp"

namespace areo::cli {

/// @param file  name, or "-" for standard input
/// @return      exit code: 1 if a row was bad (its reason is in `error`; on standard error each
///              reason is said once, at the end, with the lines it holds for)
/// @throws      Error{file} as run_stream()
int stream_file(const std::string& file, const stream::StreamJob& job, const ColumnOptions& columns,
                const Session& session);

}  // namespace areo::cli
